"""Parts as they lie on the drawing table: outline, slots, holes in a joint and holes in none."""

from itertools import product

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import Look, coat, leather
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.pattern.parts import Hole, Part

EDGE_MM = 4.0
NEAR_HOLE_PX = 9.0
"""Holes that look no larger than this are drawn as dots and rings."""
LEAST_HOLE_PX = 3.0
NAME_TRIES = (0.5, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85)
"""Where in the box around a part its name is tried, in shares of width and height."""


def hole_path(hole: Hole) -> QPainterPath:
    """Return the outline of a hole, round or long."""
    path, half_mm = QPainterPath(), hole.diameter_mm / 2
    if not hole.travel_mm:
        path.addEllipse(QPointF(*hole.centre), half_mm, half_mm)
        return path
    length_mm = hole.travel_mm + hole.diameter_mm
    box = QRectF(-length_mm / 2, -half_mm, length_mm, hole.diameter_mm)
    path.addRoundedRect(box, half_mm, half_mm)
    return QTransform().translate(*hole.centre).rotate(-hole.travel_deg).map(path)


class TablePart(QGraphicsItem):
    """One part with what is cut out of it, and its name at its upper edge."""

    def __init__(self, part: Part, used: frozenset[str]) -> None:
        super().__init__()
        self.part = part
        self.used = used
        self.outline = ring_path(part.outline)
        self._slots = [ring_path(slot.outline) for slot in part.slots]
        self._holes = [(hole_path(hole), hole.id in used) for hole in part.holes]
        paths = (*self._slots, *(path for path, _ in self._holes))
        self.cut = tuple(path.boundingRect() for path in paths)
        self.edge = self.outline.boundingRect()
        self._room: tuple[tuple[float, float], QPointF | None] = ((0.0, 0.0), None)
        self._colours: Colours = LIGHT
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def wear(self, colours: Colours) -> None:
        """Draw in these colours."""
        self._colours = colours
        self.update()

    def room_for(self, wide_mm: float, high_mm: float) -> QPointF | None:
        """Return where words of a size cover nothing that is cut out; ``None``: nowhere tried."""
        size = round(wide_mm, 3), round(high_mm, 3)
        if self._room[0] != size:
            self._room = size, self._seek_room(*size)
        return self._room[1]

    def _seek_room(self, wide_mm: float, high_mm: float) -> QPointF | None:
        box = self.edge
        if wide_mm > box.width() or high_mm > box.height():
            return None
        for down, across in product(NAME_TRIES, NAME_TRIES):
            at = QPointF(box.left() + across * box.width(), box.top() + down * box.height())
            words = QRectF(at.x() - wide_mm / 2, at.y() - high_mm / 2, wide_mm, high_mm)
            if self.outline.contains(words) and not any(words.intersects(c) for c in self.cut):
                return at
        return None

    def boundingRect(self) -> QRectF:
        return self.edge.adjusted(-EDGE_MM, -EDGE_MM, EDGE_MM, EDGE_MM)

    def shape(self) -> QPainterPath:
        return self.outline

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        colours = self._colours
        worn = coat(colours, leather(colours, self.part.kind, 1), Look.PLAIN)
        painter.setPen(cosmetic(worn.edge, worn.edge_px))
        painter.setBrush(QBrush(QColor(worn.fill)))
        painter.drawPath(self.outline)
        painter.setBrush(QBrush(QColor(colours.panel)))
        for slot in self._slots:
            painter.drawPath(slot)
        self._paint_holes(painter, worn.edge)

    def _paint_holes(self, painter: QPainter, edge: str) -> None:
        """Holes in a joint have a full edge, those in none a dotted one; small, a dot and a ring."""
        scale = painter.worldTransform().m11()
        for path, is_used in self._holes:
            box = path.boundingRect()
            if box.height() * scale > NEAR_HOLE_PX:
                style = Qt.PenStyle.SolidLine if is_used else Qt.PenStyle.DotLine
                painter.setPen(cosmetic(edge, 1.3 if is_used else 1.6, style))
                painter.drawPath(path)
            elif is_used:
                painter.setPen(cosmetic(edge, max(box.height() * scale, LEAST_HOLE_PX)))
                painter.drawPoint(box.center())
            else:
                radius_mm = max(box.height() / 2, LEAST_HOLE_PX / scale)
                painter.setPen(cosmetic(edge, 1.2))
                painter.drawEllipse(box.center(), radius_mm, radius_mm)


def cosmetic(colour: str, width_px: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    """Return a pen of a width in pixels at every zoom."""
    pen = QPen(QColor(colour), width_px, style)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen
