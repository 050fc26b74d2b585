"""Paints a checklist row: mark, title, state and what it waits for; how long and when."""

from bisect import bisect_right
from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from armorplan.app.rows import BenchState, ChecklistRow
from armorplan.desktop.checklist_model import ROW_ROLE, Column
from armorplan.desktop.checklist_rows import is_heading, is_step
from armorplan.desktop.checklist_words import ChecklistWords
from armorplan.desktop.colours import Colours
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.theme import colours_of

PAD_PX = 7
LIT_PX = 4
MARK_MORE_PX = 4
LEAST_ROW_PX = 48
"""A row is also a target for a finger."""
SMALL = 0.88
"""Second lines are this much smaller than titles."""
WIDEST_CLOCK = "30 May 00:00"
WIDEST_LEFT = "23:59:59 left"
ROUNDING_PX = 2
"""Widths are rounded to pixels; an ellipsis goes by the exact ones."""
LONG_PCT = 90
"""Titles take another line where more than a tenth of them would not fit on those they have."""
MOST_LINES = 3


def title_font(row: ChecklistRow | None, font: QFont) -> QFont:
    """Return the font of a row's title: heavier for headings and trays."""
    if row is None or is_step(row):
        return QFont(font)
    made = heavy_font(font)
    if is_heading(row):
        made.setWeight(QFont.Weight.Bold)
    return made


def heavy_font(font: QFont) -> QFont:
    """Return the font of trays, and of what a timer has left."""
    made = QFont(font)
    made.setWeight(QFont.Weight.DemiBold)
    return made


def small_font(font: QFont) -> QFont:
    """Return the font of second lines."""
    made = QFont(font)
    made.setPointSizeF(font.pointSizeF() * SMALL)
    return made


def time_width(font: QFont) -> int:
    """Return the width of the time column in device-independent pixels."""
    clock_px = QFontMetrics(small_font(font)).horizontalAdvance(WIDEST_CLOCK)
    left_px = QFontMetrics(heavy_font(font)).horizontalAdvance(WIDEST_LEFT)
    return max(clock_px, left_px) + 3 * PAD_PX


def broken(text: str, metrics: QFontMetrics, width_px: int, lines: int) -> tuple[str, ...]:
    """Break a text between words into at most ``lines``; what does not fit becomes an ellipsis."""
    out: list[str] = []
    rest = text
    room_px = width_px - ROUNDING_PX
    while len(out) < lines - 1 and metrics.horizontalAdvance(rest) > room_px:
        words = rest.split(" ")
        # One word at the least, however long it is; the more words, the wider they are.
        fitting = 1 + bisect_right(
            range(2, len(words)), room_px, key=partial(_wide, words, metrics)
        )
        out.append(
            metrics.elidedText(" ".join(words[:fitting]), Qt.TextElideMode.ElideRight, width_px)
        )
        rest = " ".join(words[fitting:])
        if not rest:
            return tuple(out)
    out.append(shortened(rest, metrics, width_px))
    return tuple(out)


def _wide(words: Sequence[str], metrics: QFontMetrics, count: int) -> int:
    return metrics.horizontalAdvance(" ".join(words[:count]))


def shortened(text: str, metrics: QFontMetrics, width_px: int) -> str:
    """Shorten a text to a width; one that ends in a bracket, such as the side, keeps that."""
    end = Qt.TextElideMode.ElideMiddle if text.endswith(")") else Qt.TextElideMode.ElideRight
    return metrics.elidedText(text, end, width_px)


