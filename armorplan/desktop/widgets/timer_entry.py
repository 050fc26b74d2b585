"""A line in which one sets a timer of one's own: no dialog to dismiss with dye on the hands."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from armorplan.desktop.timer_words import NotATimeError, read_timer_words
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.wording import seconds_text

TARGET_PX = 48


class TimerEntry(QWidget):
    """Hidden until a timer is to be set; Enter sets it, Escape drops it.

    ``wanted`` carries the minutes and what for.
    """

    wanted = Signal(float, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("timer_entry")
        self._back_to: QWidget | None = None
        self._label = QLabel(self.tr("Set a timer:"), self)
        self._words = QLineEdit(self)
        self._words.setObjectName("timer_words")
        self._words.setAccessibleName(self.tr("Minutes, and what for"))
        self._words.setPlaceholderText(self.tr("a time and what for: 12 glue, 30 s stir"))
        self._words.setMinimumHeight(TARGET_PX)
        self._label.setBuddy(self._words)
        self._told = QLabel(self)
        self._told.setObjectName("timer_told")
        self._told.setWordWrap(True)
        set_it = QPushButton(self.tr("Set"), self)
        set_it.setObjectName("timer_set")
        set_it.setMinimumHeight(TARGET_PX)
        set_it.setAccessibleName(self.tr("Set this timer"))
        across = QHBoxLayout(self)
        across.setContentsMargins(6, 2, 6, 2)
        across.addWidget(self._label)
        across.addWidget(self._words, 2)
        across.addWidget(set_it)
        across.addWidget(self._told, 3)
        self._words.returnPressed.connect(self._set)
        self._words.textEdited.connect(self._tell)
        set_it.clicked.connect(self._set)
        self.hide()

    def begin(self) -> None:
        """Ask for a timer; where one is being typed already, go on with it."""
        if not self.isVisible():
            self._back_to = QApplication.focusWidget()
            self._words.clear()
            self._tell("")
        self.show()
        self._words.setFocus()

    def _tell(self, typed: str) -> None:
        """Say how what is typed is read, before it is set; what cannot be read yet gets the forms."""
        try:
            wanted = read_timer_words(typed)
        except NotATimeError:
            self._told.setText(
                self.tr("12 is 12 minutes, 1:30 is 1 h 30 min, 30 s is 30 seconds.")
            )
            return
        self._told.setText(
            self.tr("Rings in {0}.").format(seconds_text(round(60 * wanted.minutes)))
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._end()
        else:
            super().keyPressEvent(event)

    def _set(self) -> None:
        try:
            wanted = read_timer_words(self._words.text())
        except NotATimeError as error:
            self._told.setText(str(error))
            announce(self._words, str(error))
            self._words.setFocus()
            return
        self._end()
        self.wanted.emit(wanted.minutes, wanted.title)

    def _end(self) -> None:
        self.hide()
        if self._back_to is not None:
            self._back_to.setFocus()
        self._back_to = None
