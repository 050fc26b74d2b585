"""What speaks for two rows belonging together, in points: how many holes, how rare, how near.

One point more is about three times as likely. The points are common practice, no source: rivets of a
seam follow an edge, a whole row meets a whole row, drawings lay neighbours side by side.
"""

from collections.abc import Sequence
from math import pi

import numpy as np

from armorplan.geometry.alike.closed_lines import Numbers, Reals, Truths
from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.geometry.matching.chains import LIKE_MM
from armorplan.geometry.matching.naming import named_alike
from armorplan.geometry.matching.rows import Row
from armorplan.pattern.parts import Part

_HOLES = 2.0
"""Points for each doubling of the number of holes."""
_WHOLE = 1.5
_EDGE = 0.6
_SET_ROW = 2.5
_STRAPS = 3.0
_ONE_PART = 3.0
_TWINS = 3.0
_SIZES = 1.5
_OFF = 2.0
_LONGER = 1.0
_LONGER_MORE = 20.0
_USUAL_LONGER = 0.04
_FAR = 0.5
_FAR_MM = 150.0
_FAR_MOST = 2.0
_NESTED = 0.4, 1.4
_NESTS = 3.0
_EXACT_MM, _EXACT = 0.15, 3.5
"""Pivots drawn just as far apart on both parts are meant for each other: by chance two widths are as
near hardly once in fifty times, while many come near what nesting asks for."""
_UNLIKE = 1.0
_SMALL = 0.35
_PUT_ON = 1.0
_NAMED = 0.5
"""Points of a word that only these two and at most one more have in their names."""
_TWIN_SHARE, _SAME_SHARE = 0.03, 0.005


class Scales:
    """Weighs rows against rows, many at once."""

    def __init__(self, rows: Sequence[Row], parts: Sequence[Part]) -> None:
        self._at = np.array([row.at for row in rows], dtype=np.int64)
        self._count = np.array([len(row.holes) for row in rows], dtype=np.float64)
        self._size = np.array([row.diameter_mm for row in rows])
        self._middle = np.array([row.spots.mean() for row in rows])
        self._own = np.array(
            [_EDGE * row.follows_edge - _SET_ROW * row.set_row for row in rows], dtype=np.float64
        )
        self._strap = np.array([row.strap for row in rows])
        self._ends = np.array([row.ends for row in rows])
        self._nested_mm = pi * np.array([part.thickness_mm for part in parts])
        self._area = np.array([ring_area_mm2(part.outline) for part in parts])
        self._of_row = self._area[self._at]
        self._named = named_alike(parts)
        self._edge = np.array([ring_length_mm(part.outline) for part in parts])

    def weighed(self, rows: Numbers, others: Numbers, whole: Truths) -> Reals:
        """Return points for each row against each other one that is whole or a stretch.

        Minus infinity where the holes are of unlike size.
        """
        unlike = np.abs(self._size[rows][:, None] - self._size[others])
        points = self._own[rows][:, None] + self._own[others] + _WHOLE * whole
        points = points + _HOLES * np.log2(self._count[rows])[:, None]
        points -= _SIZES * unlike / LIKE_MM
        far = np.abs(self._middle[rows][:, None] - self._middle[others]) / _FAR_MM
        points -= np.minimum(_FAR * np.log2(1 + far), _FAR_MOST)
        points -= _STRAPS * (self._strap[rows][:, None] & self._strap[others])
        of_parts = self._at[rows][:, None], self._at[others][None, :]
        points += _NAMED * self._named[of_parts] - self._of_parts(*of_parts)
        points[unlike > LIKE_MM] = -np.inf
        return np.asarray(points, dtype=np.float64)

    def of_pairs(
        self, spans: Reals, others: Reals, longer: Reals, who: tuple[Numbers, Numbers]
    ) -> Reals:
        """Return what further speaks for or against two holes on two holes.

        They are farther apart only in a strap that is bent with what it lies on, and at the ends of
        lames: those nest, and half a turn asks for π times the leather between.
        """
        first, second = who
        strap = ((longer > 1) & self._strap[first][:, None]) | ((longer < 1) & self._strap[second])
        ends = self._ends[first][:, None] & self._ends[second]
        one, other = (self._nested_mm[self._at[each]] for each in who)
        asked_mm = (one[:, None] + other) / 2
        share = np.abs(spans - others[:, 0]) / np.maximum(asked_mm, 1e-6)
        nested = ends & (share >= _NESTED[0]) & (share <= _NESTED[1])
        parts = self._at[first][:, None], self._at[second][None, :]
        exact = ends & (np.abs(spans - others[:, 0]) <= _EXACT_MM) & (parts[0] != parts[1])
        points = np.where(exact, _EXACT, np.where(nested, _NESTS, 0.0))
        # Lames of one set are nearly of one shape, and meet all the same.
        points += _TWINS * (exact & self._twins(*parts, _TWIN_SHARE))
        points -= _TWINS * (exact & self._twins(*parts, _SAME_SHARE))
        points[(longer != 1.0) & ~strap & ~nested] = -np.inf
        points[self._ends[first][:, None] != self._ends[second]] -= _UNLIKE
        small = np.minimum(
            self._of_row[first][:, None], self._of_row[second]
        ) < _SMALL * np.maximum(self._of_row[first][:, None], self._of_row[second])
        points += np.where(ends, 0.0, np.where(small, _PUT_ON, -_PUT_ON))
        return points

    def _of_parts(self, first: Numbers, second: Numbers) -> Reals:
        """Return what speaks against rows of one part, and of two parts of one shape."""
        twins = self._twins(first, second, _TWIN_SHARE)
        return np.asarray(_ONE_PART * (first == second) + _TWINS * twins, dtype=np.float64)

    def _twins(self, first: Numbers, second: Numbers, share: float) -> Truths:
        """Tell which parts are two of nearly one area and edge, to a share of the first's."""
        area, edge = self._area, self._edge
        twins = np.abs(area[first] - area[second]) <= share * area[first]
        twins &= np.abs(edge[first] - edge[second]) <= share * edge[first]
        return np.asarray(twins & (first != second))

    @staticmethod
    def by_spacing(off: Reals, longer: Reals) -> Reals:
        """Return points for how well spacings agree: off in misfits, how many times as long."""
        much = np.maximum(longer, 1 / longer) - 1
        lost = np.where(much > 0, _LONGER + _LONGER_MORE * np.maximum(much - _USUAL_LONGER, 0), 0)
        return np.asarray(-_OFF * off - lost, dtype=np.float64)
