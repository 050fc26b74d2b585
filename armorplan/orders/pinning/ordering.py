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
        last = _last(parts, left, may_be_last, place)
        if not last:
            # What goes in at no time is given up first: then the rest may find an order.
            never = [pin for pin in left if not may_be_last(pin, frozenset())]
            last = max(never or left, key=lambda pin: (place[pin], pin))
            stuck.add(last)
        found.append(last)
        left.discard(last)
    return PinOrder(order=tuple(reversed(found)), stuck=frozenset(stuck))


def _last(
    parts: Mapping[str, AbstractSet[str]],
    left: AbstractSet[str],
    may_be_last: MayBeLast,
    place: Mapping[str, float],
) -> str:
    """Return the pin, the last by place, that may go in last; first of all one that leaves these in one.

    Asked one after the other from the back, so that few are; empty: none may.
    """
    pieces, first = count_pieces(parts, left), ""
    for pin in sorted(left, key=lambda one: (place[one], one), reverse=True):
        rest = frozenset(left - {pin})
        if not may_be_last(pin, rest):
            continue
        if count_pieces(parts, rest) <= pieces:
            return pin
        first = first or pin
    return first


def count_pieces(parts: Mapping[str, AbstractSet[str]], pins: AbstractSet[str]) -> int:
    """Return in how many pieces pins hold their parts together."""
    root: dict[str, str] = {}

    def end(part: str) -> str:
        while root.setdefault(part, part) != part:
            root[part] = part = root[root[part]]
        return part

    alone = 0
    for pin in pins:
        first, *others = sorted(parts[pin]) or [""]
        alone += not first
        for other in others:
            root[end(other)] = end(first)
        if first:
            end(first)
    return alone + sum(part == above for part, above in root.items())
