"""A frame round what has the keyboard, where what stands in it shows no ring of its own."""

from PySide6.QtCore import QEvent, QObject, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from armorplan.desktop.theme import colours_of

WIDE_PX = 2.5
_SHAPES = (QEvent.Type.Resize, QEvent.Type.Show)
_KEYS = (QEvent.Type.FocusIn, QEvent.Type.FocusOut)


class KeyRing(QWidget):
    """Lies over a widget and is drawn while that has the keyboard; the mouse goes through it."""

    def __init__(self, around: QWidget) -> None:
        super().__init__(around)
        self._around = around
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()
        around.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _SHAPES:
            self.setGeometry(self._around.rect())
        elif event.type() in _KEYS:
            self.setVisible(event.type() is QEvent.Type.FocusIn)
            self.raise_()
        return super().eventFilter(watched, event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(colours_of(self.palette()).focus), WIDE_PX))
        inset = WIDE_PX / 2
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), 5, 5)
        painter.end()
