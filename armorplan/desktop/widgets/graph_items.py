"""Tags and threads: a node of a graph as a tag with its mark in the eyelet, an edge as a thread."""

from collections.abc import Sequence

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

STEP_WIDE = 216.0
PART_WIDE = 172.0
EYELET = 36.0
PAD = 9.0
PLATE_PX = 6.0
RULE_OVER_PX = 4.0
ALONG = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74)
"""Where along an edge its label may stand, the first choice first."""
LINES = 2
CLIP = 12.0
FAR_SCALE = 0.4
"""Below so many pixels to the unit a tag shows its mark alone."""
TIP = 9.0


def tag_size(metrics: QFontMetricsF, wide: float) -> tuple[float, float]:
    """Return the size of a tag: two lines of title and one for the state."""
    return (wide, (LINES + 1) * metrics.height() + 2 * PAD)


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

    def __init__(self, node: GraphNode, size: tuple[float, float]) -> None:
        super().__init__()
        self.node = node
        self.look = Look.PLAIN
        self.box = QRectF(-size[0] / 2, -size[1] / 2, *size)
        self._colours: Colours = LIGHT
        self._coat = Coat(fill=LIGHT.panel, edge=LIGHT.edge, text=LIGHT.text, edge_px=1.4)
        self._font = QFont()
        self._lines: tuple[str, ...] = ()
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def restyle(self, colours: Colours, fill: str, font: QFont) -> None:
        """Draw anew in these colours and this font."""
        self._colours, self._font = colours, font
        self._coat = coat(colours, fill, self.look)
        room = self.box.width() - EYELET - PAD
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
        faded = mixed(colour, self._colours.panel, 0.25) if self.look is Look.DIM else colour
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
        """State colours are legible on the theme's grounds, not on leather and not faded."""
        grounds = (self._colours.panel, self._colours.window, self._colours.stripe)
        plain = self._coat.fill in grounds and self.look is not Look.DIM
        return state_colour if plain else self._coat.text


class ThreadItem(QGraphicsPathItem):
    """An edge: a thread through its points, with a tip where it has a direction."""

    def __init__(self, edge: GraphEdge, path: QPainterPath, *, directed: bool) -> None:
        super().__init__(path)
        self.edge = edge
        self.look = Look.PLAIN
        self._tip = QGraphicsPathItem(_tip(path) if directed else QPainterPath(), self)
        self._tip.setPen(QPen(Qt.PenStyle.NoPen))

    @property
    def ends(self) -> tuple[str, str]:
        """The nodes it runs between."""
        return (self.edge.tail, self.edge.head)

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

    def label_spots(self) -> tuple[QPointF, ...]:
        """Return where the edge's label may stand, the first choice first."""
        return tuple(self.path().pointAtPercent(share) for share in ALONG)


class Label(QGraphicsItem):
    """What an edge says, on a plate that keeps threads off it.

    It stands in the middle of its edge, or hangs on the upper side of the tag its edge leads to;
    there it is no wider than the tag.
    """

    def __init__(self, text: str, at: QPointF, most_px: float = 0.0) -> None:
        super().__init__()
        self._text = text
        self._most_px = most_px
        self._shown = text
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._box = QRectF()
        self.look = Look.PLAIN
        self.setPos(at)
        self.setZValue(1)

    def restyle(self, colours: Colours, font: QFont) -> None:
        """Draw anew in these colours and this font."""
        self.prepareGeometryChange()
        self._colours, self._font = colours, font
        metrics = QFontMetricsF(font)
        room = self._most_px - 2 * PLATE_PX
        hangs = self._most_px > 0
        self._shown = (
            metrics.elidedText(self._text, Qt.TextElideMode.ElideRight, room)
            if hangs
            else self._text
        )
        width = metrics.horizontalAdvance(self._shown) + 2 * PLATE_PX
        box = QRectF(0, 0, width, metrics.height() + 2)
        box.moveCenter(QPointF(0, 0))
        if hangs:
            box.moveBottomLeft(QPointF(-self._most_px / 2, -RULE_OVER_PX))
        self._box = box

    def settle(self, spots: Sequence[QPointF], taken: Sequence[QRectF]) -> QRectF:
        """Stand where nothing is covered, else at the first spot; return the place taken."""
        boxes = [self._box.translated(spot) for spot in spots]
        free = [not any(box.intersects(other) for other in taken) for box in boxes]
        best = free.index(True) if any(free) else 0
        self.setPos(spots[best])
        return boxes[best]

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
        if painter.worldTransform().m11() < FAR_SCALE:
            return
        colours, lit = self._colours, self.look is Look.LIT
        framed = lit and not self._most_px
        painter.setPen(QPen(QColor(colours.focus), 1.6) if framed else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.chosen if lit else colours.panel))
        painter.drawRoundedRect(self._box, 5, 5)
        painter.setFont(self._font)
        painter.setPen(QColor(colours.quiet if self.look is Look.DIM else colours.text))
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self._shown)


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
