"""The last sentence said, and what the armour is not."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QStatusBar, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.announcing import announce

LONGEST_WORD = 14
"""Letters of a long word, which may not fit at the end of a line."""


class Sentence(QLabel):
    """A label that takes a second line where it needs one, and then ends in an ellipsis."""

    def setText(self, text: str) -> None:
        super().setText(text)
        self.setToolTip(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        words = self.fontMetrics()
        is_long = words.horizontalAdvance(self.text()) > self.width()
        self.setMinimumHeight(words.lineSpacing() * (2 if is_long else 1))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self.palette().color(QPalette.ColorRole.WindowText))
        words = self.fontMetrics()
        # Two lines hold less than twice a line: the first ends with a whole word.
        room = self.width() * 2 - words.averageCharWidth() * LONGEST_WORD
        is_long = words.horizontalAdvance(self.text()) > self.width()
        right = Qt.TextElideMode.ElideRight
        text = words.elidedText(self.text(), right, room) if is_long else self.text()
        upright = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(self.rect(), upright, text)
        painter.end()


class NoticeLine(QStatusBar):
    """Keeps what was said last until the next; a bench action names the key that reverts it."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("notice_line")
        self._bridge = bridge
        self._said = Sentence(self)
        self._said.setObjectName("said")
        self._said.setAccessibleName(self.tr("Last notice"))
        self._said.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        costume = QLabel(self.tr("Costume, not protective equipment."), self)
        costume.setObjectName("costume_notice")
        self.addWidget(self._said, 1)
        self.addPermanentWidget(costume)
        bridge.said.connect(self.say)
        bridge.acted.connect(self._offer_undo)

    def say(self, sentence: str) -> None:
        """Show a sentence, and have it spoken where a screen reader listens."""
        self._said.setText(sentence)
        announce(self, sentence)

    def _offer_undo(self) -> None:
        """Name the key for what was just done: after taking back, the one that restores."""
        session = self._bridge.session
        if self._bridge.took_back:
            hint = self.tr("{0} – Ctrl+Shift+Z restores it.") if session.can_redo() else ""
        else:
            hint = self.tr("{0} – Ctrl+Z takes it back.") if session.can_undo() else ""
        if hint:
            self._said.setText(hint.format(self._said.text().rstrip(".")))
