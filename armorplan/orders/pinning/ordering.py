"""The order in which the pins of a round go in, found from its back.

What may be the last one is asked of all the others; since more pins never make a pin easier to put
in, an order found from the back never meets a dead end. Where it can be, each pin after the first
holds a part that is held already, so that nothing has to be held up in the air.
"""

from collections.abc import Callable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

MayBeLast = Callable[[str, frozenset[str]], bool]
"""Whether a pin can be put in once others are in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PinOrder:
    """The order of a round's pins.

    Attributes:
        stuck: pins that cannot be put in once those before them are in, in whatever order.
    """

    order: tuple[str, ...]
    stuck: frozenset[str] = frozenset()


def order_of_pins(
    parts: Mapping[str, AbstractSet[str]], may_be_last: MayBeLast, place: Mapping[str, float]
) -> PinOrder:
    """Return the order of pins.

    Args:
        parts: by pin, the parts it holds together.
        may_be_last: asked of a pin and all that are in before it.
        place: where each would stand if nothing were in its way.
    """
    left, found, stuck = set(parts), list[str](), set[str]()
    while left:
        last = max(lasts(parts, left, may_be_last), key=lambda pin: (place[pin], pin), default="")
        if not last:
            # What goes in at no time is given up first: then the rest may find an order.
            never = [pin for pin in left if not may_be_last(pin, frozenset())]
            last = max(never or left, key=lambda pin: (place[pin], pin))
            stuck.add(last)
        found.append(last)
        left.discard(last)
    return PinOrder(order=tuple(reversed(found)), stuck=frozenset(stuck))


def lasts(
    parts: Mapping[str, AbstractSet[str]], pins: AbstractSet[str], may_be_last: MayBeLast
) -> tuple[str, ...]:
    """Return the pins that may go in last, after all others of some; what leaves these in one first."""
    allowed = [pin for pin in sorted(pins) if may_be_last(pin, frozenset(pins - {pin}))]
    pieces = count_pieces(parts, pins)
    whole = [pin for pin in allowed if count_pieces(parts, pins - {pin}) <= pieces]
    return tuple(whole or allowed)


def count_pieces(parts: Mapping[str, AbstractSet[str]], pins: AbstractSet[str]) -> int:
    """Return in how many pieces pins hold their parts together."""
    left, pieces = set(pins), 0
    while left:
        pieces += 1
        reached = {left.pop()}
        while reached:
            held = set[str]().union(*(parts[pin] for pin in reached))
            reached = {pin for pin in left if parts[pin] & held}
            left -= reached
    return pieces
