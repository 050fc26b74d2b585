"""Plates that taper: a piece of a cone, whose pivots lie on an arc of the flat leather.

What lies at one height on the limb lies on an arc about the tip of the cone in the flat. The
middle of the back is then higher or lower than the straight line between the pivots shows.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import asin, copysign, hypot, sqrt

from armorplan.geometry.lames.cuts import cut
from armorplan.pattern.parts import Point, Ring

_STEPS = 10
_FROM_MM, _LEAST_MM = 10.0, 30.0
"""Where the sides are looked at first, from the pivots, and over how much at least."""
_SHARE = 0.7
"""... and how far towards the other end, whose edge may be of any shape."""
_STRAIGHT_MM = 1.5
_LEAST_TAPER = 0.02


@dataclass(frozen=True, slots=True)
class Cone:
    """A taper: where its tip lies on the middle line, in mm up from the pivots, and their span."""

    tip_mm: float
    span_mm: float

    @property
    def slant_mm(self) -> float:
        """How far the pivots lie from the tip."""
        return hypot(self.tip_mm, self.span_mm / 2)

    @property
    def girth_mm(self) -> float:
        """How long the arc from pivot to pivot is."""
        return 2 * self.slant_mm * asin(min(1.0, self.span_mm / 2 / self.slant_mm))

    def rise_mm(self, across_mm: float) -> float:
        """Return how far up from the line between the pivots their arc lies, beside the middle."""
        far = sqrt(max(0.0, self.slant_mm**2 - across_mm**2))
        return (abs(self.tip_mm) - far) * copysign(1.0, self.tip_mm)


@lru_cache(maxsize=1024)
def cone_of(outline: Ring, middle: Point, up: Point, span_mm: float) -> Cone | None:
    """Return the cone that the straight sides of a plate run to; ``None`` where they do not."""
    ends = cut(outline, middle, up)
    if ends is None:
        return None
    reach = max(ends, key=abs)
    last = abs(reach) * _SHARE
    if last - _FROM_MM < _LEAST_MM:
        return None
    across = (-up[1], up[0])
    ups = [copysign(_FROM_MM + (last - _FROM_MM) * n / _STEPS, reach) for n in range(_STEPS + 1)]
    widths = []
    for y in ups:
        here = cut(outline, (middle[0] + y * up[0], middle[1] + y * up[1]), across)
        if here is None:
            return None
        widths.append(here[1] - here[0])
    return _run_together(ups, widths, span_mm)


def _run_together(ups: list[float], widths: list[float], span_mm: float) -> Cone | None:
    count = len(ups)
    mean_up, mean_wide = sum(ups) / count, sum(widths) / count
    spread = sum((y - mean_up) ** 2 for y in ups)
    taper = sum((y - mean_up) * (w - mean_wide) for y, w in zip(ups, widths, strict=True)) / spread
    at_pivots = mean_wide - taper * mean_up
    off = max(abs(at_pivots + taper * y - w) for y, w in zip(ups, widths, strict=True))
    if abs(taper) < _LEAST_TAPER or off > _STRAIGHT_MM:
        return None
    return Cone(-at_pivots / taper, span_mm)
