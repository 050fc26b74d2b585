"""How many reasons sit, are shaky, or were never seen: a bar of three shares told apart by pattern."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from armorplan.desktop.colours import Colours
from armorplan.desktop.practice_rows import counts_of, shares_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.wrapping import wrapped
from armorplan.practice.grades import ReasonState
from armorplan.practice.progress import PieceProgress, Progress

PAD_PX, BAR_PX = 8, 16
MOST_LINES = 3
KEY = Qt.ItemDataRole.UserRole
COUNTS = Qt.ItemDataRole.UserRole + 1
Shares = dict[ReasonState, int]


def paint_shares(painter: QPainter, box: QRectF, counts: Shares, colours: Colours) -> None:
    """Paint the three shares into a box: filled, hatched, empty; each within an outline."""
    whole = sum(counts.values())
    painter.setPen(QPen(QColor(colours.line), 1))
    painter.setBrush(QColor(colours.panel))
    painter.drawRect(box)
    left = box.left()
    for state in ReasonState:
        wide = box.width() * counts[state] / whole if whole else 0.0
        if wide > 0:
            painter.setBrush(_brush(state, colours))
            painter.drawRect(QRectF(left, box.top(), wide, box.height()))
        left += wide


def _brush(state: ReasonState, colours: Colours) -> QBrush:
    return {
        ReasonState.MASTERED: QBrush(QColor(colours.ready)),
        ReasonState.SHAKY: QBrush(QColor(colours.drying), Qt.BrushStyle.BDiagPattern),
        ReasonState.UNSEEN: QBrush(Qt.BrushStyle.NoBrush),
    }[state]


class PieceDelegate(QStyledItemDelegate):
    """Draws a piece: its name, the bar, and the bar in words."""

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        colours = colours_of(option.palette)
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.fillRect(option.rect, QColor(colours.chosen if is_chosen else colours.panel))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(QColor(colours.focus), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(option.rect).adjusted(1, 1, -1, -1))
        inner = QRectF(option.rect).adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
        high = option.fontMetrics.height()
        painter.setFont(option.font)
        painter.setPen(QColor(colours.text))
        _line(painter, inner.adjusted(0, 0, 0, 0), high, str(index.data()))
        bar = QRectF(inner.left(), inner.top() + high + 3, inner.width(), BAR_PX)
        counts: Shares = index.data(COUNTS)
        paint_shares(painter, bar, counts, colours)
        painter.setPen(QColor(colours.quiet))
        for line in _lines(counts, option):
            below = QRectF(inner.left(), bar.bottom() + 3, inner.width(), high)
            _line(painter, below, high, line)
            bar.translate(0, high)
        painter.restore()

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        lines = 1 + len(_lines(index.data(COUNTS), option))
        return QSize(0, lines * option.fontMetrics.height() + BAR_PX + 2 * PAD_PX + 6)


def _lines(counts: Shares, option: QStyleOptionViewItem) -> tuple[str, ...]:
    """Return the bar in words, in as many lines as the width of the list asks for."""
    view = option.widget
    wide = view.viewport().width() if isinstance(view, QListWidget) else option.rect.width()
    words = shares_words(counts)
    return wrapped(words, QFontMetricsF(option.font), max(wide - 2 * PAD_PX, 1), MOST_LINES)


def _line(painter: QPainter, box: QRectF, high: float, text: str) -> None:
    room = QRectF(box.left(), box.top(), box.width(), high)
    elided = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, int(room.width()))
    painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, elided)


class PieceList(QListWidget):
    """All of the build, then each piece, with its bar; the one in hand is told in the table."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("practice_pieces")
        self.setAccessibleName(self.tr("Pieces, and how their reasons sit"))
        self.setItemDelegate(PieceDelegate(self))
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)

    def show_progress(self, progress: Progress) -> None:
        """Show how somebody stands; the piece in hand stays in hand."""
        before = self.piece
        self.blockSignals(True)
        self.clear()
        self._add(self.tr("All of it"), "", counts_of(progress))
        for piece in progress.pieces:
            self._add(piece.name, piece.piece, counts_of(piece))
        names = [str(self.item(row).data(KEY)) for row in range(self.count())]
        self.setCurrentRow(names.index(before) if before in names else 0)
        self.blockSignals(False)

    def _add(self, name: str, key: str, counts: Shares) -> None:
        item = QListWidgetItem(name)
        item.setData(KEY, key)
        item.setData(COUNTS, counts)
        item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{name}: {shares_words(counts)}")
        self.addItem(item)

    @property
    def piece(self) -> str:
        """The piece in hand; empty: all of the build."""
        row = self.currentRow()
        return str(self.item(row).data(KEY)) if row >= 0 else ""


def chosen_reasons(progress: Progress, piece: str) -> Progress | PieceProgress:
    """Return the piece of this id, or all of it."""
    return next((one for one in progress.pieces if one.piece == piece), progress)
