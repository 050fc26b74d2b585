"""Tags and threads: a node of a graph as a tag with its mark in the eyelet, an edge as a thread."""

from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.app.rows import GraphEdge, GraphNode
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.glyphs import paint_state, state_word
from armorplan.desktop.picture_colours import Coat, Look, coat, mixed
from armorplan.desktop.wrapping import wrapped

TAG_WIDE = 216.0
EYELET = 36.0
PAD = 9.0
LINES = 2
CLIP = 12.0
FAR_SCALE = 0.4
"""Below so many pixels to the unit a tag shows its mark alone."""
TIP = 9.0


def tag_height(metrics: QFontMetricsF) -> float:
    """Return how tall a tag is: two lines of title and one for the state."""
    return (LINES + 1) * metrics.height() + 2 * PAD


def tag_path(box: QRectF) -> QPainterPath:
    """Return the outline of a tag: clipped corners on the side of the eyelet."""
    left, top, right, low = box.left(), box.top(), box.right(), box.bottom()
    path = QPainterPath(QPointF(left + CLIP, top))
    path.lineTo(right - 4, top)
    path.quadTo(right, top, right, top + 4)
    path.lineTo(right, low - 4)
    path.quadTo(right, low, right - 4, low)
    path.lineTo(left + CLIP, low)
    path.lineTo(left, low - CLIP)
    path.lineTo(left, top + CLIP)
    path.closeSubpath()
    return path


class TagItem(QGraphicsItem):
    """A node: its state's mark in the eyelet, its title, its state in a word."""

    def __init__(self, node: GraphNode, height: float) -> None:
        super().__init__()
        self.node = node
        self.look = Look.PLAIN
        self.box = QRectF(-TAG_WIDE / 2, -height / 2, TAG_WIDE, height)
        self._colours: Colours = LIGHT
        self._coat = Coat(fill=LIGHT.panel, edge=LIGHT.edge, text=LIGHT.text, edge_px=1.4)
        self._font = QFont()
        self._lines: tuple[str, ...] = ()
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def restyle(self, colours: Colours, fill: str, font: QFont) -> None:
        """Draw anew in these colours and this font."""
        self._colours, self._font = colours, font
        self._coat = coat(colours, fill, self.look)
        room = TAG_WIDE - EYELET - PAD
        self._lines = wrapped(self.node.label, QFontMetricsF(font), room, LINES)
        self.update()

    def outline(self) -> QPainterPath:
        """Return the tag's outline in scene coordinates."""
        return tag_path(self.box).translated(self.pos())

    def boundingRect(self) -> QRectF:
        return self.box.adjusted(-5, -5, 5, 5)

    def shape(self) -> QPainterPath:
        return tag_path(self.box)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        pen = QPen(QColor(self._coat.edge), self._coat.edge_px)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(QColor(self._coat.fill))
        painter.drawPath(tag_path(self.box))
        colour = self._colours.state(self.node.state)
        faded = mixed(colour, self._colours.panel, 0.35) if self.look is Look.DIM else colour
        if abs(painter.worldTransform().m11()) < FAR_SCALE:
            side = self.box.height() * 0.8
            self._paint_mark(painter, QPointF(0, 0), side, faded)
            return
        self._paint_mark(painter, QPointF(self.box.left() + EYELET / 2 + 2, 0), 26.0, faded)
        self._paint_words(painter, faded)

    def _paint_mark(self, painter: QPainter, centre: QPointF, side: float, colour: str) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._colours.panel))
        painter.drawEllipse(centre, side / 2, side / 2)
        box = QRectF(0, 0, side * 0.66, side * 0.66)
        box.moveCenter(centre)
        paint_state(painter, box, self.node.state, colour)

    def _paint_words(self, painter: QPainter, state_colour: str) -> None:
        metrics = QFontMetricsF(self._font)
        left = self.box.left() + EYELET + 2
        deep = (len(self._lines) + 1) * metrics.height()
        base = -deep / 2 + metrics.ascent()
        painter.setFont(self._font)
        painter.setPen(QColor(self._coat.text))
        for line in self._lines:
            painter.drawText(QPointF(left, base), line)
            base += metrics.height()
        painter.setPen(QColor(self._word_colour(state_colour)))
        painter.drawText(QPointF(left, base), state_word(self.node.state))

    def _word_colour(self, state_colour: str) -> str:
        """State colours are legible on the theme's grounds, not on leather."""
        grounds = (self._colours.panel, self._colours.window, self._colours.stripe)
        return state_colour if self._coat.fill in grounds else self._coat.text


