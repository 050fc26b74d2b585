"""Asks within the dry fit how many pins there are: the size, then a number that is typed or stepped."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSpinBox, QVBoxLayout, QWidget

from armorplan.app.dry_fit_rows import PieceFit
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.pin_desk import PLENTY, PinDesk, count_of, sizes_screen
from armorplan.desktop.widgets.way_back_lists import Answers, PanelKeys
from armorplan.workshop.pins import PinEntry

MOST = 999
_TAKE = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class CountBox(QSpinBox):
    """A number of pins; ``taken`` is Enter, ``left`` Escape."""

    taken = Signal()
    left = Signal()

    def __init__(self, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("dry_fit_count")
        self.setAccessibleName(self.tr("How many pins of this size you have"))
        self.setRange(0, MOST)
        self.setMinimumHeight(target_px)
        self.setSuffix(self.tr(" pins"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _TAKE:
            self.taken.emit()
        elif event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)


class DryFitPins(QWidget):
    """Worked by the verbs of its panel: ``step``, ``take``, ``back``.

    ``said`` carries what is asked, kept or refused; ``left`` says that one goes back to the fit.
    """

    said = Signal(str)
    left = Signal()

    def __init__(self, bridge: Bridge, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._fit: PieceFit | None = None
        self._pins: tuple[PinEntry, ...] = ()
        self._size = ""
        self._desk = PinDesk(bridge, self)
        self.answers = Answers("dry_fit_sizes", target_px, self)
        self.count = CountBox(target_px, self)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.count, 0, Qt.AlignmentFlag.AlignTop)
        whole.addWidget(self.answers, 1)
        self.setFocusProxy(self.answers)
        keys = PanelKeys(self.answers)
        keys.taken.connect(self.take)
        keys.left.connect(self.back)
        keys.moved.connect(self.step)
        keys.numbered.connect(self._take_number)
        self.answers.itemClicked.connect(self.take)
        self.count.taken.connect(self.take)
        self.count.left.connect(self.back)
        self._desk.told.connect(self.said)
        self._desk.refused.connect(self.said)

    def show_pins(self, fit: PieceFit, pins: tuple[PinEntry, ...]) -> None:
        """Show the sizes as they are owned now; the one in hand stays in hand, and so does a count."""
        kept = self.answers.key()
        self._fit, self._pins = fit, pins
        self.answers.show_screen(sizes_screen(fit, pins))
        keys = [self.answers.key(row) for row in range(self.answers.count())]
        if kept in keys:
            self.answers.setCurrentRow(keys.index(kept))

    def begin(self) -> None:
        """Ask of which size it is to be said."""
        self._ask("")
        if self._fit is not None:
            self.said.emit(sizes_screen(self._fit, self._pins).heading)

    def _ask(self, size: str) -> None:
        """Ask how many there are of a size; empty: of which size."""
        self._size = size
        self.count.setVisible(bool(size))
        self.answers.setVisible(not size)
        (self.count if size else self.answers).setFocus()

    def step(self, by: int) -> None:
        """Go to the next size, or to one pin more; by -1 to the former one, or to one pin fewer."""
        if self._size:
            self.count.stepBy(by)
        else:
            self.answers.step(by)

    def take(self) -> None:
        """Take the size in hand, or keep the count."""
        if self._size:
            self._desk.keep(self._size, self.count.value())
            self._ask("")
            return
        size = self.answers.key()
        if size == PLENTY:
            self._desk.forget()
        elif size and self._fit is not None:
            self.count.setValue(count_of(self._fit, self._pins, size))
            self._ask(size)
            self.count.selectAll()
            name = next(pin.name for pin in self._pins if pin.id == size)
            self.said.emit(self.tr("{0}: how many do you have?").format(name))

    def _take_number(self, number: int) -> None:
        if number <= self.answers.count():
            self.answers.setCurrentRow(number - 1)
            self.take()

    def back(self) -> None:
        """Go back to the sizes; from there, to the fit."""
        if self._size:
            self.begin()
        else:
            self.left.emit()

    def close_jobs(self) -> None:
        """Wait for what is still being kept."""
        self._desk.close()
