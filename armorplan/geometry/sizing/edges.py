"""Holes of a part that grows: those near an edge stay as far from it as they were."""

from typing import TYPE_CHECKING, Any, NamedTuple

from armorplan.geometry.sizing.stretches import Spread
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

KEPT_MM, FREE_MM = 18.0, 32.0
"""Up to the first distance a hole keeps its own from the edge, beyond the second it goes with the
leather, and between them in part (common practice, no source)."""
_TURNED = 0.6
"""A second edge runs another way: the cosine between the two is smaller."""
_AGAINST = -0.5
_LEAST_TURN = 0.3


class _Near(NamedTuple):
    """The nearest spot of an edge, the way from there to the hole, and how far."""

    spot: Point
    way: Point
    far_mm: float


def kept_spots(ring: Ring, points: list[Point], spread: Spread) -> list[Point]:
    """Return where holes at these points come to lie."""
    import numpy as np

    corners = np.asarray(ring, dtype=float)
    sides = np.roll(corners, -1, axis=0) - corners
    long = np.maximum((sides * sides).sum(axis=1), 1e-12)
    return [_kept(np.asarray(point), (corners, sides, long), spread) for point in points]


def _kept(point: "Floats", edge: tuple["Floats", "Floats", "Floats"], spread: Spread) -> Point:
    import numpy as np

    corners, sides, long = edge
    share = np.clip(((point - corners) * sides).sum(axis=1) / long, 0.0, 1.0)
    spots = corners + share[:, None] * sides
    away = point - spots
    far = np.hypot(away[:, 0], away[:, 1])
    free = spread.at(_pair(point))
    first = int(far.argmin())
    weight = _weight(float(far[first]))
    if weight <= 0.0 or far[first] <= 0.0:
        return free
    nearest = _near(spots, away, far, first)
    second = _second(spots, away, far, nearest)
    held = _held(nearest, second, spread)
    return (
        free[0] + weight * (held[0] - free[0]),
        free[1] + weight * (held[1] - free[1]),
    )


def _weight(far_mm: float) -> float:
    return min(1.0, max(0.0, (FREE_MM - far_mm) / (FREE_MM - KEPT_MM)))


def _near(spots: "Floats", away: "Floats", far: "Floats", at: int) -> _Near:
    return _Near(_pair(spots[at]), _pair(away[at] / far[at]), float(far[at]))


def _second(spots: "Floats", away: "Floats", far: "Floats", nearest: _Near) -> _Near | None:
    """Return another edge near by that runs another way: the hole lies in a corner."""
    import numpy as np

    ways = away / np.maximum(far, 1e-9)[:, None]
    cosines = ways @ np.asarray(nearest.way)
    fits = (cosines < _TURNED) & (cosines > _AGAINST) & (far <= KEPT_MM)
    if not fits.any():
        return None
    return _near(spots, away, far, int(np.where(fits, far, np.inf).argmin()))


def _held(nearest: _Near, second: _Near | None, spread: Spread) -> Point:
    """Return the spot that keeps its distance from one edge, or from two."""
    (x, y), (nx, ny) = spread.at(nearest.spot), spread.normal(nearest.way)
    alone = (x + nearest.far_mm * nx, y + nearest.far_mm * ny)
    if second is None:
        return alone
    (sx, sy), (mx, my) = spread.at(second.spot), spread.normal(second.way)
    turn = nx * my - ny * mx
    if abs(turn) < _LEAST_TURN:
        return alone
    one = nx * x + ny * y + nearest.far_mm
    other = mx * sx + my * sy + second.far_mm
    return (one * my - other * ny) / turn, (nx * other - mx * one) / turn


def _pair(value: Any) -> Point:
    return float(value[0]), float(value[1])
