"""Across and along a bend: where holes lie across the line about which a part is bent."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import atan2, cos, hypot, sin
from typing import NamedTuple

from armorplan.pattern.parts import Part, Point, Ring

Axis = tuple[Point, Point]
CORNERS = 3
"""An outline of fewer has no area."""


class Across(NamedTuple):
    """The direction across a bend on the drawing.

    Attributes:
        unit: of length 1, in drawing coordinates (y down the page).
        axis_mm: the place of the axis along it; ``None``: it is not known where it lies.
    """

    unit: Point
    axis_mm: float | None = None

    def place_mm(self, spot: Point) -> float:
        """Return where a spot lies across the bend, in mm."""
        return spot[0] * self.unit[0] + spot[1] * self.unit[1]


def across_axis(axis: Axis, *, lies_here: bool = True) -> Across | None:
    """Return the direction across an axis; ``None`` where its two ends are one spot."""
    (x1, y1), (x2, y2) = axis
    length = hypot(x2 - x1, y2 - y1)
    if length == 0:
        return None
    across = Across(_forth((y1 - y2) / length, (x2 - x1) / length))
    return across._replace(axis_mm=across.place_mm(axis[0])) if lies_here else across


def widest(spots: Sequence[Point]) -> Across:
    """Return the direction in which spots spread most: their principal axis."""
    x0, y0 = (sum(c) / len(spots) for c in zip(*spots, strict=True))
    off = [(x - x0, y - y0) for x, y in spots]
    both = sum(x * y for x, y in off)
    along = atan2(2 * both, sum(x * x - y * y for x, y in off)) / 2
    return Across(_forth(cos(along), sin(along)))


def _forth(x: float, y: float) -> Point:
    """Return a direction the way one reads: to the right, or down the page."""
    return (x, y) if (x, y) > (0.0, 0.0) else (-x, -y)


def as_faced(spots: Iterable[Point], part: Part, other: Part) -> list[Point]:
    """Return spots of a part as they are seen on the face from which another one is drawn."""
    if part.drawn_from_inside == other.drawn_from_inside:
        return list(spots)
    return [(-x, y) for x, y in spots]


def crosses(axis: Axis, part: Part) -> bool:
    """Tell whether an axis lies over a part: corners on both sides of it, and beside its length."""
    return _lies_over(axis, part.outline)


@lru_cache(maxsize=2048)
def _lies_over(axis: Axis, outline: Ring) -> bool:
    across = across_axis(axis)
    if across is None or len(outline) < CORNERS:
        return False
    along = Across((across.unit[1], -across.unit[0]))
    places = [across.place_mm(spot) for spot in outline]
    if not min(places) < (across.axis_mm or 0.0) < max(places):
        return False
    lengths = [along.place_mm(spot) for spot in outline]
    ends = sorted(along.place_mm(end) for end in axis)
    return ends[0] < max(lengths) and min(lengths) < ends[1]
