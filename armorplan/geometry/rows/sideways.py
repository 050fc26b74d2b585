"""A hole beside the line of its row: spacing hardly tells it, the row's own bends do.

Where one hole of a smooth row lies aside, the row turns there, back twice as much, and there again.
A corner turns once and a curve evenly, and both are meant. Only where the other row runs smoothly
at that hole is it told: where both have the jog they meet.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import atan2, dist, hypot
from typing import NamedTuple

from armorplan.pattern.parts import Point

_LEAST_HOLES = 6
"""Fewer holes do not tell a hole aside from a bend of the row."""
_FEWEST = 4
"""From here on a straight row still tells: its other holes lie in one line."""


class Aside(NamedTuple):
    """A hole beside the line of its row.

    Attributes:
        at: which one, counted from 0.
        off_mm: how far.
        back: where it would lie in line.
    """

    at: int
    off_mm: float
    back: Point


@lru_cache(maxsize=2048)
def aside(row: tuple[Point, ...], other: tuple[Point, ...], misfit_mm: float) -> Aside | None:
    """Return the one hole of a row that lies aside from its line by more than twice a misfit.

    The ends of a row are left out: there nothing tells a hole aside from a turn.
    """
    spans = [dist(a, b) for a, b in pairwise(row)]
    if len(row) < _FEWEST or not min(spans):
        return None
    if len(row) < _LEAST_HOLES:
        return _off_straight(row, other, misfit_mm)
    smooth = 2 * misfit_mm / min(spans)
    turns, theirs = _turns(row), _turns(other)
    found = min(
        (_without(turns, spans, at) for at in range(1, len(row) - 1)), key=lambda each: each[0]
    )
    rough, at, off_mm = found
    near = slice(max(at - 3, 0), at + 2)
    meant = any(abs(each) > smooth for each in _bumps(theirs)[near])
    if abs(off_mm) <= 2 * misfit_mm or rough > smooth or meant:
        return None
    return Aside(at, abs(off_mm), _in_line(row, at, off_mm))


def _off_straight(
    row: tuple[Point, ...], other: tuple[Point, ...], misfit_mm: float
) -> Aside | None:
    """Return the hole that alone is out of line in a short row, where the other row is straight."""
    if max(_off_line(other, other)) > misfit_mm:
        return None
    for at in range(1, len(row) - 1):
        rest = row[:at] + row[at + 1 :]
        (off_mm,) = _off_line(rest, row[at : at + 1])
        if max(_off_line(rest, rest)) <= misfit_mm / 2 and off_mm > 2 * misfit_mm:
            (ax, ay), (bx, by) = rest[0], rest[-1]
            left = (bx - ax) * (row[at][1] - ay) - (by - ay) * (row[at][0] - ax)
            return Aside(at, off_mm, _in_line(row, at, off_mm if left > 0 else -off_mm))
    return None


def _off_line(line: Sequence[Point], spots: Sequence[Point]) -> list[float]:
    """Return how far spots lie from the straight line between the ends of a row, in mm."""
    (ax, ay), (bx, by) = line[0], line[-1]
    length = hypot(bx - ax, by - ay) or 1.0
    return [abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length for x, y in spots]


def _turns(row: Sequence[Point]) -> list[float]:
    """Return by how much a row turns at each hole but the ends, in radians."""
    found = []
    for (ax, ay), (bx, by), (cx, cy) in zip(row, row[1:], row[2:], strict=False):
        ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
        found.append(atan2(ux * vy - uy * vx, ux * vx + uy * vy))
    return found


def _bumps(turns: Sequence[float]) -> list[float]:
    """Return by how much a turn differs from the mean of its neighbours', twice over."""
    return [a - 2 * b + c for a, b, c in zip(turns, turns[1:], turns[2:], strict=False)]


def _without(turns: list[float], spans: list[float], at: int) -> tuple[float, int, float]:
    """Return how rough the row is without a hole's step aside, the hole, and that step in mm."""
    shape = [0.0] * len(turns)
    before, after = 1 / spans[at - 1], 1 / spans[at]
    for place, by in ((at - 2, before), (at - 1, -before - after), (at, after)):
        if 0 <= place < len(turns):
            shape[place] = by
    bumps, part = _bumps(turns), _bumps(shape)
    weight = sum(each * each for each in part)
    off_mm = sum(a * b for a, b in zip(bumps, part, strict=True)) / weight
    left = [a - off_mm * b for a, b in zip(bumps, part, strict=True)]
    return max(map(abs, left)), at, off_mm


def _in_line(row: Sequence[Point], at: int, off_mm: float) -> Point:
    """Return where a hole would lie without its step aside, square to its neighbours' line."""
    (ax, ay), (x, y), (bx, by) = row[at - 1 : at + 2]
    length = hypot(bx - ax, by - ay) or 1.0
    return x + (by - ay) / length * off_mm, y - (bx - ax) / length * off_mm
