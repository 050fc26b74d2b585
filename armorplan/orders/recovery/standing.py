"""The search over all that may stand: A* in which every move, taking back or doing, is an edge.

It supposes nothing of the order of moves, and so settles the rare small part of which the search
over what is taken back cannot tell. It also tells the ways back one by one of counts that are known.
"""

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import count

from armorplan.orders.recovery.all_opened import is_possible
from armorplan.orders.recovery.bits import BitDoing, BitTake, RecoveryBits
from armorplan.orders.recovery.hitting import LowerBound
from armorplan.orders.recovery.opening import Found


def moves_from(bits: RecoveryBits, state: int) -> Iterator[tuple[BitTake | BitDoing, int]]:
    """Yield every move that is possible in a state, with the state it leads to."""
    for take in bits.takes:
        if is_possible(take, state):
            yield take, state & ~take.clears
    for ways in bits.doings.values():
        for way in ways:
            if can_be_done(bits, state, way):
                yield way, state | way.does


def can_be_done(bits: RecoveryBits, state: int, way: BitDoing) -> bool:
    """Tell whether a doing is possible in a state."""
    after = state | way.does
    if way.does & state or way.needs_open & state:
        return False
    if any(bar.is_shut(state) and not bar.own & way.spite for bar in bits.by_first[way.does]):
        return False
    return not any(
        bar.is_shut(after) and not bar.first & after and not bar.own & way.spite
        for bar in bits.by_member[way.does]
    )


def by_standing(bits: RecoveryBits, most_states: int | None) -> Found:
    """Return the cheapest way back, or how far the search got within so many states, if any."""
    bound = LowerBound(bits)
    spent = {bits.done: 0}
    by: dict[int, tuple[int, BitTake | BitDoing]] = {}
    number = count()
    heap = [(bound(bits.done) or 0, 0, next(number), bits.done)]
    seen = 0
    while heap:
        total, minus, _, state = heappop(heap)
        if spent[state] < -minus:
            continue
        if not bits.goal & ~state:
            return _told(by, bits.done, state, -minus)
        seen += 1
        if most_states is not None and seen > most_states:
            return Found(moves=None, bound=total, complete=False, cut_short=True)
        for edge, after in moves_from(bits, state):
            reached = edge.ticks - minus
            if spent.get(after, reached + 1) <= reached:
                continue
            left = bound(after)
            if left is not None:
                spent[after], by[after] = reached, (state, edge)
                heappush(heap, (reached + left, -reached, next(number), after))
    return Found(moves=None)


def _told(
    by: dict[int, tuple[int, BitTake | BitDoing]], start: int, state: int, ticks: int
) -> Found:
    moves = list[BitTake | BitDoing]()
    while state != start:
        state, edge = by[state]
        moves.append(edge)
    told = tuple(edge.move for edge in reversed(moves))
    return Found(moves=told, ticks=ticks, bound=ticks)
