"""The line below the week: what holds the ring or lies under the mouse, in words."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QWidget

MARGIN_PX = 4


class WeekLine(QWidget):
    """Words of a block, with a button to open the build it is of, where that is another one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._label = QLabel(self)
        self._label.setObjectName("week_line")
        self._label.setTextFormat(Qt.TextFormat.PlainText)
        self._label.setMargin(MARGIN_PX)
        self._label.setWordWrap(True)
        self._label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self.open = QPushButton(self.tr("&Open this build"), self)
        self.open.setObjectName("week_open_build")
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, MARGIN_PX, 0)
        across.addWidget(self._label, 1)
        across.addWidget(self.open)
        self.open.hide()

    def text(self) -> str:
        """Return what it says."""
        return self._label.text()

    def show_words(self, words: str, other_build: str) -> None:
        """Say something of a block; ``other_build`` is the name of its build, where that is not open."""
        self._label.setText(words)
        self.open.setVisible(bool(other_build))
        self.open.setAccessibleName(self.tr("Open {0}").format(other_build))

    def show_hint(self, *, is_empty: bool) -> None:
        """Say what can be read here."""
        hint = self.tr("Choose a step to read it here.")
        self.show_words(self.tr("Nothing is planned yet.") if is_empty else hint, "")
