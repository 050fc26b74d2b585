"""The shapes of open rows over the parts: a lens between the joints that are set, in pixels."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

LEAST_PX, MOST_PX = 1.5, 9.0
"""Half of the width of a lens where it hardly gapes, and where it is wide open."""
SPACING_SHARE = 0.5
"""Of the spacing of its row half of a lens is no wider than this."""
WIDE_MM = 60.0
"""A gape of this, and any wider one, is drawn at its widest."""


def half_px(gape_mm: float | None, most_px: float = MOST_PX) -> float:
    """Return half of the width a gape is drawn with; ``None``: as wide as one likes."""
    if gape_mm is None:
        return most_px
    return LEAST_PX + (most_px - LEAST_PX) * min(gape_mm / WIDE_MM, 1.0) if gape_mm else 0.0


def widest_px(spots: Sequence[QPointF]) -> float:
    """Return half of the width of the widest lens along a row, by the room between its joints."""
    steps = [b - a for a, b in pairwise(spots)]
    spacing = sum(hypot(step.x(), step.y()) for step in steps) / max(len(steps), 1)
    return min(max(spacing * SPACING_SHARE, 2 * LEAST_PX), MOST_PX)


def lens(spots: Sequence[QPointF], gapes_mm: Sequence[float | None]) -> QPainterPath:
    """Return the outline of a row's gap through its joints: as wide at each as it gapes there."""
    path = QPainterPath()
    if len(spots) > 1:
        right, left, most_px = [], [], widest_px(spots)
        for at, (spot, gape_mm) in enumerate(zip(spots, gapes_mm, strict=True)):
            off = _across(spots, at) * half_px(gape_mm, most_px)
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
