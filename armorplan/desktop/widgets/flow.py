"""A layout that goes on in the next line where there is no more room, as text does."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLayout, QLayoutItem, QWidget

GAP_PX = 8


class Flow(QLayout):
    """Lays its widgets out in lines; each is as wide as it wants to be, at most as the line."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._lay_out(QRect(0, 0, width, 0), is_test=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay_out(rect, is_test=False)

    def _lay_out(self, rect: QRect, *, is_test: bool) -> int:
        """Place the items and return how high they are together."""
        x, y, line_high = rect.x(), rect.y(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            wide = min(item.sizeHint().width(), rect.width())
            if x > rect.x() and x + wide > rect.right() + 1:
                x, y, line_high = rect.x(), y + line_high + GAP_PX // 2, 0
            if not is_test:
                item.setGeometry(QRect(QPoint(x, y), QSize(wide, item.sizeHint().height())))
            x += wide + GAP_PX
            line_high = max(line_high, item.sizeHint().height())
        return y + line_high - rect.y()


def named_field(words: str, field: QWidget, parent: QWidget) -> QWidget:
    """Return a field with its name before it, so that both stay in one line."""
    pair = QWidget(parent)
    across = QHBoxLayout(pair)
    across.setContentsMargins(0, 0, 0, 0)
    across.setSpacing(6)
    name = QLabel(words, pair)
    name.setBuddy(field)
    name.setMinimumWidth(name.sizeHint().width() + 2)
    across.addWidget(name)
    across.addWidget(field)
    return pair
