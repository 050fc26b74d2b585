"""Which closed lines are circles, however they are drawn: curves, half arcs, many short lines.

A circle is fitted by least squares to the corners (the sums of Kåsa 1976, 'A circle fitting
procedure and its error analysis', whose bias does not matter over a whole turn). A line is round
where all corners lie near it and go round it once in steps that are short enough: a square's
corners lie on a circle too.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    from numpy import float64, int64
    from numpy.typing import NDArray

    Numbers = NDArray[float64]
    Whole = NDArray[int64]

LEAST_CORNERS = 8
_AT_ONCE = 1000
_OFF_SHARE, _OFF_LEAST, _OFF_MOST = 0.03, 0.08, 0.25
"""Programs that write one digit behind the point move a corner by up to 0.07 mm."""
_STEP_DEG, _SMALL_STEP_DEG = 33.0, 50.0
_ONCE = 0.1
"""How far from one whole turn the steps may be, in radians."""
_SMALL = 12.0
"""A circle up to this many mm may be drawn with as few as eight corners: 0.5 mm flat at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundFit:
    """A circle fitted to corners; ``off`` is how far one lies from it at most."""

    centre: Point
    diameter: float
    off: float
    corners: int


def round_of(ring: Ring) -> RoundFit | None:
    """Return the circle that a closed line is, or ``None``; whatever its unit is."""
    return rounds_of([ring], scale_free=True)[0]


def rounds_of(
    rings: Sequence[Ring], *, scale_free: bool = False, should_stop: ShouldStop = never
) -> list[RoundFit | None]:
    """Return for each closed line the circle it is, or ``None``.

    Args:
        rings: their corners, in mm unless ``scale_free``.
        scale_free: judge by shape alone.
        should_stop: asked often.
    """
    found: list[RoundFit | None] = []
    for start in range(0, len(rings), _AT_ONCE):
        go_on(should_stop)
        found += _rounds(rings[start : start + _AT_ONCE], scale_free=scale_free)
    return found


def _rounds(rings: Sequence[Ring], *, scale_free: bool) -> list[RoundFit | None]:
    import numpy as np

    found: list[RoundFit | None] = [None] * len(rings)
    tried = [n for n, ring in enumerate(rings) if len(ring) >= LEAST_CORNERS]
    if not tried:
        return found
    counts = np.array([len(rings[n]) for n in tried])
    corners = np.concatenate([np.asarray(rings[n], dtype=float) for n in tried])
    starts = np.concatenate(([0], np.cumsum(counts)[:-1]))
    owner = np.repeat(np.arange(len(tried)), counts)
    with np.errstate(all="ignore"):
        centre, radius, off = _fitted(corners, counts, starts, owner)
        step, turned = _steps(corners - centre[owner], counts, starts)
        least, most = (0.0, np.inf) if scale_free else (_OFF_LEAST, _OFF_MOST)
        may = np.minimum(np.maximum(_OFF_SHARE * radius, least), most)
        wide = (
            _SMALL_STEP_DEG
            if scale_free
            else np.where(2 * radius <= _SMALL, _SMALL_STEP_DEG, _STEP_DEG)
        )
        good = (off <= may) & (step <= np.radians(wide)) & (np.abs(turned - 2 * np.pi) < _ONCE)
    for n, at in enumerate(tried):
        if good[n]:
            found[at] = RoundFit(
                centre=(float(centre[n, 0]), float(centre[n, 1])),
                diameter=float(2 * radius[n]),
                off=float(off[n]),
                corners=int(counts[n]),
            )
    return found


def _fitted(
    corners: "Numbers", counts: "Whole", starts: "Whole", owner: "Whole"
) -> "tuple[Numbers, Numbers, Numbers]":
    """Return centres, radii and how far corners lie off at most."""
    import numpy as np

    def total(values: "Numbers") -> "Numbers":
        return np.asarray(np.add.reduceat(values, starts, axis=0), dtype=float)

    middle = total(corners) / counts[:, None]
    u, v = (corners - middle[owner]).T
    uu, vv, uv = total(u * u), total(v * v), total(u * v)
    p, q = total(u * (u * u + v * v)) / 2, total(v * (u * u + v * v)) / 2
    det = uu * vv - uv * uv
    shift = np.stack(((p * vv - q * uv) / det, (q * uu - p * uv) / det), axis=1)
    centre = middle + shift
    radius = np.sqrt((shift**2).sum(axis=1) + (uu + vv) / counts)
    away = np.hypot(*(corners - centre[owner]).T)
    return centre, radius, np.maximum.reduceat(np.abs(away - radius[owner]), starts)


def _steps(spokes: "Numbers", counts: "Whole", starts: "Whole") -> "tuple[Numbers, Numbers]":
    """Return the widest step between corners, and how far they turn, in radians."""
    import numpy as np

    angle = np.arctan2(spokes[:, 1], spokes[:, 0])
    after = np.arange(len(angle)) + 1
    after[starts + counts - 1] = starts
    step = (angle[after] - angle + np.pi) % (2 * np.pi) - np.pi
    return np.maximum.reduceat(np.abs(step), starts), np.abs(np.add.reduceat(step, starts))
