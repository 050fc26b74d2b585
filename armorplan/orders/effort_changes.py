"""Fewer changes of tool and side: what is worked with what is in hand is drawn forward."""

from collections.abc import Sequence

from armorplan.orders.effort_bits import EffortBits, Worked, after

_ROUNDS = 4
_TRIED = 3
"""So many atoms that what is in hand serves are tried at each change."""
_NOWHERE: Worked = ("", "")


def fewer_changes(bits: EffortBits, order: Sequence[int], ahead: Sequence[int]) -> tuple[int, ...]:
    """Return the order with single atoms drawn forward wherever that saves a change, else as it is.

    What each atom costs must depend on none but those that keep their place before it.

    Args:
        bits: the problem.
        order: an order that keeps ``ahead``.
        ahead: by atom, the bits of those that have to come before it.
    """
    worked, done = dict[int, Worked](), 0
    for at in order:
        worked[at] = bits.worked(at, done)
        done |= 1 << at
    now = list(order)
    for _ in range(_ROUNDS):
        drawn = _drawn_forward(bits, now, ahead, worked)
        if drawn == now:
            break
        now = drawn
    return tuple(now)


def _drawn_forward(
    bits: EffortBits, order: list[int], ahead: Sequence[int], worked: dict[int, Worked]
) -> list[int]:
    best, done, last = _changes(bits, order, worked), 0, _NOWHERE
    for place in range(len(order)):
        if bits.change(last, worked[order[place]]):
            for other in _serving(bits, order[place + 1 :], last, worked)[:_TRIED]:
                if ahead[other] & ~done:
                    continue
                tried = [*order[:place], other, *(a for a in order[place:] if a != other)]
                if (spent := _changes(bits, tried, worked)) < best:
                    order, best = tried, spent
                    break
        last = after(last, worked[order[place]])
        done |= 1 << order[place]
    return order


def _serving(
    bits: EffortBits, later: Sequence[int], last: Worked, worked: dict[int, Worked]
) -> list[int]:
    """Return what is worked with what is in hand, and not with just anything."""
    return [at for at in later if worked[at] != _NOWHERE and not bits.change(last, worked[at])]


def _changes(bits: EffortBits, order: Sequence[int], worked: dict[int, Worked]) -> int:
    last, spent = _NOWHERE, 0
    for at in order:
        spent += bits.change(last, worked[at])
        last = after(last, worked[at])
    return spent
