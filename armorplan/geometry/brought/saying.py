"""What a person says a line is may ask for another form of it: a closed one, or a circle."""

from dataclasses import replace
from math import pi, sqrt

from armorplan.geometry.brought.lines import Drawn, as_areas
from armorplan.geometry.brought.model import ShapeKind

CUTTING = (ShapeKind.PART, ShapeKind.HOLE, ShapeKind.SLOT, ShapeKind.FRAME)
_LEAST_CORNERS = 3


def as_said(line: Drawn, kind: ShapeKind | None) -> Drawn:
    """Return a line in the form that its kind needs, as far as it can have it."""
    if kind not in CUTTING or len(line.points) < _LEAST_CORNERS:
        return line
    closed = line if line.closed else replace(line, closed=True)
    if kind is not ShapeKind.HOLE or closed.circle is not None:
        return closed
    area = as_areas([closed])[0]
    if area.area <= 0:
        return line
    middle = area.centroid
    circle = (float(middle.x), float(middle.y)), 2 * sqrt(area.area / pi)
    return replace(closed, circle=circle)
