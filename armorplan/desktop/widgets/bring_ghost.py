"""A match over the drawing: one part laid on another by their holes, or hole joined to hole."""

from math import dist

from PySide6.QtCore import QCoreApplication, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.desktop.bring_view import Ghost, Link, Up
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.desktop.widgets.picture_words import line_of, paint_words

WORDS_OFF_PX = QPointF(7, -13)
NUMBERS_APART_PX = 18.0
"""Numbers nearer to each other would lie on each other."""
NUMBERS_MOST = 40
"""Of more pairs than this the numbers would lie on each other."""
HEAD_PX, HEAD_DEG = 11.0, 28.0
MISS_LEAST_MM = 0.05
"""A smaller miss is none to the eye and the punch."""


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
        for up in ghost.ups if ghost else ():
            for x, y in (up.foot, up.tip):
                box = box.united(QRectF(x - 60, y - 30, 120, 60))
        self._box = box
        self.setVisible(ghost is not None)
        self.update()

    def laid_box(self) -> QRectF:
        """Return the box around what is laid on, in mm; an empty one where nothing is."""
        return self._outline.boundingRect() if self._ghost else QRectF()

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
            painter.setPen(line_of(colour, wide, style))
            painter.drawPath(self._outline)
        scale = painter.transform().m11() or 1.0
        for link in self._ghost.links:
            self._paint_link(painter, link, 4.0 / scale)
        for up in self._ghost.ups:
            self._paint_up(painter, up, HEAD_PX / scale)
        if len(self._ghost.links) <= NUMBERS_MOST:
            self._paint_numbers(painter)

    def _paint_link(self, painter: QPainter, link: Link, least_mm: float) -> None:
        first, second = QPointF(*link.first), QPointF(*link.second)
        is_off = link.miss_mm is None or link.miss_mm > MISS_LEAST_MM
        for colour, wide in ((self.colours.panel, 4.5), (self.colours.focus, 2.2)):
            painter.setPen(line_of(colour, wide, Qt.PenStyle.SolidLine))
            if is_off:
                painter.drawLine(first, second)
            painter.drawEllipse(second, least_mm, least_mm)

    def _paint_up(self, painter: QPainter, up: Up, head_mm: float) -> None:
        """Draw where up is; of the part that is laid on in its own colour and dashes."""
        foot, tip = QPointF(*up.foot), QPointF(*up.tip)
        line = QLineF(tip, foot)
        path = QPainterPath(foot)
        path.lineTo(tip)
        for turned_deg in (-HEAD_DEG, HEAD_DEG):
            side = QLineF.fromPolar(head_mm, line.angle() + turned_deg)
            path.moveTo(tip)
            path.lineTo(tip + side.p2())
        colour = self.colours.focus if up.is_laid else self.colours.text
        style = Qt.PenStyle.DashLine if up.is_laid else Qt.PenStyle.SolidLine
        painter.setPen(line_of(self.colours.panel, 5.0, Qt.PenStyle.SolidLine))
        painter.drawPath(path)
        painter.setPen(line_of(colour, 2.2, style))
        painter.drawPath(path)
        words = QCoreApplication.translate("bring", "up")
        words = f"{up.name}: {words}" if up.is_laid and up.name else words
        look = (self.colours, self.font)
        paint_words(painter, tip, words, look=look, off_px=WORDS_OFF_PX)

    def _paint_numbers(self, painter: QPainter) -> None:
        """Number the pairs along the row; the one that misses most says by how many mm."""
        links = self._ghost.links if self._ghost else ()
        misses = [link.miss_mm or 0.0 for link in links]
        worst, look = max(misses, default=0.0), (self.colours, self.font)
        apart_mm = NUMBERS_APART_PX / (painter.transform().m11() or 1.0)
        said: list[Link] = []
        for link, miss in zip(links, misses, strict=True):
            is_worst = miss == worst > MISS_LEAST_MM
            if not is_worst and any(dist(link.second, s.second) < apart_mm for s in said):
                continue
            said.append(link)
            words = f"{link.number}: {miss:.2f} mm" if is_worst else f"{link.number}"
            paint_words(painter, QPointF(*link.second), words, look=look, off_px=WORDS_OFF_PX)
