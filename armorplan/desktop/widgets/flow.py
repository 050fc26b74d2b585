"""Widgets in a row that goes on in the next line where there is no more room, as text does."""

from PySide6.QtCore import QEvent, QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QWidget

GAP_PX = 8


class Flow(QWidget):
    """Lays its widgets out in lines; each is as wide as it wants to be, at most as the line.

    A widget and no layout: items of a layout that Python makes outlive what they stand for.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._widgets: list[QWidget] = []
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def add(self, widget: QWidget) -> None:
        """Put a widget at the end."""
        widget.setParent(self)
        self._widgets.append(widget)
        self.updateGeometry()

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        places = self._places(width)
        return max((place.bottom() + 1 for _, place in places), default=0)

    def sizeHint(self) -> QSize:
        wide = max(self.width(), self.minimumSizeHint().width())
        return QSize(wide, self.heightForWidth(wide))

    def minimumSizeHint(self) -> QSize:
        shown = [widget.minimumSizeHint() for widget in self._widgets if not widget.isHidden()]
        wide = max((size.width() for size in shown), default=0)
        high = max((size.height() for size in shown), default=0)
        return QSize(wide, high)

    def _places(self, width: int) -> list[tuple[QWidget, QRect]]:
        """Return where each widget that is shown lies in lines of this width."""
        found: list[tuple[QWidget, QRect]] = []
        x, y, line_high = 0, 0, 0
        for widget in self._widgets:
            if widget.isHidden():
                continue
            size = widget.sizeHint()
            wide = min(size.width(), max(width, widget.minimumSizeHint().width()))
            if x and x + wide > width:
                x, y, line_high = 0, y + line_high + GAP_PX // 2, 0
            found.append((widget, QRect(x, y, wide, size.height())))
            x += wide + GAP_PX
            line_high = max(line_high, size.height())
        return found

    def _lay_out(self) -> None:
        for widget, place in self._places(self.width()):
            widget.setGeometry(place)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            # A widget came, went, or says something longer.
            self.updateGeometry()
            self._lay_out()
        return super().event(event)


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
