"""Paints the list of measures: headings with counts; mark, title and verdict of each line."""

from typing import NamedTuple

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_model import COUNTS_ROLE, SHAPE_ROLE
from armorplan.desktop.shapes_words import standing_colour, standing_word
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
TITLE_LINES = 2


class _Texts(NamedTuple):
    """What a line says: a title in one to two lines, and smaller words below it."""

    title: str
    title_font: QFont
    ink: str
    below: str
    colour: str


class ShapesDelegate(QStyledItemDelegate):
    """Rows of one height, so that hundreds scroll."""

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        small = QFontMetrics(small_font(option.font)).height()
        titles = TITLE_LINES * QFontMetrics(option.font).height()
        return QSize(120, titles + small + 2 * PAD_PX)

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
            counts = str(index.data(COUNTS_ROLE) or "")
            heading = _Texts(
                str(index.data()), heavy_font(option.font), colours.text, counts, colours.quiet
            )
            _write(painter, option.font, box.adjusted(PAD_PX, 0, -PAD_PX, 0), heading)
        else:
            colour = standing_colour(row.severity, colours)
            side = QFontMetrics(option.font).ascent() + 2
            mark = QRectF(box.left() + PAD_PX, box.top() + PAD_PX + 2, side, side)
            paint_standing(painter, mark, row.severity, colour)
            verdict = row.verdict if not row.severity else _told(row)
            texts = _Texts(row.title, QFont(option.font), colours.text, verdict, colour)
            _write(painter, option.font, box.adjusted(2 * PAD_PX + side, 0, -PAD_PX, 0), texts)
        painter.setPen(QColor(colours.bar))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        if chosen and option.state & QStyle.StateFlag.State_HasFocus:
            bar = QRect(box.left(), box.top(), FOCUS_PX, box.height())
            painter.fillRect(bar, QColor(colours.focus))
        painter.restore()


def _told(row: ShapeRow) -> str:
    return f"{standing_word(row.severity)}: {row.verdict}"


def _write(painter: QPainter, font: QFont, room: QRect, texts: _Texts) -> None:
    """Write title and words below, centred in the height of the room."""
    small = small_font(font)
    above, below = QFontMetrics(texts.title_font), QFontMetrics(small)
    lines = broken(texts.title, above, room.width(), TITLE_LINES)
    high = len(lines) * above.height() + below.height()
    line = QRect(room.left(), room.top() + (room.height() - high) // 2, room.width(), 0)
    line.setHeight(above.height())
    upright = Qt.AlignmentFlag.AlignVCenter
    painter.setFont(texts.title_font)
    painter.setPen(QColor(texts.ink))
    for text in lines:
        painter.drawText(line, upright, text)
        line.translate(0, above.height())
    painter.setFont(small)
    painter.setPen(QColor(texts.colour))
    painter.drawText(line, upright, shortened(texts.below, below, room.width()))
