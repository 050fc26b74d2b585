"""Spacing of a row that grew: how many holes it wants, and where those of each layer lie."""

from bisect import bisect
from collections.abc import Sequence
from itertools import pairwise
from math import ceil, dist, floor

from armorplan.pattern.parts import Point

LEAST_MM, MOST_MM = 20.0, 40.0
"""Spacing of a fixed row (common practice, no source; NAVEDTRA 14018 has 4 to 8 diameters)."""
_NEAR_MM = 0.05
_FINE = 40
"""Chords of a row's curve from hole to hole."""
_REACH_MM = 60.0
"""So far the curve is drawn on past both ends of a row."""
_ROUNDS = 60
_EXACT_MM = 1e-7
"""Far below what a drawing holds."""
_STRAIGHT = 3
"""A curve wants so many holes; fewer lie on a straight line."""


def gaps_mm(spots: Sequence[Point]) -> list[float]:
    """Return the distances from hole to hole."""
    return [dist(a, b) for a, b in pairwise(spots)]


def is_by_rule(gaps: Sequence[float]) -> bool:
    """Tell whether all spacings of a row are those of a fixed one."""
    return all(LEAST_MM - _NEAR_MM <= gap <= MOST_MM + _NEAR_MM for gap in gaps)


def count_for(gaps: Sequence[float]) -> int:
    """Return how many gaps a stretch of a row wants, now that its gaps are these.

    As many as it has where their spacing is still that of a fixed row; else the number nearest to
    it that brings them there, and 1 at the least.
    """
    now = len(gaps)
    if is_by_rule(gaps):
        return now
    total = sum(gaps)
    least, most = ceil(total / MOST_MM - 1e-9), floor(total / LEAST_MM + 1e-9)
    if least > most:
        return max(1, least)
    return max(1, min(max(now, least), most))


class Curve:
    """The curve that the holes of a row lie on, drawn on straight past its ends."""

    def __init__(self, spots: Sequence[Point]) -> None:
        """Lay a curve through two or more spots."""
        import numpy as np

        through = np.asarray(_bent(spots), dtype=float)
        first, last = through[0] - through[1], through[-1] - through[-2]
        ends = [
            through[0] + first / np.hypot(*first) * _REACH_MM,
            through[-1] + last / np.hypot(*last) * _REACH_MM,
        ]
        corners = np.vstack([ends[0], through, ends[1]])
        lengths = np.hypot(*np.diff(corners, axis=0).T)
        self._corners = corners
        self._spots: list[Point] = [(float(x), float(y)) for x, y in corners]
        places = np.concatenate([[0.0], np.cumsum(lengths)]) - _REACH_MM
        self._places: list[float] = [float(place) for place in places]
        self.length_mm = self._places[-1] - _REACH_MM

    def at(self, place_mm: float) -> Point:
        """Return the spot so far along from the first hole."""
        after = min(max(bisect(self._places, place_mm), 1), len(self._places) - 1)
        low, high = self._places[after - 1], self._places[after]
        share = (place_mm - low) / (high - low)
        (x0, y0), (x1, y1) = self._spots[after - 1], self._spots[after]
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def even(self, start: Point, end: Point, count: int) -> list[Point]:
        """Return the spots that part the stretch between two of its spots into so many gaps."""
        first, last = self.place_of(start), self.place_of(end)
        return [self.at(first + (last - first) * n / count) for n in range(1, count)]

    def place_of(self, point: Point) -> float:
        """Return where along the curve the spot nearest to a point lies."""
        import numpy as np

        here = np.asarray(point)
        sides = np.diff(self._corners, axis=0)
        long = np.maximum((sides * sides).sum(axis=1), 1e-12)
        share = np.clip(((here - self._corners[:-1]) * sides).sum(axis=1) / long, 0.0, 1.0)
        off = np.hypot(*(self._corners[:-1] + share[:, None] * sides - here).T)
        best = int(off.argmin())
        low, high = self._places[best], self._places[best + 1]
        return low + float(share[best]) * (high - low)

    def stepped(self, gaps: Sequence[float]) -> list[Point]:
        """Return spots so far apart, hole from hole, with as much past one end as past the other.

        What the row is too long or too short for its curve is shared between both its ends.
        """
        start = 0.0
        for _ in range(_ROUNDS):
            # What stands over at the start is to be what stands over at the end.
            over = start + self._walk(start, gaps)[-1] - self.length_mm
            start -= over / 2
            if abs(over) < _EXACT_MM:
                break
        return [self.at(place) for place in self._walk(start, gaps)]

    def _walk(self, start: float, gaps: Sequence[float]) -> list[float]:
        found = [start]
        for gap in gaps:
            found.append(self._next(found[-1], gap))
        return found

    def _next(self, place: float, gap: float) -> float:
        """Return the next place whose spot lies so far off in a straight line."""
        here, there = self.at(place), place + gap
        for _ in range(_ROUNDS):
            short = gap - dist(here, self.at(there))
            there += short
            if abs(short) < _EXACT_MM:
                break
        return there


def _bent(spots: Sequence[Point]) -> Sequence[Point]:
    """Return the corners of a smooth curve through spots."""
    if len(spots) < _STRAIGHT:
        return spots
    import numpy as np
    from scipy.interpolate import CubicSpline

    knots = np.concatenate([[0.0], np.cumsum(gaps_mm(spots))])
    if float(np.diff(knots).min()) <= 0.0:
        return spots
    curve = CubicSpline(knots, np.asarray(spots), bc_type="natural")
    fine = np.concatenate(
        [np.linspace(a, b, _FINE, endpoint=False) for a, b in pairwise(knots)] + [knots[-1:]]
    )
    corners: list[Point] = [(float(x), float(y)) for x, y in curve(fine)]
    return corners
