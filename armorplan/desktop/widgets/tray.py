"""A message of the desktop when a timer rings, where the desktop has a place for it."""

from PySide6.QtCore import QObject, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPixmap
from PySide6.QtWidgets import QSystemTrayIcon, QWidget

from armorplan.app.bells import BellKind
from armorplan.desktop.bell_glyphs import paint_bell
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.widgets.bringing_up import bring_up

SIDE_PX = 64
MESSAGE_MS = 30_000


class Tray(QObject):
    """In sight while a timer runs; a press on it, or on its message, brings the window back."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._icon: QSystemTrayIcon | None = None
        self._is_on = False

    def show_it(self, *, is_on: bool, tip: str) -> None:
        """Be in sight, or not; ``tip`` says what is next."""
        if not is_on:
            self.close()
            return
        was_on, self._is_on = self._is_on, True
        if not was_on and QSystemTrayIcon.isSystemTrayAvailable():
            self._icon = QSystemTrayIcon(_icon(), self)
            self._icon.activated.connect(self.bring_back)
            self._icon.messageClicked.connect(self.bring_back)
            self._icon.show()
        if self._icon is not None:
            self._icon.setToolTip(tip)

    def tell(self, title: str, text: str) -> None:
        """Show a message, where there is a place for it and the window is not looked at."""
        looked_at = self._window.isActiveWindow() and not self._window.isMinimized()
        if self._icon is not None and not looked_at:
            self._icon.showMessage(
                title, text, QSystemTrayIcon.MessageIcon.Information, MESSAGE_MS
            )

    def bring_back(self, *_how: object) -> None:
        """Show the window as it was before it was minimised, in front."""
        state = self._window.windowState() & ~Qt.WindowState.WindowMinimized
        self._window.setWindowState(state | Qt.WindowState.WindowActive)
        bring_up(self._window)

    def close(self) -> None:
        """Go out of sight."""
        self._is_on = False
        if self._icon is not None:
            self._icon.hide()
            self._icon.deleteLater()
            self._icon = None


def _icon() -> QIcon:
    """Return the mark of time run through on a plate that shows on light and dark bars."""
    pixmap = QPixmap(SIDE_PX, SIDE_PX)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(LIGHT.panel))
    painter.drawRoundedRect(QRectF(0, 0, SIDE_PX, SIDE_PX), 10, 10)
    paint_bell(painter, QRectF(10, 10, SIDE_PX - 20, SIDE_PX - 20), BellKind.DUE, LIGHT.running)
    painter.end()
    return QIcon(pixmap)
