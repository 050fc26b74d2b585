"""One line that says what is under way, and stops it; it takes its room always, so nothing jumps."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QWidget

from armorplan.desktop.widgets.announcing import announce

BAR_PX = 120


class BusyLine(QWidget):
    """``stopped`` asks to end what is under way."""

    stopped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_busy")
        self.words = QLabel(self)
        self.words.setObjectName("bring_busy_words")
        self.words.setWordWrap(True)
        self._bar = QProgressBar(self)
        self._bar.setRange(0, 0)
        self._bar.setMaximumWidth(BAR_PX)
        self._bar.setAccessibleName(self.tr("Under way"))
        self.stop = QPushButton(self.tr("&Stop"), self)
        self.stop.setObjectName("bring_stop")
        self.stop.setAutoDefault(False)
        self.stop.clicked.connect(self.stopped)
        across = QHBoxLayout(self)
        across.setContentsMargins(4, 0, 4, 0)
        across.addWidget(self.words, 1)
        for widget in (self._bar, self.stop):
            policy = widget.sizePolicy()
            policy.setRetainSizeWhenHidden(True)
            widget.setSizePolicy(policy)
            across.addWidget(widget)
        self.show_busy("")

    def show_busy(self, words: str) -> None:
        """Say what is under way; an empty text: nothing is."""
        self._bar.setVisible(bool(words))
        self.stop.setVisible(bool(words))
        if words:
            self.words.setText(words)

    def say(self, sentence: str) -> None:
        """Say what came of it."""
        self.words.setText(sentence)
        announce(self.words, sentence)