class ThreadItem(QGraphicsPathItem):
    """An edge: a thread through its points, with a tip where it has a direction."""

    def __init__(self, edge: GraphEdge, path: QPainterPath, *, directed: bool) -> None:
        super().__init__(path)
        self.edge = edge
        self.look = Look.PLAIN
        self._tip = QGraphicsPathItem(_tip(path) if directed else QPainterPath(), self)
        self._tip.setPen(QPen(Qt.PenStyle.NoPen))

    def restyle(self, colours: Colours) -> None:
        """Draw anew in these colours."""
        colour = {
            Look.PLAIN: mixed(colours.line, colours.panel, 0.15),
            Look.LIT: colours.focus,
            Look.DIM: mixed(colours.line, colours.panel, 0.6),
        }[self.look]
        pen = QPen(QColor(colour), 3.0 if self.look is Look.LIT else 1.4)
        pen.setCosmetic(True)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        self.setPen(pen)
        self._tip.setBrush(QColor(colour))
        self.setZValue(-1 if self.look is Look.LIT else -2)

    def middle(self) -> QPointF:
        """Return where the edge's label stands."""
        return self.path().pointAtPercent(0.5)


class EdgeLabel(QGraphicsItem):
    """What an edge says, on a plate that keeps threads off it."""

    def __init__(self, text: str, at: QPointF) -> None:
        super().__init__()
        self.text = text
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._box = QRectF()
        self.look = Look.PLAIN
        self.setPos(at)

    def restyle(self, colours: Colours, font: QFont) -> None:
        """Draw anew in these colours and this font."""
        self.prepareGeometryChange()
        self._colours, self._font = colours, font
        box = QFontMetricsF(font).boundingRect(self.text).adjusted(-6, -2, 6, 2)
        box.moveCenter(QPointF(0, 0))
        self._box = box

    def outline(self) -> QPainterPath:
        """Return the plate in scene coordinates."""
        path = QPainterPath()
        path.addRoundedRect(self._box.translated(self.pos()), 6, 6)
        return path

    def boundingRect(self) -> QRectF:
        return self._box.adjusted(-2, -2, 2, 2)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if abs(painter.worldTransform().m11()) < FAR_SCALE:
            return
        colours, lit = self._colours, self.look is Look.LIT
        painter.setPen(QPen(QColor(colours.focus), 1.6) if lit else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.chosen if lit else colours.panel))
        painter.drawRoundedRect(self._box, 6, 6)
        painter.setFont(self._font)
        painter.setPen(QColor(colours.quiet if self.look is Look.DIM else colours.text))
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self.text)


def flowing(points: tuple[tuple[float, float], ...]) -> QPainterPath:
    """Return a path that leaves and meets every point level."""
    path = QPainterPath(QPointF(*points[0]))
    for (x, y), (to_x, to_y) in pairwise(points):
        bend = (to_x - x) * 0.5
        path.cubicTo(QPointF(x + bend, y), QPointF(to_x - bend, to_y), QPointF(to_x, to_y))
    return path


def looping(at: QPointF, height: float) -> QPainterPath:
    """Return a loop over the top of a tag: a part joined to itself."""
    path = QPainterPath(at + QPointF(-26, -height / 2))
    path.cubicTo(
        at + QPointF(-50, -height / 2 - 44),
        at + QPointF(50, -height / 2 - 44),
        at + QPointF(26, -height / 2),
    )
    return path


def _tip(path: QPainterPath) -> QPainterPath:
    """Return the tip of a thread; it meets its tag level, from the left (in a circle from right)."""
    end, start = path.currentPosition(), path.elementAt(0)
    back = TIP if end.x() >= start.x else -TIP
    tip = QPainterPath()
    tip.addPolygon(
        QPolygonF([end, end - QPointF(back, TIP * 0.45), end - QPointF(back, -TIP * 0.45)])
    )
    tip.closeSubpath()
    return tip
