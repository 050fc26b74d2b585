"""Which step of a wrong order comes too early: taken out alone and put behind, it mends the order.

That asks of a step what a maker can do: leave all others as they are, and wait with this one. Of a
pair that stands the wrong way round it is the first that comes too early; to move the other one
forward mends the order as well, but that one comes too late, which is another question.
"""

from collections.abc import Iterator, Mapping, Sequence

from armorplan.practice.few_orders import FewOrders


def too_early(few: FewOrders, order: Sequence[str]) -> Mapping[str, tuple[str, ...]]:
    """Return each step that comes too early, with a right order in which it has waited.

    Args:
        few: the right orders of the steps.
        order: one that is not right; of a right one nothing comes too early.

    Returns:
        By step the right order in which it waits least; empty where no step mends it alone.
    """
    if few.is_right(order):
        return {}
    found = ((step, _waited(few, order, at)) for at, step in enumerate(order))
    return {step: mended for step, mended in found if mended}


def _waited(few: FewOrders, order: Sequence[str], at: int) -> tuple[str, ...]:
    rest = (*order[:at], *order[at + 1 :])
    later = ((*rest[:to], order[at], *rest[to:]) for to in range(at + 1, len(order)))
    return next((one for one in later if few.is_right(one)), ())


def moved_early(order: Sequence[str], place: int) -> Iterator[tuple[str, ...]]:
    """Yield every order in which a step of this one stands further in front, the rest as it is.

    Args:
        order: the steps.
        place: where the step comes to stand, from 0; it came from behind there.
    """
    for at in range(place + 1, len(order)):
        rest = (*order[:at], *order[at + 1 :])
        yield (*rest[:place], order[at], *rest[place:])
