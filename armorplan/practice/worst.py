"""How far from right an order of a few steps can be at all: what an answer is measured by."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from armorplan.practice.few_orders import FewOrders
from armorplan.practice.settled_order import Bits, SettledOrder


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """How many moves an order of all the steps can take; ``exact``: one takes as many."""

    moves: int
    exact: bool


def worst(few: FewOrders) -> Worst:
    """Return the most moves that any order of all the steps takes, never too few.

    Steps of which one stands before the other in every right order cannot both stay where an
    answer has them the other way round. The reverse of a right order has all such pairs so: what
    stays is a set of which no two are ordered, and it takes all moves but the largest such set.
    With 'before' alone no answer takes more (the width of a partial order; Dilworth 1950). With
    other kinds, orders that keep them in the way one right order does are all right, which bounds
    the worst from above by the width of that; ``exact`` says whether the two meet.
    """
    size = len(few.steps)
    order = next(few.orders(), ())
    if not order:
        return Worst(moves=size, exact=False)
    least = size - _width(always_before(few))
    most = size - _width(SettledOrder(order, few.relations).before)
    return Worst(moves=most, exact=most == least)


def always_before(few: FewOrders) -> list[Bits]:
    """Return by step what stands before it in every right order."""
    before = [few.whole] * len(few.steps)
    for done in few.ways:
        for at in few.onward(done):
            before[at] &= done
    return before


def _width(before: Sequence[Bits]) -> int:
    """Return how many steps the largest set has of which none stands before another."""
    size = len(before)
    ordered = [
        before[at] | _bits(one for one in range(size) if before[one] >> at & 1)
        for at in range(size)
    ]
    free = bytearray(1 << size)
    free[0], widest = 1, 0
    for some in range(1, 1 << size):
        top = some.bit_length() - 1
        rest = some ^ 1 << top
        if free[rest] and not rest & ordered[top]:
            free[some] = 1
            widest = max(widest, some.bit_count())
    return widest


def _bits(numbers: Iterable[int]) -> Bits:
    return sum(1 << at for at in numbers)
