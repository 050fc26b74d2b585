"""The shape of a mark at a zoom, in pixels from the drawing's origin, and how it is painted."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygonF, QTransform

from armorplan.desktop.colours import Colours
from armorplan.desktop.mark_places import Anchor
from armorplan.desktop.picture_colours import severity_colour
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Point

LEAST_CORNERS, LEAST_ENDS = 3, 2
LEAST_ARROW_PX = 30.0
"""An arrow for a move of a millimetre is drawn so long; the true length stands beside it."""
HEAD_PX = (10.0, 5.0)
"""An arrow's head: how long, and half its width."""
TAIL_PX = 3.0
TICK_PX = 7.0
LINE_PX = 2.2
HAIR_PX = 1.0
HALO_PX = 2.0
BEYOND_PX = 8.0
"""An axis runs on so far beyond its ends."""
_TINT_ALPHA, _HATCH_ALPHA = 45, 150
_SOUND_ALPHA = 90
_GHOST_ALPHA = 28
_HATCHES = {
    Severity.ERROR: Qt.BrushStyle.DiagCrossPattern,
    Severity.WARNING: Qt.BrushStyle.BDiagPattern,
    Severity.NOTE: Qt.BrushStyle.FDiagPattern,
    None: Qt.BrushStyle.Dense7Pattern,
}
"""A zone says by its hatch, too, how grave it is."""
_STYLES = {
    MarkKind.GHOST: (Qt.PenStyle.DashLine, 1.8),
    MarkKind.LINE: (Qt.PenStyle.DashDotLine, 1.8),
    MarkKind.ZONE: (Qt.PenStyle.SolidLine, 1.3),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkShape:
    """A mark as drawn: what is stroked, what is filled with its colour, and where its words go."""

    kind: MarkKind
    severity: Severity | None
    stroke: QPainterPath
    solid: QPainterPath = field(default_factory=QPainterPath)
    anchor: Anchor

    @property
    def is_area(self) -> bool:
        """Tell whether it lies under the names: a zone or the outline of another part."""
        return self.kind in (MarkKind.ZONE, MarkKind.GHOST)

    def bounds(self) -> QRectF:
        """Return the box around what is drawn, pens included."""
        return (self.stroke.boundingRect() | self.solid.boundingRect()).adjusted(-5, -5, 5, 5)


def mark_area(mark: Mark, within: QPainterPath | None = None) -> QPainterPath:
    """Return what a zone or another part covers, in mm; empty for a mark that is no area.

    Of the outline of another part no more is drawn than lies ``within`` the part it covers.
    """
    path = QPainterPath()
    if mark.kind not in (MarkKind.ZONE, MarkKind.GHOST) or len(mark.spots) < LEAST_CORNERS:
        return path
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in mark.spots]))
    path.closeSubpath()
    clipped = path.intersected(within) if mark.kind is MarkKind.GHOST and within else path
    return path if clipped.isEmpty() else clipped


def mark_shape(mark: Mark, scale: float, area: QPainterPath | None = None) -> MarkShape | None:
    """Return a mark's shape at so many pixels to the mm; ``None`` without enough spots.

    ``area`` is its ``mark_area``, for who keeps it from zoom to zoom.
    """
    if mark.kind in (MarkKind.ZONE, MarkKind.GHOST):
        path = mark_area(mark) if area is None else area
        return None if path.isEmpty() else _area(mark, path, scale)
    if len(mark.spots) < LEAST_ENDS:
        return None
    ends = (mark.spots[0], mark.spots[-1])
    return _DRAWN[mark.kind](mark, [QPointF(x * scale, y * scale) for x, y in ends])


def _area(mark: Mark, path_mm: QPainterPath, scale: float) -> MarkShape:
    path = QTransform.fromScale(scale, scale).map(path_mm)
    return MarkShape(
        kind=mark.kind,
        severity=mark.severity,
        stroke=path,
        anchor=Anchor(path.boundingRect().center(), area=path),
    )


def _move(mark: Mark, spots: list[QPointF]) -> MarkShape:
    start, end = spots[0], spots[-1]
    along = _way(start, end)
    true_px = hypot(end.x() - start.x(), end.y() - start.y())
    tip = start + QPointF(*along) * max(true_px, LEAST_ARROW_PX)
    neck = tip - QPointF(*along) * HEAD_PX[0]
    aside = QPointF(-along[1], along[0]) * HEAD_PX[1]
    solid = QPainterPath()
    solid.setFillRule(Qt.FillRule.WindingFill)
    solid.addPolygon(QPolygonF([tip, neck + aside, neck - aside, tip]))
    solid.addEllipse(start, TAIL_PX, TAIL_PX)
    middle = (start + tip) / 2
    return _line_like(mark, _line(start, neck), Anchor(middle, along), solid)


