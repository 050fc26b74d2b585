"""The bar of a window that reads along: who writes, and the button that takes over."""

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from armorplan.desktop.bench_type import LEAST_TARGET_PX
from armorplan.desktop.reading_along import ReadingAlong
from armorplan.desktop.widgets.announcing import announce

LEAST_PX, BIG_LEAST_PX = 48, LEAST_TARGET_PX
"""Least height of the button: for a pointer, and for a knuckle where the bench view is in sight."""


class ReadingBar(QFrame):
    """In sight while another window writes."""

    def __init__(self, reading: ReadingAlong, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("reading_bar")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self._reading = reading
        self.words = QLabel(self)
        self.words.setObjectName("reading_words")
        self.words.setWordWrap(True)
        self.take_over = QPushButton(self.tr("&Write here from now on"), self)
        self.take_over.setObjectName("write_here")
        self.take_over.setMinimumHeight(LEAST_PX)
        self.take_over.setAutoDefault(False)
        across = QHBoxLayout(self)
        across.setContentsMargins(8, 2, 8, 2)
        across.addWidget(self.words, 1)
        across.addWidget(self.take_over)
        self.take_over.clicked.connect(reading.write_here)
        reading.turned.connect(self.refresh)
        self.refresh()

    def grow(self, big: bool) -> None:
        """Be pressed with a knuckle, as all in the bench view is, or with a pointer again."""
        self.take_over.setMinimumHeight(BIG_LEAST_PX if big else LEAST_PX)

    def refresh(self) -> None:
        """Say anew who writes; nothing is in sight where this window does."""
        words = self._reading.words()
        if words and words != self.words.text():
            announce(self, words)
        self.words.setText(words)
        self.setVisible(bool(words))
