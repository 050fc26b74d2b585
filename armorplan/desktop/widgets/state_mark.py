"""A state as shape, colour and word."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from armorplan.app.rows import BenchState
from armorplan.desktop.glyphs import paint_state, state_word
from armorplan.desktop.theme import colours_of

GAP_PX = 7


class StateMark(QWidget):
    """Paints a state's mark and word side by side."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = BenchState.WAITING
        self.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
        self.show_state(BenchState.WAITING)

    def show_state(self, state: BenchState) -> None:
        """Show this state."""
        self._state = state
        self.setAccessibleName(state_word(state))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        side = metrics.height()
        return QSize(side + GAP_PX + metrics.horizontalAdvance(state_word(self._state)), side + 4)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, event: QPaintEvent) -> None:
        colour = colours_of(self.palette()).state(self._state)
        painter = QPainter(self)
        side = self.fontMetrics().height() * 0.9
        box = QRectF(0, (self.height() - side) / 2, side, side)
        paint_state(painter, box, self._state, colour)
        painter.setPen(QColor(colour))
        words = self.rect().adjusted(round(side) + GAP_PX, 0, 0, 0)
        painter.drawText(words, Qt.AlignmentFlag.AlignVCenter, state_word(self._state))
        painter.end()
