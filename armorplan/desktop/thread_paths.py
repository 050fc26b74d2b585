"""The lines of threads between tags: level at their ends, round where they turn."""

from collections.abc import Sequence
from itertools import pairwise

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

CORNER = 9.0


def flowing(points: Sequence[tuple[float, float]]) -> QPainterPath:
    """Return a path that leaves and meets every point level, with round corners where it turns."""
    spots = [QPointF(*point) for point in points]
    path = QPainterPath(spots[0])
    for place, (spot, onward) in enumerate(pairwise(spots), 1):
        if spot.x() != onward.x() and spot.y() != onward.y():
            bend = QPointF((onward.x() - spot.x()) * 0.5, 0)
            path.cubicTo(spot + bend, onward - bend, onward)
        elif place + 1 < len(spots) and _is_corner(spot, onward, spots[place + 1]):
            path.lineTo(_toward(onward, spot))
            path.quadTo(onward, _toward(onward, spots[place + 1]))
        else:
            path.lineTo(onward)
    return path


def _is_corner(one: QPointF, corner: QPointF, other: QPointF) -> bool:
    upright = one.x() == corner.x() and corner.y() == other.y()
    return upright or (one.y() == corner.y() and corner.x() == other.x())


def _toward(corner: QPointF, other: QPointF) -> QPointF:
    """Return the point a corner's radius away, or half the way where that is nearer."""
    way = other - corner
    length = abs(way.x()) + abs(way.y())
    return corner + way * min(CORNER / length, 0.5) if length else corner


def straight(points: Sequence[tuple[float, float]]) -> QPainterPath:
    """Return a line from the first point to the last."""
    path = QPainterPath(QPointF(*points[0]))
    path.lineTo(QPointF(*points[-1]))
    return path


def looping(at: QPointF, size: tuple[float, float]) -> QPainterPath:
    """Return a loop over the top of a tag: a part joined to itself."""
    top = at + QPointF(size[0] / 5, -size[1] / 2)
    path = QPainterPath(top - QPointF(26, 0))
    path.cubicTo(top - QPointF(50, 44), top + QPointF(50, -44), top + QPointF(26, 0))
    return path