def _span(mark: Mark, spots: list[QPointF]) -> MarkShape:
    start, end = spots[0], spots[-1]
    along = _way(start, end)
    aside = QPointF(-along[1], along[0]) * TICK_PX
    path = _line(start, end)
    for spot in (start, end):
        path.moveTo(spot - aside)
        path.lineTo(spot + aside)
    return _line_like(mark, path, Anchor((start + end) / 2, along))


def _axis(mark: Mark, spots: list[QPointF]) -> MarkShape:
    start, end = spots[0], spots[-1]
    along = _way(start, end)
    on = QPointF(*along) * BEYOND_PX
    path = _line(start - on, end + on)
    return _line_like(mark, path, Anchor(end + on, along))


def _line_like(
    mark: Mark, stroke: QPainterPath, anchor: Anchor, solid: QPainterPath | None = None
) -> MarkShape:
    return MarkShape(
        kind=mark.kind,
        severity=mark.severity,
        stroke=stroke,
        solid=solid or QPainterPath(),
        anchor=anchor,
    )


_DRAWN: dict[MarkKind, Callable[[Mark, list[QPointF]], MarkShape]] = {
    MarkKind.MOVE: _move,
    MarkKind.SPAN: _span,
    MarkKind.LINE: _axis,
}


def _way(start: QPointF, end: QPointF) -> Point:
    """Return the direction from one spot to another; to the right where they are one."""
    x, y = end.x() - start.x(), end.y() - start.y()
    length = hypot(x, y)
    return (x / length, y / length) if length else (1.0, 0.0)


def _line(start: QPointF, end: QPointF) -> QPainterPath:
    path = QPainterPath(start)
    path.lineTo(end)
    return path


def paint_mark(
    painter: QPainter,
    shape: MarkShape,
    colours: Colours,
    *,
    chosen: bool = False,
    aside: bool = False,
) -> None:
    """Paint a mark; a chosen one with a heavier line, one that stands aside with a hair line.

    Of hundreds that stand aside the hatches would hide the faults, and painting them takes time.
    """
    tone = QColor(severity_colour(colours, shape.severity))
    style, width = _STYLES.get(shape.kind, (Qt.PenStyle.SolidLine, LINE_PX))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if aside:
        if shape.kind is MarkKind.ZONE:
            tint = QColor(tone)
            tint.setAlpha(_GHOST_ALPHA)
            painter.fillPath(shape.stroke, tint)
        hair = _pen(tone, HAIR_PX, style)
        hair.setCosmetic(True)
        painter.setPen(hair)
        painter.drawPath(shape.stroke)
        return
    width += 1.2 if chosen else 0.0
    if shape.is_area:
        _fill(painter, shape, tone, colours)
    halo = QColor(colours.panel)
    if shape.kind is not MarkKind.ZONE:
        painter.strokePath(shape.stroke, _pen(halo, width + 2 * HALO_PX))
        painter.strokePath(shape.solid, _pen(halo, 2 * HALO_PX))
    painter.strokePath(shape.stroke, _pen(tone, width, style))
    if not shape.solid.isEmpty():
        painter.fillPath(shape.solid, tone)


def _fill(painter: QPainter, shape: MarkShape, tone: QColor, colours: Colours) -> None:
    tint = QColor(tone)
    if shape.kind is MarkKind.GHOST:
        tint = QColor(colours.panel)
        tint.setAlpha(_GHOST_ALPHA)
        painter.fillPath(shape.stroke, tint)
        return
    tint.setAlpha(_TINT_ALPHA if shape.severity else _GHOST_ALPHA)
    painter.fillPath(shape.stroke, tint)
    tint.setAlpha(_HATCH_ALPHA if shape.severity else _SOUND_ALPHA)
    painter.fillPath(shape.stroke, QBrush(tint, _HATCHES[shape.severity]))


def _pen(colour: QColor, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    return QPen(colour, width, style, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.RoundJoin)


def union(boxes: Sequence[QRectF]) -> QRectF:
    """Return the box around boxes; an empty one around none."""
    around = QRectF()
    for box in boxes:
        around |= box
    return around
