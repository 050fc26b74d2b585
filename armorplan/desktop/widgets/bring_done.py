"""What comes when all is answered: write the pattern; and when it is written: go to the bench."""

from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import BIG_TARGET_PX, TARGET_PX, heading_font


class BringDone(QWidget):
    """One large button that Enter presses.

    ``asked_write`` asks to write the pattern, ``asked_bench`` to go to the bench, ``asked_back`` to
    take the last answer back, ``asked_list`` for the list of all answers.
    """

    asked_write = Signal()
    asked_bench = Signal()
    asked_back = Signal()
    asked_list = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_done")
        self.is_written = False
        self.heading, self.told = QLabel(self), QLabel(self)
        self.main = self._button("bring_done_main", BIG_TARGET_PX)
        self.list = self._button("bring_done_list", TARGET_PX)
        self.back = self._button("bring_done_back", TARGET_PX)
        self.main.setText(self.tr("Write the pattern … (Enter)"))
        self.list.setText(self.tr("Look through all answers"))
        self.back.setText(self.tr("Take the last answer back (Backspace)"))
        for label, name in ((self.heading, "bring_done_heading"), (self.told, "bring_done_told")):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.heading.setFont(heading_font(heading_font(self.font())))
        down = QVBoxLayout(self)
        down.addStretch(1)
        for widget in (self.heading, self.told, self.main, self.list, self.back):
            down.addWidget(widget)
        down.addStretch(2)
        self.main.clicked.connect(self._press)
        self.list.clicked.connect(self.asked_list)
        self.back.clicked.connect(self.asked_back)
        key = QShortcut(QKeySequence("Backspace"), self)
        key.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        key.activated.connect(self.asked_back)

    def _button(self, name: str, least_px: int) -> QPushButton:
        button = QPushButton(self)
        button.setObjectName(name)
        button.setMinimumHeight(least_px)
        button.setAutoDefault(True)
        return button

    def show_ready(self, count: int) -> None:
        """Say that nothing is left to ask."""
        self.is_written = False
        self.heading.setText(self.tr("All {0} questions are answered.").format(count))
        self.told.setText(
            self.tr(
                "Write the pattern: it gets a name and a folder of its own, and is laid on the "
                "bench. Your drawing is not changed."
            )
        )
        self.main.setText(self.tr("Write the pattern … (Enter)"))
        announce(self.heading, self.heading.text())

    def show_written(self, folder: Path, left_open: tuple[str, ...]) -> None:
        """Say where it was written, and what it does not say yet."""
        self.is_written = True
        self.heading.setText(self.tr("The pattern is written, and lies on the bench."))
        lines = [
            self.tr("It is in {0}, with your drawing as it was in 'as_brought'.").format(folder)
        ]
        if left_open:
            lines.append(self.tr("Open still; the drawing table is the place for it:"))
            lines += [f"\N{BULLET} {sentence}" for sentence in left_open]
        self.told.setText("\n".join(lines))
        self.main.setText(self.tr("Go to the bench (Enter)"))
        announce(self.heading, self.heading.text())

    def _press(self) -> None:
        (self.asked_bench if self.is_written else self.asked_write).emit()
