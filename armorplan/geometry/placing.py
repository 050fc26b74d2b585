"""Laying one part on another by the holes they share: a turn and a shift, nothing else."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, dist, radians, sin, sqrt

from armorplan.pattern.parts import Point

_LEAST_HOLES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How part B is laid in part A's frame.

    Attributes:
        rotation_deg: turn about B's origin from the x towards the y axis; with y down the page
            that is clockwise to the eye.
        shift: movement in mm after the turn.
        residual_mm: root mean square of what the holes then miss by.
        worst_mm: the most that a hole then misses by.
        mirrored_residual_mm: the same root mean square had B been turned over. A row's own
            curvature makes neither residual a proof of hand.
    """

    rotation_deg: float
    shift: Point
    residual_mm: float
    worst_mm: float
    mirrored_residual_mm: float

    def place(self, point: Point) -> Point:
        """Return a point of B in A's frame."""
        return _turned(point, radians(self.rotation_deg), self.shift)


def _turned(point: Point, angle: float, shift: Point) -> Point:
    x, y = point
    return (
        x * cos(angle) - y * sin(angle) + shift[0],
        x * sin(angle) + y * cos(angle) + shift[1],
    )


def _centre(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _best(on_a: Sequence[Point], on_b: Sequence[Point]) -> tuple[float, Point, tuple[float, ...]]:
    """Return the turn, the shift and what each point misses by.

    The least-squares turn between two centred sets in the plane (Kabsch 1976) has a closed form:
    the angle whose tangent is the sum of cross products over the sum of dot products.
    """
    (ax, ay), (bx, by) = _centre(on_a), _centre(on_b)
    dot = cross = 0.0
    for (px, py), (qx, qy) in zip(on_a, on_b, strict=True):
        dot += (qx - bx) * (px - ax) + (qy - by) * (py - ay)
        cross += (qx - bx) * (py - ay) - (qy - by) * (px - ax)
    angle = atan2(cross, dot)
    x, y = _turned((bx, by), angle, (0.0, 0.0))
    shift = (ax - x, ay - y)
    misses = (dist(p, _turned(q, angle, shift)) for p, q in zip(on_a, on_b, strict=True))
    return angle, shift, tuple(misses)


def _rms(misses: tuple[float, ...]) -> float:
    return sqrt(sum(miss * miss for miss in misses) / len(misses))


def fit(on_a: Sequence[Point], on_b: Sequence[Point]) -> Fit | None:
    """Return how B lies on A by the same holes in both, or ``None`` with fewer than two.

    With one hole a part may still turn about it. Equal spacings with a residual are no misfit: the
    seam draws the leather into shape, and the fit is only its best place in the flat.
    """
    if len(on_a) < _LEAST_HOLES:
        return None
    angle, shift, misses = _best(on_a, on_b)
    _, _, mirrored = _best(on_a, [(-x, y) for x, y in on_b])
    return Fit(
        rotation_deg=degrees(angle),
        shift=shift,
        residual_mm=_rms(misses),
        worst_mm=max(misses),
        mirrored_residual_mm=_rms(mirrored),
    )
