"""A way back without a search: all that can be taken back is, then what was not needed stays.

It finds one wherever fewer steps that stand are never in the way, and tries to keep the dearest.
"""

from armorplan.orders.recovery.bits import BitTake, RecoveryBits
from armorplan.orders.recovery.finishing import finish
from armorplan.orders.recovery.model import Move


def by_opening_all(bits: RecoveryBits) -> tuple[Move, ...] | None:
    """Return a way back, most likely not the cheapest; ``None`` where this finds none."""
    takes = _all_that_open(bits)
    best = _moves(bits, takes)
    if best is None:
        return None
    for take in sorted(takes, key=lambda one: -one.ticks):
        fewer = [one for one in takes if one is not take]
        moves = _moves(bits, fewer)
        if moves is not None and bits.problem.ticks(moves) <= bits.problem.ticks(best):
            takes, best = fewer, moves
    return best


def _all_that_open(bits: RecoveryBits) -> list[BitTake]:
    """Return moves that open, one after the other, until none is possible any more."""
    state, found, left = bits.done, list[BitTake](), sorted(bits.takes, key=lambda one: one.ticks)
    while possible := [take for take in left if is_possible(take, state)]:
        state &= ~possible[0].clears
        found.append(possible[0])
        left.remove(possible[0])
    return found


def is_possible(take: BitTake, state: int) -> bool:
    """Tell whether something can be taken back in a state."""
    return not take.clears & ~state and next(take.blockers(state), None) is None


def _moves(bits: RecoveryBits, takes: list[BitTake]) -> tuple[Move, ...] | None:
    """Return the way back on which just these are taken back; ``None`` where there is none."""
    state = bits.done
    for take in takes:
        if not is_possible(take, state):
            return None
        state &= ~take.clears
    ending = finish(bits, state)
    if ending.doings is None:
        return None
    opened: tuple[Move, ...] = tuple(take.move for take in takes)
    return opened + tuple(doing.move for doing in ending.doings)
