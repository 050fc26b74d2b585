"""Rows laid on rows by their spacings alone: the whole of one on the whole or a stretch of another."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from armorplan.geometry.alike.closed_lines import Reals
from armorplan.geometry.matching.rows import Row
from armorplan.geometry.matching.weighing import Scales
from armorplan.kernel.stopping import ShouldStop, go_on, never

LONGER = 0.09
"""An outer row may be so much longer all along: 3 mm over 3.6 mm leather round an arm of 40 mm radius
is 8 % longer (the middles of both leathers lie 3.3 mm apart, over the radius)."""
KEPT = 8
"""So many of what fits one row each way round are looked at closer, the likeliest first."""
_PAIRED = 2
_CHUNK = 1_000_000
_MOST_COMPARED = 100_000_000
"""Of more rows of one length those of parts are compared that have the fewest: where any two holes
may be a pair, none is meant."""


class Stretch(NamedTuple):
    """Holes ``start`` to ``end`` of a row, the last counted in."""

    row: int
    start: int
    end: int


class Alike(NamedTuple):
    """A row that fits a stretch of another by spacing.

    Attributes:
        row: number of the row that fits whole.
        other: the stretch that it fits.
        backward: whether the stretch is read from its far end.
        off_mm: the most that a spacing is off, once an even share is taken off.
        longer: how many times as long the first row is; 1 where they are of one length.
        worth: what speaks for it before the rows are laid on each other, as points.
    """

    row: int
    other: Stretch
    backward: bool
    off_mm: float
    longer: float
    worth: float


def alike(
    rows: Sequence[Row], scales: Scales, misfit_mm: float, should_stop: ShouldStop = never
) -> Iterator[Alike]:
    """Yield what the spacings of each row fit best, the likeliest ``KEPT``.

    Two holes that do not keep apart from others only count as what a pair that does fits.

    Raises:
        StoppedError: it was asked to stop.
    """
    met: set[tuple[int, int, bool]] = set()
    for each in _alike(rows, scales, misfit_mm, should_stop):
        start, end = each.other.start, each.other.end
        if end - start + 1 == len(rows[each.other.row].holes):
            pair = min(each.row, each.other.row), max(each.row, each.other.row), each.backward
            if pair in met:
                continue
            met.add(pair)
        yield each


def _alike(
    rows: Sequence[Row], scales: Scales, misfit_mm: float, should_stop: ShouldStop
) -> Iterator[Alike]:
    by_count: dict[int, list[int]] = defaultdict(list)
    for at, row in enumerate(rows):
        if row.apart:
            by_count[len(row.holes)].append(at)
    for count in sorted(by_count, reverse=True):
        go_on(should_stop)
        which, stretches = _fewest(rows, by_count[count], _stretches(rows, count))
        table = _Table(rows, scales, stretches)
        step = max(1, _CHUNK // max(1, table.size * count))
        for first in range(0, len(which), step):
            go_on(should_stop)
            yield from table.fitting(which[first : first + step], misfit_mm)


def _fewest(
    rows: Sequence[Row], which: Sequence[int], stretches: Sequence[Stretch]
) -> tuple[Sequence[int], Sequence[Stretch]]:
    """Return rows and stretches, only those of parts with few of them where there are too many."""
    if len(which) * len(stretches) <= _MOST_COMPARED:
        return which, stretches
    many = Counter(rows[each.row].at for each in stretches)
    of_part = Counter(rows[at].at for at in which)
    kept, both = set[int](), [0, 0]
    for part in sorted(many, key=lambda at: (many[at], at)):
        both = [both[0] + of_part[part], both[1] + many[part]]
        if both[0] * both[1] > _MOST_COMPARED:
            break
        kept.add(part)
    return (
        [at for at in which if rows[at].at in kept],
        [each for each in stretches if rows[each.row].at in kept],
    )


def _stretches(rows: Sequence[Row], count: int) -> list[Stretch]:
    """Return all stretches of so many holes, each once: where one is a row itself, as that."""
    found: dict[tuple[int, tuple[str, ...]], Stretch] = {}
    for at, row in enumerate(rows):
        for start in range(len(row.holes) - count + 1):
            held = row.holes[start : start + count]
            key = row.at, min(held, held[::-1])
            if key not in found or len(row.holes) == count:
                found[key] = Stretch(at, start, start + count - 1)
    return list(found.values())


class _Table:
    """Stretches of one number of holes, made ready to be compared with rows of as many."""

    def __init__(self, rows: Sequence[Row], scales: Scales, stretches: Sequence[Stretch]) -> None:
        self.size = len(stretches)
        self._rows = rows
        self._scales = scales
        self._stretches = stretches
        self._of = np.array([s.row for s in stretches])
        self._spans = np.array([rows[s.row].spans_mm[s.start : s.end] for s in stretches])
        self._whole = np.array(
            [
                rows[s.row].apart and s.end - s.start + 1 == len(rows[s.row].holes)
                for s in stretches
            ]
        )

    def fitting(self, at: Sequence[int], misfit_mm: float) -> Iterator[Alike]:
        """Yield for each of some rows what it fits, forward or backward."""
        which = np.array(at)
        spans = np.array([self._rows[i].spans_mm for i in at])
        base = self._scales.weighed(which, self._of, self._whole)
        # Two holes read alike from both ends.
        for backward in (False, True)[: len(spans[0])]:
            second = self._spans[:, ::-1] if backward else self._spans
            off_mm, longer = _compared(spans, second, misfit_mm)
            worth = base + self._scales.by_spacing(off_mm / misfit_mm, longer)
            if len(spans[0]) == 1:
                worth += self._scales.of_pairs(spans, self._spans, longer, (which, self._of))
            worth[off_mm > misfit_mm] = -np.inf
            for number, row in enumerate(at):
                for other in self._best(row, worth[number]):
                    yield Alike(
                        row,
                        self._stretches[other],
                        backward,
                        float(off_mm[number, other]),
                        float(longer[number, other]),
                        float(worth[number, other]),
                    )

    def _best(self, row: int, worth: Reals) -> list[int]:
        """Return the numbers of the likeliest stretches that have no hole of the row."""
        order = np.argsort(-worth, kind="stable")[: 2 * KEPT].tolist()
        fits = [at for at in order if worth[at] > -np.inf and not self._shares(row, at)]
        return fits[:KEPT]

    def _shares(self, row: int, other: int) -> bool:
        """Tell whether a stretch holds a hole of the row."""
        stretch = self._stretches[other]
        if self._rows[stretch.row].at != self._rows[row].at:
            return False
        held = self._rows[stretch.row].holes[stretch.start : stretch.end + 1]
        return not set(held).isdisjoint(self._rows[row].holes)


def _compared(first: Reals, second: Reals, misfit_mm: float) -> tuple[Reals, Reals]:
    """Return how far spacings are off, row by row, and how many times as long the first is.

    Rows are of one length where every spacing is, and their ends are off by no more than two
    misfits; else an even share is taken off.
    """
    differ = first[:, None, :] - second[None, :, :]
    off_mm = np.abs(differ).max(axis=2)
    of_one_length = (off_mm <= misfit_mm) & (np.abs(differ.sum(axis=2)) <= 2 * misfit_mm)
    longer = first.sum(axis=1)[:, None] / second.sum(axis=1)[None, :]
    left = np.abs(first[:, None, :] - longer[:, :, None] * second[None, :, :]).max(axis=2)
    left[np.maximum(longer, 1 / longer) > 1 + LONGER] = np.inf
    return np.where(of_one_length, off_mm, left), np.where(of_one_length, 1.0, longer)
