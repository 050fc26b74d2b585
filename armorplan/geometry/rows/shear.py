"""Two rows of the same two parts: does one lie shifted along itself on one of them."""

from functools import lru_cache
from itertools import pairwise
from math import dist, hypot
from typing import NamedTuple

from armorplan.pattern.parts import Point

Spots = tuple[Point, ...]
PARALLEL = 0.985
"""Cosine of the angle up to which rows are parallel: 10°."""
STRAIGHT = 0.01
"""A row that is longer than the straight way by no more than this share of it is straight."""


class Lie(NamedTuple):
    """How a second row lies to a first one on one part.

    Attributes:
        shear_mm: how far the middle of the second lies ahead of that of the first, along the first.
        width_mm: how far apart the rows are; above 0 the second lies to the right of the first as
            one looks along it, with y down the page.
        turn: cosine of the angle between them.
        bow: by what share the more curved of them is longer than the straight way.
        sum_mm: both straight ways together.
        diagonals_mm: from the first hole of the one to the last of the other, and the other way.
    """

    shear_mm: float
    width_mm: float
    turn: float
    bow: float
    sum_mm: float
    diagonals_mm: tuple[float, float]


def _along(row: Spots) -> Point:
    return row[-1][0] - row[0][0], row[-1][1] - row[0][1]


def unit(row: Spots) -> Point:
    """Return the direction from a row's first hole to its last, of length 1."""
    x, y = _along(row)
    length = hypot(x, y) or 1.0
    return x / length, y / length


def middle(row: Spots) -> Point:
    """Return the spot half way between a row's first hole and its last."""
    return (row[0][0] + row[-1][0]) / 2, (row[0][1] + row[-1][1]) / 2


def runs_against(first: Spots, second: Spots) -> bool:
    """Tell whether a row is numbered against the other."""
    (ax, ay), (bx, by) = _along(first), _along(second)
    return ax * bx + ay * by < 0


@lru_cache(maxsize=4096)
def lie(first: Spots, second: Spots) -> Lie | None:
    """Return how a row lies to another of two or more holes; ``None`` where that has no length.

    The shear is half the difference of the squared diagonals over the two lengths (the cosine rule
    on either side of a trapezium). A bend about an axis along the rows does not change it, and
    rows that taper alike on both sides, as those of a frustum, have none.
    """
    one_mm, other_mm = dist(first[0], first[-1]), dist(second[0], second[-1])
    if not one_mm:
        return None
    ahead, back = dist(first[0], second[-1]), dist(first[-1], second[0])
    (ux, uy), (vx, vy) = _along(first), _along(second)
    (mx, my), (nx, ny) = middle(first), middle(second)
    return Lie(
        shear_mm=(ahead * ahead - back * back) / (2 * (one_mm + other_mm)),
        width_mm=(ux * (ny - my) - uy * (nx - mx)) / one_mm,
        turn=(ux * vx + uy * vy) / (one_mm * other_mm) if other_mm else 1.0,
        bow=max(bow(first), bow(second)),
        sum_mm=one_mm + other_mm,
        diagonals_mm=(ahead, back),
    )


def bow(row: Spots) -> float:
    """Return by what share a row is longer than the straight way between its ends."""
    straight_mm = hypot(*_along(row))
    if not straight_mm:
        return 0.0
    way_mm = sum(dist(a, b) for a, b in pairwise(row))
    return way_mm / straight_mm - 1


_EVEN_SHARE = 0.05
_BOWED_SHARE = 0.25


def allowed_mm(one: Lie, other: Lie, misfit_mm: float) -> float:
    """Return by how much the shear may differ between two parts in mm and still say nothing.

    Rows far from abreast of each other tell less, the more so where they taper or are curved:
    tapered by an angle the shear of a flat part shrinks by the square of the sine of half of it.
    """
    far_mm = max(abs(one.shear_mm), abs(other.shear_mm))
    taper = (1 - min(one.turn, other.turn)) / 2
    bowed = max(one.bow, other.bow) > STRAIGHT
    return misfit_mm + far_mm * (taper + (_BOWED_SHARE if bowed else _EVEN_SHARE))
