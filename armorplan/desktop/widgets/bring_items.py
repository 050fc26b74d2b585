"""Lines of a drawing as they are drawn: each kind has a colour, a fill and a kind of line of its own."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QPainter,
    QPainterPath,
    QPainterPathStroker,
    QPen,
)
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.desktop.bring_view import Ghost, Link
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.geometry.brought.model import Shape, ShapeKind

LINE_PX, LIT_PX = 1.6, 4.0
TINT = 0.55
NUMBERS_MOST = 40
"""Of more pairs than this the numbers would lie on each other."""
MISS_LEAST_MM = 0.05
"""A smaller miss is none to the eye and the punch."""
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
    pen = QPen(QColor(colours.focus if lit else plain), LIT_PX if lit else LINE_PX, style)
    pen.setCosmetic(True)
    return pen


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

    def area_mm2(self) -> float:
        """Return the area of its box: of two shapes under a point the smaller is meant."""
        box = self.path().boundingRect()
        return box.width() * box.height()


class GhostItem(QGraphicsItem):
    """Over all shapes: a part laid on another by their holes, and by how much each hole misses."""

    def __init__(self) -> None:
        super().__init__()
        self.colours: Colours = LIGHT
        self.font = QFont()
        self._ghost: Ghost | None = None
        self._outline = QPainterPath()
        self._box = QRectF()
        self.hide()

    @property
    def ghost(self) -> Ghost | None:
        """What is drawn."""
        return self._ghost

    def show_ghost(self, ghost: Ghost | None) -> None:
        """Draw a match, or nothing."""
        self.prepareGeometryChange()
        self._ghost = ghost
        self._outline = ring_path(ghost.outline) if ghost and ghost.outline else QPainterPath()
        box = self._outline.boundingRect()
        for link in ghost.links if ghost else ():
            for x, y in (link.first, link.second):
                box = box.united(QRectF(x - 30, y - 30, 60, 60))
        self._box = box
        self.setVisible(ghost is not None)
        self.update()

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self._ghost is None:
            return
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for colour, wide, style in (
            (self.colours.panel, 5.0, Qt.PenStyle.SolidLine),
            (self.colours.focus, 2.2, Qt.PenStyle.DashLine),
        ):
            painter.setPen(_pen(colour, wide, style))
            painter.drawPath(self._outline)
        scale = painter.transform().m11() or 1.0
        for link in self._ghost.links:
            self._paint_link(painter, link, 4.0 / scale)
        if len(self._ghost.links) <= NUMBERS_MOST:
            self._paint_numbers(painter, scale)

    def _paint_link(self, painter: QPainter, link: Link, least_mm: float) -> None:
        first, second = QPointF(*link.first), QPointF(*link.second)
        is_off = link.miss_mm is None or link.miss_mm > MISS_LEAST_MM
        for colour, wide in ((self.colours.panel, 4.5), (self.colours.focus, 2.2)):
            painter.setPen(_pen(colour, wide, Qt.PenStyle.SolidLine))
            if is_off:
                painter.drawLine(first, second)
            painter.drawEllipse(second, least_mm, least_mm)

    def _paint_numbers(self, painter: QPainter, scale: float) -> None:
        """Number the pairs along the row; the one that misses most says by how many mm."""
        links = self._ghost.links if self._ghost else ()
        misses = [link.miss_mm or 0.0 for link in links]
        worst = max(misses, default=0.0)
        for number, (link, miss) in enumerate(zip(links, misses, strict=True), start=1):
            is_worst = miss == worst > MISS_LEAST_MM
            words = f"{number}: {miss:.2f} mm" if is_worst else f"{number}"
            self._paint_words(painter, QPointF(*link.second), scale, words)

    def _paint_words(self, painter: QPainter, at: QPointF, scale: float, words: str) -> None:
        painter.save()
        painter.translate(at)
        painter.scale(1 / scale, 1 / scale)
        box = QFontMetricsF(self.font).boundingRect(words).adjusted(-3, -1, 3, 1)
        box.moveTo(7, -box.height() - 3)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self.colours.panel))
        painter.drawRoundedRect(box, 3, 3)
        painter.setPen(QColor(self.colours.text))
        painter.setFont(self.font)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        painter.restore()


def _pen(colour: str, wide: float, style: Qt.PenStyle) -> QPen:
    pen = QPen(QColor(colour), wide, style, Qt.PenCapStyle.RoundCap)
    pen.setCosmetic(True)
    return pen
