"""A mend as a maker would do it: rows stay in one go, and nothing is put into the middle of one.

The smallest repair moves as few steps as it can, and may leave a row begun at both ends or a strap
between two rivets of one. Here what is moved of a row turns the whole row, and what would come to
stand inside a row goes before it is begun.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.orders.repairing import Repair

Row = tuple[str, ...]
"""Steps that are done in one go, in the order in which that is done best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Steps that are taken out and done elsewhere, one after the other.

    Attributes:
        steps: in the order in which they are then done; several are a row.
        turned: a row stays where it is begun, and is only done in this order.
        after: the step behind which they go; empty: to the very front.
        before: the first step of a row, before which they go; empty where they go behind one.
    """

    steps: Row
    turned: bool = False
    after: str = ""
    before: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """An order that is right again, and what was moved for it, as it is to be told."""

    order: tuple[str, ...]
    moves: tuple[Move, ...]


def mend_of(
    answer: Sequence[str],
    repair: Repair,
    rows: Iterable[Row],
    faults: Callable[[Sequence[str]], int],
) -> Mend:
    """Return a mend that keeps rows in one go where that is right, else the smallest repair.

    Args:
        answer: the order to be mended; every step once.
        repair: of it, the smallest.
        rows: steps done in one go; none is in two of them.
        faults: how many relations an order breaks.
    """
    rows = tuple(rows)
    mending = _Mending(tuple(answer), repair, rows, faults)
    turned = [row for row in rows if not _keeps(repair, row)]
    for row in turned:
        mending.turn(row)
    held = {step for row in turned for step in row}
    for step in repair.moved:
        if step not in held:
            mending.put(step)
    if faults(mending.order):
        return as_repaired(repair)
    return Mend(order=mending.order, moves=tuple(mending.moves))


def as_repaired(repair: Repair) -> Mend:
    """Return the smallest repair as it stands, step by step."""
    before = {then: first for first, then in pairwise(repair.order)}
    moves = (Move(steps=(step,), after=before.get(step, "")) for step in repair.moved)
    return Mend(order=repair.order, moves=tuple(moves))


def _keeps(repair: Repair, row: Row) -> bool:
    """Tell whether a repair moves no step of a row."""
    return not set(row).intersection(repair.moved)


class _Mending:
    def __init__(
        self,
        answer: tuple[str, ...],
        repair: Repair,
        rows: Sequence[Row],
        faults: Callable[[Sequence[str]], int],
    ) -> None:
        self.order = answer
        self.moves: list[Move] = []
        self._repair = repair
        self._row_of = {step: row for row in rows for step in row}
        self._whole = [row for row in rows if not _is_parted(answer, row)]
        self._faults = faults

    def turn(self, row: Row) -> None:
        """Do a row in its order, where it is begun or where the repair puts a step of it."""
        spots = [step for step in self.order if step in row]
        here = _inserted(self.order, row, self._in_front(spots[0], row))
        tried = [(here, Move(steps=row, turned=True))]
        for step in (*self._repair.moved, spots[-1]):
            if step in row:
                order = self._repair.order if step in self._repair.moved else self.order
                tried += self._spots(row, _last_before(order, step, row))
        self._take(tried)

    def put(self, step: str) -> None:
        """Put a step where the repair has it, or before the row that it would part."""
        at = self._repair.order.index(step)
        self._take(self._spots((step,), self._repair.order[at - 1] if at else ""))

    def _spots(self, steps: Row, behind: str) -> list[tuple[tuple[str, ...], Move]]:
        """Return the order with steps behind one; where they would part its row, before that first."""
        told = [(_inserted(self.order, steps, behind), Move(steps=steps, after=behind))]
        row = self._row_of.get(behind, ())
        rest = [step for step in self.order if step not in steps]
        if row and row != steps and set(rest[rest.index(behind) + 1 :]).intersection(row):
            first = next(step for step in rest if step in row)
            ahead = _inserted(self.order, steps, self._in_front(first, steps))
            told.insert(0, (ahead, Move(steps=steps, before=first)))
        return told

    def _in_front(self, step: str, out: Row) -> str:
        return _last_before(self.order, step, out)

    def _take(self, tried: Sequence[tuple[tuple[str, ...], Move]]) -> None:
        """Take what is broken least, and of such what parts the fewest rows that were whole."""
        self.order, move = min(tried, key=lambda one: (self._faults(one[0]), self._parted(one[0])))
        self.moves.append(move)

    def _parted(self, order: Sequence[str]) -> int:
        return sum(_is_parted(order, row) for row in self._whole)


def _is_parted(order: Sequence[str], row: Row) -> bool:
    places = [at for at, step in enumerate(order) if step in row]
    return places[-1] - places[0] >= len(row)


def _last_before(order: Sequence[str], step: str, out: Row) -> str:
    """Return what stands in front of a step, leaving some out; empty: nothing."""
    front = [one for one in order[: order.index(step)] if one not in out]
    return front[-1] if front else ""


def _inserted(order: Sequence[str], steps: Row, after: str) -> tuple[str, ...]:
    rest = [one for one in order if one not in steps]
    at = rest.index(after) + 1 if after else 0
    return (*rest[:at], *steps, *rest[at:])
