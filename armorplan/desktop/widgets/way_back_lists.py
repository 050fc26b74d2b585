"""The list of answers and the table of ways: large targets, and keys that are the panel's."""

from PySide6.QtCore import QEvent, QModelIndex, QObject, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from armorplan.desktop.bench_type import LEAST_TARGET_PX
from armorplan.desktop.way_back_talk import Choice, Screen

TARGET_PX, BIG_TARGET_PX = 40, LEAST_TARGET_PX
"""Least height of an answer: for a pointer at the desk, and for a knuckle at the bench."""
PAD_PX = 10
DIGITS = 9
HEADING_SHARE = 1.25
KEY = Qt.ItemDataRole.UserRole


class TallRows(QStyledItemDelegate):
    """Makes every row that can be chosen a target."""

    def __init__(self, least_px: int, parent: QObject) -> None:
        super().__init__(parent)
        self._least_px = least_px

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        size = super().sizeHint(option, index)
        is_target = bool(index.flags() & Qt.ItemFlag.ItemIsSelectable)
        least = self._least_px if is_target else 0
        return QSize(size.width() + PAD_PX, max(size.height() + PAD_PX, least))


class Answers(QListWidget):
    """Answers to a question, with the number that is the key of each of the first nine."""

    def __init__(self, name: str, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(self.tr("Answers"))
        self.setItemDelegate(TallRows(target_px, self))
        self.setWordWrap(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self._numbers: dict[int, int] = {}

    def step(self, by: int) -> None:
        """Go to the next answer; past the last one to the first."""
        if self.count():
            self.setCurrentRow((self.currentRow() + by) % self.count())

    def show_screen(self, screen: Screen) -> None:
        """Show the answers of a screen, the likeliest in hand."""
        self.clear()
        self._numbers = {}
        for place, choice in enumerate(screen.choices, start=1):
            number = choice.number or place
            self._numbers.setdefault(number, place - 1)
            item = QListWidgetItem(_text(choice, number))
            item.setData(KEY, choice.key)
            self.addItem(item)
        self.setCurrentRow(min(screen.at, self.count() - 1))

    def row_of(self, number: int) -> int:
        """Return the row that a digit takes; -1 where it takes none."""
        return self._numbers.get(number, -1)

    def row_of_key(self, key: str) -> int:
        """Return the row of an answer; -1 where it is not offered."""
        return next((row for row in range(self.count()) if self.key(row) == key), -1)

    def key(self, row: int | None = None) -> str:
        """Return the key of the answer in hand, or of a row; empty where there is none."""
        at = self.currentRow() if row is None else row
        return str(self.item(at).data(KEY)) if 0 <= at < self.count() else ""


def _text(choice: Choice, number: int) -> str:
    sign = f"{number}  " if number <= DIGITS else ""
    more = f" \N{EN DASH} {choice.more}" if choice.more else ""
    return f"{sign}{choice.text}{more}"


def heading_font(font: QFont) -> QFont:
    """Return the font of a heading over text of this font, be that in points or in pixels."""
    larger = QFont(font)
    larger.setBold(True)
    if font.pixelSize() > 0:
        larger.setPixelSize(round(font.pixelSize() * HEADING_SHARE))
    else:
        larger.setPointSizeF(font.pointSizeF() * HEADING_SHARE)
    return larger


def foot_of(target_px: int, back: QPushButton, *others: QPushButton) -> QHBoxLayout:
    """Return the foot of a panel: the button back at its left, the others at its right, as targets."""
    foot = QHBoxLayout()
    for button in (back, *others):
        button.setMinimumSize(3 * target_px, target_px)
        button.setAutoDefault(False)
        foot.addWidget(button)
    foot.insertStretch(1, 1)
    return foot


class PanelKeys(QObject):
    """Hears the few keys by which a panel is worked, before what has the keyboard does.

    ``taken`` is Enter or Space, ``left`` Escape or Backspace, ``moved`` right or left, ``numbered`` a
    digit from 1, ``paged`` a page down or up.
    """

    taken = Signal()
    left = Signal()
    moved = Signal(int)
    numbered = Signal(int)
    paged = Signal(int)

    def __init__(self, *watched: QWidget) -> None:
        super().__init__(watched[0])
        for widget in watched:
            widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            with_keypad = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
            if not with_keypad:
                return self._hear(Qt.Key(event.key()))
        return super().eventFilter(watched, event)

    def _hear(self, key: Qt.Key) -> bool:
        if key in _TAKE:
            self.taken.emit()
        elif key in _LEAVE:
            self.left.emit()
        elif key in _MOVE:
            self.moved.emit(_MOVE[key])
        elif key in _PAGE:
            self.paged.emit(_PAGE[key])
        elif Qt.Key.Key_1 <= key <= Qt.Key.Key_9:
            self.numbered.emit(key - Qt.Key.Key_0)
        else:
            return False
        return True


_TAKE = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
_LEAVE = (Qt.Key.Key_Escape, Qt.Key.Key_Backspace)
_MOVE = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}
_PAGE = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_PageUp: -1}