class ChecklistDelegate(QStyledItemDelegate):
    """Rows of one height, so that thousands scroll; titles take one to three lines."""

    def __init__(self, words: ChecklistWords, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self._long = ""
        self._missed: tuple[ChecklistRow, ...] = ()
        self.title_lines = 1
        self.state_lines = 1
        self.lit: frozenset[str] = frozenset()

    def measure(self, rows: tuple[ChecklistRow, ...]) -> None:
        """Look how long the titles are."""
        titles = sorted((row.title for row in rows), key=len)
        self._long = titles[len(titles) * LONG_PCT // 100] if titles else ""
        self._missed = tuple(row for row in rows if row.state is BenchState.MISSED)

    def fit(self, width_px: int, font: QFont) -> bool:
        """Choose how many lines titles get in a column; tell whether that changed."""
        room_px = width_px - self.beside_title(font)
        before = self.title_lines, self.state_lines
        metrics = QFontMetrics(font)
        tries = range(1, MOST_LINES)
        fits = (n for n in tries if "…" not in broken(self._long, metrics, room_px, n)[-1])
        self.title_lines = next(fits, MOST_LINES)
        self.state_lines = max((self._to_spare(r, room_px, font) for r in self._missed), default=1)
        return (self.title_lines, self.state_lines) != before

    def _to_spare(self, row: ChecklistRow, room_px: int, font: QFont) -> int:
        """Return how many lines a row has to have besides the titles' to say what to do, uncut."""
        title = broken(row.title, QFontMetrics(title_font(row, font)), room_px, self.title_lines)
        words, metrics = self._words.state_line(row), QFontMetrics(small_font(font))
        spare = self.title_lines - len(title)
        return max(1, len(broken(words, metrics, room_px, MOST_LINES)) - spare)

    def row_height(self, font: QFont) -> int:
        """Return the height of every row in device-independent pixels."""
        lines = self.title_lines * QFontMetrics(font).height()
        lines += self.state_lines * QFontMetrics(small_font(font)).height()
        return max(LEAST_ROW_PX, lines + 2 * PAD_PX)

    def beside_title(self, font: QFont) -> int:
        """Return the width that marks and margins take beside a title."""
        return LIT_PX + 3 * PAD_PX + QFontMetrics(font).ascent() + MARK_MORE_PX

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        return QSize(80, self.row_height(option.font))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        row: ChecklistRow | None = index.data(ROW_ROLE)
        if row is None:
            return
        box, font, colours = option.rect, option.font, colours_of(option.palette)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.fillRect(box, QColor(colours.chosen if chosen else colours.panel))
        if index.column() == Column.STEP:
            self._paint_step(painter, box, font, row, colours)
        else:
            self._paint_time(painter, box, font, row, colours)
        painter.setPen(QColor(colours.bar))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        painter.restore()

    def _paint_step(
        self, painter: QPainter, box: QRect, font: QFont, row: ChecklistRow, colours: Colours
    ) -> None:
        if not self.lit.isdisjoint(row.steps):
            painter.fillRect(
                QRect(box.left(), box.top(), LIT_PX, box.height()), QColor(colours.focus)
            )
        bold, small = title_font(row, font), small_font(font)
        metrics, below = QFontMetrics(bold), QFontMetrics(small)
        side = metrics.ascent() + MARK_MORE_PX
        left = box.left() + LIT_PX + PAD_PX
        width = box.width() - self.beside_title(font)
        lines = broken(row.title, metrics, width, self.title_lines)
        room = self.state_lines + self.title_lines - len(lines)
        told = broken(self._words.state_line(row), below, width, room)
        high = len(lines) * metrics.height() + len(told) * below.height()
        top = box.top() + (box.height() - high) // 2
        colour = colours.state(row.state)
        mark = QRectF(left, top + (metrics.height() - side) / 2, side, side)
        paint_state(painter, mark, row.state, colour)
        at = QPoint(left + side + PAD_PX, top + metrics.ascent())
        painter.setFont(bold)
        painter.setPen(QColor(colours.quiet if row.state is BenchState.DONE else colours.text))
        for line in lines:
            painter.drawText(at, line)
            at += QPoint(0, metrics.height())
        painter.setFont(small)
        painter.setPen(QColor(colour))
        base = QPoint(at.x(), top + len(lines) * metrics.height() + below.ascent())
        for line in told:
            painter.drawText(base, line)
            base += QPoint(0, below.height())

    def _paint_time(
        self, painter: QPainter, box: QRect, font: QFont, row: ChecklistRow, colours: Colours
    ) -> None:
        upper, lower = self._words.time_lines(row)
        bold = font if row.timer is None else heavy_font(font)
        colour = colours.text
        if row.timer is not None:
            colour = colours.alarm if self._words.is_over(row) else colours.state(row.state)
        small = small_font(font)
        metrics, below = QFontMetrics(bold), QFontMetrics(small)
        top = box.top() + (box.height() - metrics.height() - below.height()) // 2
        space = QRect(box.left(), top, box.width() - PAD_PX, metrics.height())
        painter.setFont(bold)
        painter.setPen(QColor(colour))
        painter.drawText(space, Qt.AlignmentFlag.AlignRight, upper)
        space.translate(0, metrics.height())
        painter.setFont(small)
        painter.setPen(QColor(colours.quiet))
        painter.drawText(space, Qt.AlignmentFlag.AlignRight, lower)
