"""Lines of a drawing as they are drawn: each kind has a colour, a fill and a kind of line of its own."""

from collections.abc import Sequence
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
)
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QGraphicsSimpleTextItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.widgets.picture_words import line_of
from armorplan.geometry.brought.model import Shape, ShapeKind

LINE_PX, LIT_PX = 1.6, 4.0
TINT = 0.55
DOT_MOST_PX, DOT_PX = 4.0, 4.0
"""Holes drawn smaller than this are dots."""
DOT_ROOM_MM = 10.0
PLATE_ALPHA = 190
_STYLES = {
    ShapeKind.ENGRAVING: Qt.PenStyle.DashLine,
    ShapeKind.FRAME: Qt.PenStyle.DashDotLine,
    ShapeKind.LEFT_OUT: Qt.PenStyle.DotLine,
}
_HEIGHTS = {ShapeKind.FRAME: -1.0, ShapeKind.PART: 0.0}


def pen_of(kind: ShapeKind, colours: Colours, *, lit: bool = False) -> QPen:
    """Return the line of a kind."""
    plain = {
        ShapeKind.ENGRAVING: colours.paused,
        ShapeKind.FRAME: colours.running,
        ShapeKind.LEFT_OUT: colours.quiet,
    }.get(kind, colours.edge)
    style = _STYLES.get(kind, Qt.PenStyle.SolidLine)
    return line_of(colours.focus if lit else plain, LIT_PX if lit else LINE_PX, style)


def brush_of(kind: ShapeKind, colours: Colours, *, lit: bool = False) -> QBrush:
    """Return what fills a kind: leather a part, the ground a hole, hatching a slot, nothing the rest."""
    if kind is ShapeKind.PART:
        leather = mixed(colours.leather, colours.chosen, TINT) if lit else colours.leather
        return QBrush(QColor(leather))
    if kind is ShapeKind.HOLE:
        return QBrush(QColor(colours.panel))
    if kind is ShapeKind.SLOT:
        return QBrush(QColor(colours.edge), Qt.BrushStyle.BDiagPattern)
    return QBrush(Qt.BrushStyle.NoBrush)


class ShapeItem(QGraphicsPathItem):
    """One shape; drawn by Qt itself, so that thousands are fluent."""

    def __init__(self, shape: Shape, path: QPainterPath) -> None:
        super().__init__(path)
        self.shape_key = shape.key
        self.kind = shape.kind
        self.is_lit = False
        self.is_filled = shape.closed and shape.kind is not ShapeKind.FRAME
        if shape.kind is ShapeKind.PART:  # others are small, or as large as the page
            self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def wear(self, colours: Colours, *, lit: bool) -> None:
        """Be drawn as the kind is, lit or not."""
        self.is_lit = lit
        self.setPen(pen_of(self.kind, colours, lit=lit))
        self.setBrush(brush_of(self.kind, colours, lit=lit))
        self.setZValue(_HEIGHTS.get(self.kind, 1.0) + (0.5 if lit else 0.0))

    def is_under(self, at: QPointF, reach_mm: float) -> bool:
        """Tell whether a point is within the shape, or near the line of one that is not filled."""
        if self.is_filled and self.path().contains(at):
            return True
        stroker = QPainterPathStroker()
        stroker.setWidth(2 * reach_mm)
        return stroker.createStroke(self.path()).contains(at)

    def key_near(self, at: QPointF, reach_mm: float) -> str:
        """Return the key of the shape where a point is on it; else an empty text."""
        return self.shape_key if self.is_under(at, reach_mm) else ""

    def area_mm2(self) -> float:
        """Return the area of its box: of two shapes under a point the smaller is meant."""
        box = self.path().boundingRect()
        return box.width() * box.height()


class HolesItem(QGraphicsItem):
    """All round holes that lie in one part: from afar they are dots, which thousands can be."""

    def __init__(self, holes: Sequence[Shape]) -> None:
        super().__init__()
        self.holes = {
            hole.key: (QPointF(*hole.circle[0]), hole.circle[1]) for hole in holes if hole.circle
        }
        self._colours: Colours = LIGHT
        self._lit: frozenset[str] = frozenset()
        box = QRectF()
        for at, across in self.holes.values():
            box = box.united(QRectF(at.x() - across, at.y() - across, 2 * across, 2 * across))
        self._box = box.adjusted(-DOT_ROOM_MM, -DOT_ROOM_MM, DOT_ROOM_MM, DOT_ROOM_MM)
        self.setZValue(2.0)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    @property
    def lit(self) -> frozenset[str]:
        """Keys of the holes that are lit."""
        return self._lit

    def wear(self, colours: Colours, lit: frozenset[str]) -> None:
        """Be drawn in these colours, some of them lit."""
        mine = lit & self.holes.keys()
        if (colours, mine) != (self._colours, self._lit):
            self._colours, self._lit = colours, mine
            self.update()

    def key_near(self, at: QPointF, reach_mm: float) -> str:
        """Return the key of the nearest hole in reach of a point; else an empty text."""
        found = [
            (hypot(at.x() - centre.x(), at.y() - centre.y()) - across / 2, key)
            for key, (centre, across) in self.holes.items()
        ]
        off_mm, key = min(found)
        return key if off_mm <= reach_mm else ""

    def area_mm2(self) -> float:
        """Return the area of the largest: a hole is smaller than what it lies in."""
        return max(across for _, across in self.holes.values()) ** 2

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        scale = painter.transform().m11()
        for is_lit in (False, True):
            some = [each for key, each in self.holes.items() if (key in self._lit) is is_lit]
            if not some:
                continue
            if max(across for _, across in some) * scale < DOT_MOST_PX:
                self._paint_dots(painter, [at for at, _ in some], is_lit=is_lit)
                continue
            painter.setPen(pen_of(ShapeKind.HOLE, self._colours, lit=is_lit))
            painter.setBrush(brush_of(ShapeKind.HOLE, self._colours, lit=is_lit))
            for at, across in some:
                painter.drawEllipse(at, across / 2, across / 2)

    def _paint_dots(self, painter: QPainter, spots: list[QPointF], *, is_lit: bool) -> None:
        edge = self._colours.focus if is_lit else self._colours.edge
        for colour, wide in ((edge, DOT_PX + 2 * is_lit), (self._colours.panel, DOT_PX - 2)):
            painter.setPen(line_of(colour, wide))
            painter.drawPoints(spots)


class NamePlate(QGraphicsSimpleTextItem):
    """The name of a part, as large as the window's text, on a plate of leather."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self._plate = QColor()

    def wear(self, colours: Colours, font: QFont) -> None:
        """Be written in these colours and this font."""
        self.setFont(font)
        self.setBrush(QColor(colours.text))
        self._plate = QColor(colours.leather)
        self._plate.setAlpha(PLATE_ALPHA)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._plate)
        painter.drawRoundedRect(self.boundingRect(), 3, 3)
        painter.setPen(self.brush().color())
        painter.setFont(self.font())
        painter.drawText(self.boundingRect(), Qt.AlignmentFlag.AlignCenter, self.text())
