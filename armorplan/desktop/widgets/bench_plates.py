"""The verbs of the bench view as plates on a strap: large, named, with their keys."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QHBoxLayout, QWidget

from armorplan.desktop.bench_type import LEAST_TARGET_PX
from armorplan.desktop.bench_verbs import Verb, verb_does, verb_word
from armorplan.desktop.colours import Colours
from armorplan.desktop.glyph_box import points_in, round_pen
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.bench_writing import fitted, letters, write_line

LINES = 2.3
"""A plate lower than so many letter sizes has key and word on one line."""
CUT_PX = 14.0
"""The corners of a plate are cut off by so much."""
SHARES = {Verb.TAKE_BACK: 13}
"""Widths beside each other, in tenths."""
Draw = Callable[[QPainter, QRectF], None]


class Plate(QAbstractButton):
    """One verb. ``fresh`` is how much of the time is left in which it stands out, from 1 to 0."""

    def __init__(self, verb: Verb, parent: QWidget) -> None:
        super().__init__(parent)
        self.verb = verb
        self.setObjectName(f"bench_{verb.name.lower()}")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleDescription(verb_does(verb))
        self._px, self._key, self._fresh, self._is_going = 12, "", 0.0, False
        self.show_word(verb_word(verb))

    def show_word(self, word: str) -> None:
        """Show what pressing it does now."""
        self.setText(word)
        self.setAccessibleName(word)

    def show_key(self, key: str, px: int) -> None:
        """Show its key, in letters of so many pixels."""
        self._key, self._px = key, px
        self.update()

    def show_fresh(self, fresh: float) -> None:
        """Stand out for so much longer; 0: no longer."""
        if fresh != self._fresh:
            self._fresh = fresh
            self.update()

    def show_going(self, *, is_going: bool) -> None:
        """Show the mark of what pressing it ends, not begins."""
        self._is_going = is_going
        self.update()

    def minimumSizeHint(self) -> QSize:
        return QSize(LEAST_TARGET_PX, LEAST_TARGET_PX)

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        plate = QRectF(self.rect()).adjusted(3, 3, -3, -3)
        ground, front = self._grounds(colours)
        painter.setPen(QPen(QColor(colours.line), 2))
        painter.setBrush(QColor(ground))
        painter.drawPolygon(_cut(plate))
        if self._fresh:
            wide = (plate.width() - 2 * CUT_PX) * self._fresh
            left = QRectF(plate.left() + CUT_PX, plate.bottom() - 8, wide, 6)
            painter.fillRect(left, QColor(colours.focus))
        inside = plate.adjusted(CUT_PX, 0, -CUT_PX, 0)
        font = letters(self.font(), self._px, bold=True)
        middle = Qt.AlignmentFlag.AlignHCenter
        if plate.height() < LINES * self._px:
            self._paint_line(painter, inside, front)
            return
        top = QRectF(inside.left(), inside.top(), inside.width(), inside.height() * 0.54)
        low = QRectF(inside.left(), top.bottom(), inside.width(), inside.height() * 0.42)
        write_line(painter, top, self.text(), font, front, middle)
        self._paint_key(painter, low, front)

    def _paint_line(self, painter: QPainter, room: QRectF, front: str) -> None:
        """Paint key and word beside each other, where there is no room for two lines."""
        key_font = letters(self.font(), self._px)
        write_line(painter, room, self._key, key_font, front)
        wide = QFontMetrics(key_font).horizontalAdvance(self._key) + 0.4 * self._px
        word = QRectF(room.left() + wide, room.top(), room.width() - wide, room.height())
        font = fitted(self.font(), self.text(), self._px, int(word.width()))
        painter.setFont(font)
        painter.setPen(QColor(front))
        painter.drawText(word, Qt.AlignmentFlag.AlignCenter, self.text())

    def _grounds(self, colours: Colours) -> tuple[str, str]:
        if self.isDown():
            return colours.strong, colours.strong_text
        if self._fresh:
            return colours.chosen, colours.text
        return colours.panel, colours.text if self.isEnabled() else colours.quiet

    def _paint_key(self, painter: QPainter, room: QRectF, front: str) -> None:
        """Paint the mark of the verb, and its key beside it."""
        font = letters(self.font(), self._px)
        painter.setFont(font)
        wide = painter.fontMetrics().horizontalAdvance(self._key)
        side = min(0.8 * self._px, room.height())
        gap = 0.5 * self._px if self._key else 0
        left = room.center().x() - (side + gap + wide) / 2
        box = QRectF(left, room.center().y() - side / 2, side, side)
        painter.setPen(round_pen(QColor(front), side * 0.13))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        mark = _pause if self._is_going else _MARKS[self.verb]
        mark(painter, box)
        key = QRectF(box.right() + gap, room.top(), wide + 2, room.height())
        write_line(painter, key, self._key, font, front)


def _cut(box: QRectF) -> QPolygonF:
    """Return a plate with its corners cut off."""
    left, top, right, low = box.left(), box.top(), box.right(), box.bottom()
    return QPolygonF(
        [
            QPointF(left + CUT_PX, top),
            QPointF(right - CUT_PX, top),
            QPointF(right, top + CUT_PX),
            QPointF(right, low - CUT_PX),
            QPointF(right - CUT_PX, low),
            QPointF(left + CUT_PX, low),
            QPointF(left, low - CUT_PX),
            QPointF(left, top + CUT_PX),
        ]
    )


def _awl(painter: QPainter, box: QRectF) -> None:
    """An awl set to the leather: work begins."""
    painter.drawPolyline(points_in(box, (0.2, 0.95), (0.8, 0.35)))
    painter.drawEllipse(points_in(box, (0.8, 0.22)).first(), box.width() * 0.2, box.width() * 0.2)


def _pause(painter: QPainter, box: QRectF) -> None:
    """An awl laid down flat."""
    painter.drawPolyline(points_in(box, (0.02, 0.72), (0.62, 0.72)))
    painter.drawEllipse(points_in(box, (0.8, 0.72)).first(), box.width() * 0.2, box.width() * 0.2)


def _capped(painter: QPainter, box: QRectF) -> None:
    """A rivet with both its caps on: it is set."""
    painter.drawPolyline(points_in(box, (0.5, 0.25), (0.5, 0.75)))
    painter.drawArc(_part(box, 0.1, 0.05, 0.8, 0.5), 0, 180 * 16)
    painter.drawPolyline(points_in(box, (0.1, 0.3), (0.9, 0.3)))
    painter.drawArc(_part(box, 0.1, 0.45, 0.8, 0.5), 180 * 16, 180 * 16)
    painter.drawPolyline(points_in(box, (0.1, 0.7), (0.9, 0.7)))


def _beside(painter: QPainter, box: QRectF) -> None:
    """Two pieces beside each other: the other one."""
    painter.drawRect(_part(box, 0.02, 0.2, 0.36, 0.6))
    painter.drawRect(_part(box, 0.62, 0.2, 0.36, 0.6))
    painter.drawPolyline(points_in(box, (0.4, 0.5), (0.6, 0.5)))


def _torn(painter: QPainter, box: QRectF) -> None:
    """A tear across a piece."""
    tear = ((0.05, 0.45), (0.3, 0.7), (0.45, 0.3), (0.62, 0.75), (0.95, 0.5))
    painter.drawPolyline(points_in(box, *tear))
    painter.drawRect(_part(box, 0.05, 0.05, 0.9, 0.9))


def _thread_back(painter: QPainter, box: QRectF) -> None:
    """A thread drawn back through its hole."""
    painter.drawArc(_part(box, 0.2, 0.15, 0.75, 0.6), -90 * 16, 180 * 16)
    painter.drawPolyline(points_in(box, (0.57, 0.75), (0.1, 0.75)))
    painter.drawPolyline(points_in(box, (0.3, 0.55), (0.1, 0.75), (0.3, 0.95)))
    painter.drawPolyline(points_in(box, (0.57, 0.15), (0.3, 0.15)))


def _part(box: QRectF, x: float, y: float, wide: float, high: float) -> QRectF:
    return QRectF(
        box.x() + x * box.width(),
        box.y() + y * box.height(),
        wide * box.width(),
        high * box.height(),
    )


_MARKS: Mapping[Verb, Draw] = {
    Verb.BEGIN: _awl,
    Verb.DONE: _capped,
    Verb.OTHER: _beside,
    Verb.AMISS: _torn,
    Verb.TAKE_BACK: _thread_back,
}


class Plates(QWidget):
    """All verbs side by side. ``pressed`` carries the verb."""

    pressed = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        across = QHBoxLayout(self)
        across.setContentsMargins(6, 0, 6, 6)
        across.setSpacing(8)
        self.by_verb = {verb: Plate(verb, self) for verb in Verb}
        for verb, plate in self.by_verb.items():
            across.addWidget(plate, SHARES.get(verb, 10))
            plate.clicked.connect(lambda _on=False, own=verb: self.pressed.emit(own))

    def show_words(self, words: Mapping[Verb, str], *, is_going: bool) -> None:
        """Show what each verb does now; one that does nothing keeps its place, greyed."""
        for verb, plate in self.by_verb.items():
            plate.setEnabled(verb in words)
            plate.show_word(words.get(verb, verb_word(verb)))
        self.by_verb[Verb.BEGIN].show_going(is_going=is_going)
