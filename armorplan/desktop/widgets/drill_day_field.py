"""The time at which a bar begins, as it is typed or stepped."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QValidator, QWheelEvent
from PySide6.QtWidgets import QSpinBox, QWidget

from armorplan.desktop.drill_day_layout import DaySpan
from armorplan.practice.drill import DayRow

NO_TIME = "\N{EN DASH}:\N{EN DASH}"


class TimeField(QSpinBox):
    """Steps through the grid of the day; ``laid`` carries a minute of the day that was said."""

    laid = Signal(int)

    def __init__(self, span: DaySpan, row: DayRow, parent: QWidget) -> None:
        super().__init__(parent)
        self._span, self._row = span, row
        self.setRange(-1, span.last_start(row) // span.day.grid_min)
        self.setKeyboardTracking(False)
        self.valueChanged.connect(self._tell)

    def show_start(self, minute: int | None) -> None:
        """Show a minute of the day without telling; ``None``: no time yet."""
        with QSignalBlocker(self):
            self.setValue(-1 if minute is None else minute // self._span.day.grid_min)

    def _tell(self, step: int) -> None:
        if step >= 0:
            self.laid.emit(step * self._span.day.grid_min)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Turning the wheel scrolls past; it sets no time by chance."""
        event.ignore()

    # --- what Qt asks -------------------------------------------------------------------------

    def textFromValue(self, step: int) -> str:
        return NO_TIME if step < 0 else self._span.clock(step * self._span.day.grid_min)

    def valueFromText(self, text: str) -> int:
        minute = self._span.minute_at(text)
        if minute is None:
            return self.value()
        return self._span.snapped(self._row, minute) // self._span.day.grid_min

    def validate(self, text: str, at: int) -> tuple[QValidator.State, str, int]:
        """Let anything be typed that can become a time; what is none leaves the time as it was."""
        if self._span.minute_at(text) is not None or text == NO_TIME:
            return QValidator.State.Acceptable, text, at
        could_be = all(one.isdecimal() or one in ":." for one in text)
        state = QValidator.State.Intermediate if could_be else QValidator.State.Invalid
        return state, text, at

    def fixup(self, text: str) -> str:
        """What is left half typed becomes the time that stood there."""
        return self.textFromValue(self.value())
