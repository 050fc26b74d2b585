"""What every answer form offers to the page that asks."""

from abc import abstractmethod

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from armorplan.desktop.drill_form_words import choice_of_letter
from armorplan.practice.drill import Answer, Drill, Judged

LEAST_PX = QSize(240, 200)
TYPED = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
"""With these a letter is a letter."""


class DrillForm(QWidget):
    """Takes an answer to an exercise, and shows one that was judged.

    ``changed`` says that the answer so far is another one, ``pointed`` carries the choice in hand,
    for the picture beside it; empty: none.
    """

    changed = Signal()
    pointed = Signal(str)

    def __init__(self, drill: Drill, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._drill = drill

    @property
    def drill(self) -> Drill:
        """The exercise that is answered."""
        return self._drill

    @abstractmethod
    def answer(self) -> Answer:
        """Return the answer so far."""
        ...

    @abstractmethod
    def is_whole(self) -> bool:
        """Tell whether it can be judged: everything that is asked has been answered."""
        ...

    @abstractmethod
    def show_answer(self, answer: Answer, *, editable: bool) -> None:
        """Show an answer without marks, to be changed or only looked at."""
        ...

    @abstractmethod
    def show_judged(self, drill: Drill, judged: Judged) -> None:
        """Mark what was right in the answer shown and what was not; it can no more be changed."""
        ...

    @abstractmethod
    def begin(self) -> None:
        """Give the keyboard to the first thing that is to be done."""
        ...

    @abstractmethod
    def choose(self, name: str) -> None:
        """Take a choice that was named by its letter or on the picture, by its id."""
        ...

    def needs_px(self, wide_px: int) -> int:
        """Return how high all of it is in a width, in device-independent pixels; 0: not known."""
        return 0

    def choose_seen(self, name: str) -> None:
        """Take a choice that was named on the picture; a form out of sight is not answered."""
        if self.isVisible():
            self.choose(name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take a choice by its letter."""
        is_typed = event.modifiers() in TYPED
        named = choice_of_letter(self._drill, event.text()) if is_typed else None
        if named is None:
            super().keyPressEvent(event)
        else:
            self.choose(named.id)
            event.accept()

    def minimumSizeHint(self) -> QSize:
        return LEAST_PX
