"""A line for a note to a step, in the window itself: no dialog to dismiss with dye on the hands."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from armorplan.desktop.bridge import Bridge


class NoteLine(QWidget):
    """Hidden until a note is begun; Enter keeps it, Escape drops it."""

    def __init__(self, bridge: Bridge, back_to: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("note_line")
        self._bridge = bridge
        self._back_to = back_to
        self._step = ""
        self._label = QLabel(self.tr("Note:"), self)
        self._text = QLineEdit(self)
        self._text.setObjectName("note_text")
        self._text.setAccessibleName(self.tr("Note"))
        self._label.setBuddy(self._text)
        keep = QPushButton(self.tr("Keep note"), self)
        keep.setObjectName("note_keep")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self._label)
        row.addWidget(self._text, 1)
        row.addWidget(keep)
        self._text.returnPressed.connect(self._keep)
        keep.clicked.connect(self._keep)
        self.hide()

    def begin(self, step: str, title: str) -> None:
        """Ask for a note to a step."""
        self._step = step
        self._text.clear()
        self._text.setPlaceholderText(title)
        self._text.setAccessibleName(self.tr("Note to: {0}").format(title))
        self.show()
        self._text.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._end()
        else:
            super().keyPressEvent(event)

    def _keep(self) -> None:
        text = self._text.text().strip()
        if text:
            self._bridge.note(self._step, text)
        self._end()

    def _end(self) -> None:
        self.hide()
        self._back_to.setFocus()
