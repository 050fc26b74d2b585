"""A frame round the whole window while a timer goes unanswered: seen from across the room."""

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QWidget

from armorplan.desktop.theme import colours_of

WIDE_PX = 6


class EdgeFlash(QWidget):
    """Lies round all that the window shows, which makes room for it as long as it may flash."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self.setObjectName("edge_flash")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        window.installEventFilter(self)
        self.hide()

    def show_it(self, *, is_on: bool, is_bright: bool = True) -> None:
        """Show the frame, by turns or all the time, or hide it.

        Its room stays from one flash to the next: what is read or aimed at does not jump.
        """
        wide = WIDE_PX if is_on else 0
        self._window.setContentsMargins(wide, wide, wide, wide)
        if is_on and is_bright and not self.isVisible():
            self._fit()
            self.show()
            self.raise_()
        elif not (is_on and is_bright):
            self.hide()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._fit()
        return super().eventFilter(watched, event)

    def _fit(self) -> None:
        whole = self._window.rect()
        self.setGeometry(whole)
        inside = whole.adjusted(WIDE_PX, WIDE_PX, -WIDE_PX, -WIDE_PX)
        self.setMask(QRegion(QRect(whole)).subtracted(QRegion(inside)))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(colours_of(self.palette()).alarm))
        painter.end()
