"""How a timer's card is painted: mark, title, what is left, clock time, band."""

import re
from typing import NamedTuple

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.widgets.checklist_delegate import broken, small_font

PAD_PX = 8
LEAST_HIGH_PX = 48
"""A card is also a target for a finger."""
EDGE_PX = 3
WIDEST_LEFT = "23:59:59"
WIDEST_SMALL = "surely by Wed 00:00"
WIDER = 1.6
"""Where there is room, cards are up to so much wider, for longer titles."""
LARGE = 1.5
"""The time left is this much larger than text."""
REMEDY_LINES = 2
_BROKEN_UP = 1.15
"""Broken between words, two lines need so much more than half of the whole."""


class Face(NamedTuple):
    """What a card says: words, how its ground is, and what paints its mark."""

    title: str
    left: str
    small: tuple[str, str]
    """Clock time, and below it the band or the other build; either may be empty."""
    is_filled: bool
    is_edged: bool
    has_focus: bool
    is_line: bool
    remedy: str = ""
    """What was missed, and what to do; it takes the place of the times."""


class Ink(NamedTuple):
    """The colours of a card."""

    ground: str
    text: str
    quiet: str
    accent: str
    edge: str


def large_font(font: QFont) -> QFont:
    """Return the font of the time left."""
    made = QFont(font)
    made.setPointSizeF(font.pointSizeF() * LARGE)
    made.setWeight(QFont.Weight.DemiBold)
    return made


def card_size(font: QFont, *, is_line: bool = False) -> QSize:
    """Return the size of every card in device-independent pixels; ``is_line`` in a low window."""
    metrics, large = QFontMetrics(font), QFontMetrics(large_font(font))
    small = QFontMetrics(small_font(font))
    high = large.height() + PAD_PX if is_line else metrics.height() + 2 * PAD_PX
    high += 0 if is_line else max(large.height(), 2 * small.height())
    wide = large.horizontalAdvance(WIDEST_LEFT) + small.horizontalAdvance(WIDEST_SMALL)
    return QSize(wide + metrics.height() + 6 * PAD_PX, max(high, LEAST_HIGH_PX))


def needed_px(font: QFont, face: Face) -> int:
    """Return how wide a card has to be for its times, or its remedy, within bounds."""
    small, usual = QFontMetrics(small_font(font)), card_size(font).width()
    beside = QFontMetrics(font).ascent() + 5 * PAD_PX
    if face.remedy:
        words = round(_BROKEN_UP * small.horizontalAdvance(face.remedy) / REMEDY_LINES)
        return min(words + beside, round(WIDER * usual))
    # Digits of one width: a card does not become narrower with each second.
    left = QFontMetrics(large_font(font)).horizontalAdvance(re.sub(r"\d", "0", face.left))
    return min(left + PAD_PX + max(map(small.horizontalAdvance, face.small)) + beside, usual)


def ink(colours: Colours, face: Face, accent: str) -> Ink:
    """Return a card's colours: filled with the alarm's while it rings, else on the panel's."""
    edge = colours.focus if face.has_focus else colours.line
    if face.is_filled:
        text = colours.alarm_text
        edge = colours.focus if face.has_focus else colours.alarm
        return Ink(colours.alarm, text, text, text, edge)
    if face.is_edged and not face.has_focus:
        edge = colours.alarm
    return Ink(colours.panel, colours.text, colours.quiet, accent, edge)


