"""Holes that stand in no long row and are no pivots, found on holes of other parts as a whole."""

from collections.abc import Collection, Iterator, Sequence

import numpy as np

from armorplan.geometry.alike.closed_lines import Reals, Spots
from armorplan.geometry.matching.congruent import Pairs, common_sets, like_pairs
from armorplan.geometry.matching.rows import Row, row_through
from armorplan.geometry.matching.spacings import Alike, Stretch
from armorplan.geometry.matching.weighing import Scales
from armorplan.kernel.stopping import ShouldStop
from armorplan.pattern.parts import Hole, Part

_LONG = 4
"""A row of so many holes is told by its spacings."""
_MOST = 24
"""Of a part with more holes in no row than this, none is looked at: it is a pattern of pricking."""


def scattered_sets(
    parts: Sequence[Part],
    rows: Sequence[Row],
    taken: Collection[str],
    misfit_mm: float,
    should_stop: ShouldStop,
) -> Iterator[tuple[Row, Row]]:
    """Yield sets of three holes and more that lie on each other flat, as rows.

    Raises:
        StoppedError: it was asked to stop.
    """
    told = [row for row in rows if len(row.holes) >= _LONG or row.ends]
    in_rows = {(row.at, hole) for row in told for hole in row.holes}
    loose = [
        [
            h
            for h in part.holes
            if not h.travel_mm and h.id not in taken and (at, h.id) not in in_rows
        ]
        for at, part in enumerate(parts)
    ]
    few = [holes if len(holes) <= _MOST else [] for holes in loose]
    spots = [_spots(holes) for holes in few]
    for one, other in like_pairs(spots, misfit_mm, should_stop):
        sizes = _sizes(few[one]), _sizes(few[other])
        for pairs in common_sets(spots[one], spots[other], sizes, misfit_mm, should_stop):
            along = _along(spots[one], pairs)
            yield (
                row_through(one, parts[one], [few[one][a].id for a, _ in along]),
                row_through(other, parts[other], [few[other][b].id for _, b in along]),
            )


def scattered_alike(
    after: int, sets: Sequence[tuple[Row, Row]], scales: Scales
) -> Iterator[Alike]:
    """Yield sets that lie on each other as the spacings' own matches are.

    Args:
        after: how many rows come before those of the sets, which stand two by two.
        sets: from ``scattered_sets``.
        scales: weighs the rows and those of the sets.
    """
    for number, (one, other) in enumerate(sets):
        row = after + 2 * number
        points = scales.weighed(np.array([row]), np.array([row + 1]), np.array([True]))
        yield Alike(
            row=row,
            other=Stretch(row + 1, 0, len(other.holes) - 1),
            backward=False,
            off_mm=float(np.abs(one.spans_mm - other.spans_mm).max()),
            longer=1.0,
            worth=float(points[0, 0]),
        )


def _along(spots: Spots, pairs: Pairs) -> Pairs:
    """Return pairs of holes in their order along the longest way through the first ones."""
    held = spots[[a for a, _ in pairs]]
    far = np.abs(held[:, None] - held)
    one, other = np.unravel_index(int(far.argmax()), far.shape)
    way = (held[other] - held[one]).conjugate()
    return tuple(pairs[at] for at in np.argsort(((held - held[one]) * way).real, kind="stable"))


def _spots(holes: Sequence[Hole]) -> Spots:
    return np.array([complex(*hole.centre) for hole in holes], dtype=np.complex128)


def _sizes(holes: Sequence[Hole]) -> Reals:
    return np.array([hole.diameter_mm for hole in holes])
