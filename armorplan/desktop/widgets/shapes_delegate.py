"""Paints the list of measures: headings with counts; mark, title and verdict of each line."""

from functools import lru_cache

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.colours import Colours
from armorplan.desktop.shapes_model import COUNTS_ROLE, SHAPE_ROLE, SIGNS_ROLE
from armorplan.desktop.shapes_words import SOUND, standing_colour, standing_of, standing_word
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.checklist_delegate import (
    broken,
    heavy_font,
    shortened,
    small_font,
)
from armorplan.desktop.widgets.shape_mark_painting import paint_standing

PAD_PX = 6
FOCUS_PX = 4
TITLE_LINES = 4
VERDICT_LINES = 3
"""What a line tells comes last in it, so that a short cut may take the word that matters."""
LEAST_ROW_PX = 40
"""A row is also a target for a finger."""


class ShapesDelegate(QStyledItemDelegate):
    """Lines as high as their titles need at the width of the list, headings one line high."""

    def __init__(self, view: QAbstractItemView, indent_px: int) -> None:
        super().__init__(view)
        self._view = view
        self._indent_px = indent_px
        self._font: QFont | None = None
        self._font_words = self._small_words = ""
        self._line_px = self._small_px = self._beside_px = 0

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        row: ShapeRow | None = index.data(SHAPE_ROLE)
        font = option.font
        self._measure(font)
        if row is None:
            return QSize(120, max(LEAST_ROW_PX, self._line_px + 2 * PAD_PX))
        room_px = self._view.viewport().width() - self._beside_px
        titles = _lines(row.title, self._font_words, room_px, TITLE_LINES)
        verdicts = _lines(_told(row), self._small_words, room_px, VERDICT_LINES)
        high = len(titles) * self._line_px + len(verdicts) * self._small_px + 2 * PAD_PX
        return QSize(120, max(LEAST_ROW_PX, high))

    def _measure(self, font: QFont) -> None:
        """Take the measures of a font once, not for each of hundreds of lines."""
        if font == self._font:
            return
        small = small_font(font)
        self._font, self._font_words = QFont(font), font.toString()
        self._small_words = small.toString()
        metrics = QFontMetrics(font)
        self._line_px = metrics.height()
        self._small_px = QFontMetrics(small).height()
        # Twice the indent for the two levels; ``broken`` keeps two pixels for rounding.
        self._beside_px = 2 * self._indent_px + 3 * PAD_PX + metrics.ascent() + 4

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        colours, box = colours_of(option.palette), option.rect
        row: ShapeRow | None = index.data(SHAPE_ROLE)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        ground = colours.chosen if chosen else (colours.stripe if row is None else colours.panel)
        painter.save()
        painter.fillRect(box, QColor(ground))
        if row is None:
            counts = (str(index.data(COUNTS_ROLE) or ""), str(index.data(SIGNS_ROLE) or ""))
            _write_heading(painter, option, str(index.data()), counts)
        else:
            _write_line(painter, option, row, colours)
        painter.setPen(QColor(colours.bar))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        if chosen and option.state & QStyle.StateFlag.State_HasFocus:
            bar = QRect(box.left(), box.top(), FOCUS_PX, box.height())
            painter.fillRect(bar, QColor(colours.focus))
        painter.restore()


@lru_cache(maxsize=8192)
def _lines(text: str, font_words: str, width_px: int, most: int) -> tuple[str, ...]:
    """Return a text broken into lines; kept, for a list asks again and again while it is moved."""
    font = QFont()
    font.fromString(font_words)
    return broken(text, QFontMetrics(font), width_px, most)


def _write_heading(
    painter: QPainter, option: QStyleOptionViewItem, title: str, counts: tuple[str, str]
) -> None:
    """Write a topic, and its counts beside it: in words, or by signs where these have no room."""
    colours = colours_of(option.palette)
    bold, small = heavy_font(option.font), small_font(option.font)
    room = option.rect.adjusted(PAD_PX, 0, -PAD_PX, 0)
    upright = Qt.AlignmentFlag.AlignVCenter
    painter.setFont(bold)
    painter.setPen(QColor(colours.text))
    painter.drawText(room, upright, title)
    room.setLeft(room.left() + QFontMetrics(bold).horizontalAdvance(title) + 2 * PAD_PX)
    metrics = QFontMetrics(small)
    words, signs = counts
    told = words if metrics.horizontalAdvance(words) <= room.width() else signs
    painter.setFont(small)
    painter.setPen(QColor(colours.quiet))
    painter.drawText(room, upright, shortened(told, metrics, room.width()))


def _write_line(
    painter: QPainter, option: QStyleOptionViewItem, row: ShapeRow, colours: Colours
) -> None:
    """Paint the mark, and write title and verdict."""
    font, small, box = option.font, small_font(option.font), option.rect
    above, below = QFontMetrics(font), QFontMetrics(small)
    standing = standing_of(row)
    colour = standing_colour(standing, colours)
    side = above.ascent() + 2
    room = box.adjusted(2 * PAD_PX + side, 0, -PAD_PX, 0)
    lines = _lines(row.title, font.toString(), room.width(), TITLE_LINES)
    verdicts = _lines(_told(row), small.toString(), room.width(), VERDICT_LINES)
    high = len(lines) * above.height() + len(verdicts) * below.height()
    line = QRect(room.left(), box.top() + (box.height() - high) // 2, room.width(), 0)
    line.setHeight(above.height())
    mark = QRectF(box.left() + PAD_PX, line.top() + (line.height() - side) / 2, side, side)
    paint_standing(painter, mark, standing, colour)
    upright = Qt.AlignmentFlag.AlignVCenter
    painter.setFont(font)
    painter.setPen(QColor(colours.text))
    for text in lines:
        painter.drawText(line, upright, text)
        line.translate(0, above.height())
    painter.setFont(small)
    painter.setPen(QColor(colour))
    line.setHeight(below.height())
    for text in verdicts:
        painter.drawText(line, upright, text)
        line.translate(0, below.height())


def _told(row: ShapeRow) -> str:
    """Return how grave it is, if it is, and the verdict."""
    standing = standing_of(row)
    return row.verdict if standing == SOUND else f"{standing_word(standing)}: {row.verdict}"