def paint_ground(painter: QPainter, rect: QRect, face: Face, colours: Ink) -> None:
    """Paint the card's ground and edge: thick where it has the keyboard, or rings."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    wide = EDGE_PX if face.has_focus or face.is_edged else 1
    painter.setBrush(QColor(colours.ground))
    painter.setPen(QPen(QColor(colours.edge), wide))
    half = wide / 2
    painter.drawRoundedRect(QRectF(rect).adjusted(half, half, -half, -half), 4, 4)
    if face.has_focus and face.is_filled:
        # The ring of the keyboard does not stand out from the alarm's colour by itself.
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(colours.text), 2))
        painter.drawRoundedRect(QRectF(rect).adjusted(5, 5, -5, -5), 2, 2)


def paint_face(painter: QPainter, rect: QRect, face: Face, colours: Ink) -> QRectF:
    """Paint a card's words; return where its mark belongs."""
    if face.is_line:
        return _paint_line(painter, rect, face, colours)
    font = painter.font()
    metrics = QFontMetrics(font)
    box = rect.adjusted(PAD_PX + 2, PAD_PX, -PAD_PX - 2, -PAD_PX)
    painter.setPen(QColor(colours.text))
    elided = metrics.elidedText(face.title, _MIDDLE, box.width())
    painter.drawText(box, Qt.AlignmentFlag.AlignTop, elided)
    below = QRect(box.left(), box.top() + metrics.height(), box.width(), 0)
    below.setBottom(box.bottom())
    side = metrics.ascent() + PAD_PX
    mark = QRectF(below.left(), below.center().y() - side / 2, side, side)
    beside = below.adjusted(side + PAD_PX, 0, 0, 0)
    if face.remedy:
        _paint_remedy(painter, beside, face, colours)
        return mark
    _paint_left(painter, beside, face, colours)
    used = QFontMetrics(large_font(font)).horizontalAdvance(face.left) + PAD_PX
    painter.setFont(small_font(font))
    _paint_small(painter, beside.adjusted(used, 0, 0, 0), face, colours)
    return mark


def _paint_remedy(painter: QPainter, box: QRect, face: Face, colours: Ink) -> None:
    painter.setFont(small_font(painter.font()))
    painter.setPen(QColor(colours.text))
    lines = broken(face.remedy, painter.fontMetrics(), box.width(), REMEDY_LINES)
    painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, "\n".join(lines))


def _paint_left(painter: QPainter, box: QRect, face: Face, colours: Ink) -> None:
    font = painter.font()
    painter.setFont(large_font(font))
    painter.setPen(QColor(colours.accent))
    painter.drawText(box, Qt.AlignmentFlag.AlignVCenter, face.left)
    painter.setFont(font)


def _paint_small(painter: QPainter, box: QRect, face: Face, colours: Ink) -> None:
    """Paint the small lines right of the time left.

    How long it has been due says more than since when: a line that does not fit gives way.
    """
    metrics = painter.fontMetrics()
    lines = [line for line in face.small if line]
    top = box.center().y() + 1 - len(lines) * metrics.height() // 2
    for at, line in enumerate(lines):
        text = line if at == 0 else metrics.elidedText(line, _RIGHT, box.width())
        if metrics.horizontalAdvance(text) <= box.width():
            row = QRect(box.left(), top + at * metrics.height(), box.width(), metrics.height())
            painter.setPen(QColor(colours.text if at == 0 else colours.quiet))
            painter.drawText(row, Qt.AlignmentFlag.AlignRight, text)


_RIGHT = Qt.TextElideMode.ElideRight
_MIDDLE = Qt.TextElideMode.ElideMiddle
"""Titles of coats and sides differ at their ends."""


def _paint_line(painter: QPainter, rect: QRect, face: Face, colours: Ink) -> QRectF:
    """Paint all in one line: mark, time left, title."""
    font = painter.font()
    metrics = QFontMetrics(font)
    box = rect.adjusted(PAD_PX, 0, -PAD_PX, 0)
    side = metrics.ascent() + PAD_PX
    mark = QRectF(box.left(), box.center().y() + 1 - side / 2, side, side)
    beside = box.adjusted(side + PAD_PX, 0, 0, 0)
    _paint_left(painter, beside, face, colours)
    used = QFontMetrics(large_font(font)).horizontalAdvance(face.left) + PAD_PX
    painter.setPen(QColor(colours.text))
    room = beside.adjusted(used, 0, 0, 0)
    title = metrics.elidedText(face.title, _MIDDLE, room.width())
    painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, title)
    return mark
