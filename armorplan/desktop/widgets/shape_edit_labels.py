"""Words and signs on the drawing table, in pixels, so that they do not cover each other."""

from collections.abc import Collection, Iterator, Sequence
from itertools import product
from math import atan2, cos, pi, sin

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter

from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import severity_colour
from armorplan.desktop.shape_edit_over import Mark
from armorplan.desktop.shapes_words import standing_sign
from armorplan.desktop.widgets.shape_edit_items import TablePart, cosmetic
from armorplan.pattern.parts import Point

NAME_PAD_PX = 3.0
BESIDE_MOST = 40
"""Of more parts none is named beside itself: there would be no room between them."""
MARK_PX = 18.0
ARROW_PX = 34.0
HEAD_PX = 9.0
FOOT_PX = 12.0
"""How far the word of an arrow stands below its foot."""
_OFFS_PX = (13.0, 24.0)
"""How far a sign stands off its place, the nearest first."""
_WAYS = ((0.7, -0.7), (0.7, 0.7), (-0.7, -0.7), (-0.7, 0.7), (1.0, 0.0), (-1.0, 0.0), (0.0, -1.0))


class TableLabels:
    """What is written in one painting, and where."""

    def __init__(self, painter: QPainter, colours: Colours) -> None:
        self._painter, self._colours = painter, colours
        self._map = painter.worldTransform()
        self._taken: list[QRectF] = []

    def write(self, words: str, at: QPointF, off: QPointF, colour: str) -> None:
        """Write words around a place in mm, ``off`` so many pixels from it, on a plate."""
        self._put(words, self._box(words, self._map.map(at) + off), colour)

    def names(self, items: Sequence[TablePart], arrowed: Collection[str] = ()) -> None:
        """Name parts in themselves, off what is cut out of them; where it is narrow, beside them.

        Parts in which arrows stand are ``arrowed``: they have their names beside them, too.
        """
        metrics, scale = QFontMetricsF(self._painter.font()), self._map.m11()
        high, narrow = metrics.height(), []
        for item in items:
            wide = metrics.horizontalAdvance(item.part.name) + 2 * NAME_PAD_PX
            has_room = item.part.id not in arrowed
            at = item.room_for(wide / scale, high / scale) if has_room else None
            if at is None:
                narrow.append(item)
            else:
                self.write(item.part.name, at, QPointF(0, 0), self._colours.text)
        if len(items) <= BESIDE_MOST:
            self._name_beside(narrow, [self._map.mapRect(one.edge) for one in items])

    def _name_beside(self, narrow: Sequence[TablePart], edges: Sequence[QRectF]) -> None:
        room = QRectF(self._painter.viewport())
        for item in narrow:
            name, own = item.part.name, self._map.mapRect(item.edge)
            for box in self._beside(name, own):
                is_free = not any(box.intersects(other) for other in (*edges, *self._taken))
                if is_free and room.contains(box):
                    self._put(name, box, self._colours.quiet)
                    break

    def _beside(self, words: str, edge: QRectF) -> Iterator[QRectF]:
        """Yield where words could stand below, above, right and left of a part."""
        box = self._box(words, edge.center())
        down, across = (edge.height() + box.height()) / 2, (edge.width() + box.width()) / 2
        for way in ((0, down + 1), (0, -down - 1), (across + 1, 0), (-across - 1, 0)):
            yield box.translated(*way)

    def marks(self, marks: Sequence[Mark], items: Sequence[TablePart]) -> None:
        """Draw a sign for how grave it is near each place, off words, other signs and holes."""
        for mark in marks:
            at = QPointF(*mark.at)
            cut = [self._map.mapRect(box) for box in self._cut_near(at, items)]
            box = self._free_spot(self._map.map(at), cut)
            self._taken.append(box)
            colour = severity_colour(self._colours, mark.severity)
            self._painter.save()
            self._painter.resetTransform()
            self._painter.setPen(cosmetic(colour, 1.5))
            self._painter.setBrush(QColor(self._colours.panel))
            self._painter.drawEllipse(box)
            sign = standing_sign(mark.severity.value)
            self._painter.drawText(box, Qt.AlignmentFlag.AlignCenter, sign)
            self._painter.restore()

    def _cut_near(self, at: QPointF, items: Sequence[TablePart]) -> tuple[QRectF, ...]:
        return next((item.cut for item in items if item.outline.contains(at)), ())

    def _free_spot(self, at: QPointF, cut: Sequence[QRectF]) -> QRectF:
        """Return where a sign covers least: no words or signs if that can be, then no holes."""
        found: dict[tuple[bool, bool], QRectF] = {}
        for off, (x, y) in product(_OFFS_PX, _WAYS):
            spot = at + QPointF(x, y) * off
            box = QRectF(spot.x() - MARK_PX / 2, spot.y() - MARK_PX / 2, MARK_PX, MARK_PX)
            covers = any(map(box.intersects, self._taken)), any(map(box.intersects, cut))
            if not any(covers):
                return box
            found.setdefault(covers, box)
        return found[min(found)]

    def arrow(self, at: QPointF, way: Point, words: str, colour: str, *, side: int = -1) -> None:
        """Draw an arrow of a fixed length in pixels, with what it stands for beside its foot."""
        far = QPointF(*way) * (ARROW_PX / self._map.m11())
        for pen in (cosmetic(self._colours.panel, 6.0), cosmetic(colour, 2.5)):
            self._painter.setPen(pen)
            self._painter.drawLine(at, at + far)
        self._head(at + far, atan2(way[1], way[0]))
        wide = QFontMetricsF(self._painter.font()).horizontalAdvance(words)
        aside = QPointF(-way[1], way[0]) * (side * (wide / 2 - FOOT_PX))
        self.write(words, at, QPointF(*way) * -FOOT_PX + aside, colour)

    def _head(self, tip: QPointF, angle: float) -> None:
        for turn in (pi * 0.85, -pi * 0.85):
            back = QPointF(cos(angle + turn), sin(angle + turn)) * (HEAD_PX / self._map.m11())
            self._painter.drawLine(tip, tip + back)

    def _box(self, words: str, middle: QPointF) -> QRectF:
        metrics = QFontMetricsF(self._painter.font())
        box = metrics.boundingRect(words).adjusted(-NAME_PAD_PX, 0, NAME_PAD_PX, 0)
        box.moveCenter(middle)
        return box

    def _put(self, words: str, box: QRectF, colour: str) -> None:
        self._taken.append(box)
        plate = QColor(self._colours.panel)
        plate.setAlpha(200)
        self._painter.save()
        self._painter.resetTransform()
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(plate)
        self._painter.drawRoundedRect(box, NAME_PAD_PX, NAME_PAD_PX)
        self._painter.setPen(QColor(colour))
        self._painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        self._painter.restore()
