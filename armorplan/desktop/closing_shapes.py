"""The shapes of open rows over the parts: a lens between the joints that are set, in pixels."""

from collections.abc import Sequence
from math import hypot

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

LEAST_PX, MOST_PX = 2.0, 9.0
"""Half of the width of a lens where it hardly gapes, and where it is wide open."""
WIDE_MM = 60.0
"""A gape of this, and any wider one, is drawn at its widest."""


def half_px(gape_mm: float | None) -> float:
    """Return half of the width a gape is drawn with; ``None``: as wide as one likes."""
    if gape_mm is None:
        return MOST_PX
    return LEAST_PX + (MOST_PX - LEAST_PX) * min(gape_mm / WIDE_MM, 1.0) if gape_mm else 0.0


def lens(spots: Sequence[QPointF], gapes_mm: Sequence[float | None]) -> QPainterPath:
    """Return the outline of a row's gap through its joints: as wide at each as it gapes there."""
    path = QPainterPath()
    if len(spots) > 1:
        right, left = [], []
        for at, (spot, gape_mm) in enumerate(zip(spots, gapes_mm, strict=True)):
            off = _across(spots, at) * half_px(gape_mm)
            right.append(spot + off)
            left.append(spot - off)
        path.addPolygon([*right, *reversed(left)])
        path.closeSubpath()
    return path


def _across(spots: Sequence[QPointF], at: int) -> QPointF:
    """Return a step of one pixel to the right of a row at one of its joints."""
    way = spots[min(at + 1, len(spots) - 1)] - spots[max(at - 1, 0)]
    long = hypot(way.x(), way.y()) or 1.0
    return QPointF(-way.y() / long, way.x() / long)
