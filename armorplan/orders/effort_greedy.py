"""A good order to start from, for any number of atoms: from the back, then moved about."""

from armorplan.orders.effort_bits import EffortBits, each_bit

_MOST_MOVED = 40
"""Above so many atoms moving them about is left to the solver."""
_ROUNDS = 4


def greedy(bits: EffortBits) -> tuple[int, ...] | None:
    """Return an order that keeps the hard relations; ``None`` where there is none.

    The last place goes to the atom that suffers least there. Placing from the back never leads
    into a dead end: what may come last of a set may come last of any smaller one.
    """
    left, back = bits.everything, list[int]()
    while left:
        last = [at for at in each_bit(left) if bits.may_be_last(at, left)]
        if not last:
            return None
        at = min(last, key=lambda one: (bits.dearer(one, left & ~(1 << one)), -one))
        back.append(at)
        left &= ~(1 << at)
    order = back[::-1]
    return tuple(_moved(bits, order) if len(order) <= _MOST_MOVED else order)


def _moved(bits: EffortBits, order: list[int]) -> list[int]:
    """Move single atoms to where they cost less, while that helps."""
    best = sum(bits.extras(order))
    for _ in range(_ROUNDS):
        before = best
        for atom in tuple(order):
            order, best = _best_place(bits, order, atom, best)
        if best == before:
            break
    return order


def _best_place(bits: EffortBits, order: list[int], atom: int, best: int) -> tuple[list[int], int]:
    rest = [one for one in order if one != atom]
    for place in range(len(order)):
        tried = [*rest[:place], atom, *rest[place:]]
        cost = sum(bits.extras(tried))
        if cost < best and bits.keeps(tried):
            order, best = tried, cost
    return order, best
