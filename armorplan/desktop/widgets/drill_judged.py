"""What is told beside an exercise: the hint, what the answer is worth, its reasons with links."""

from math import ceil

from PySide6.QtCore import QEvent, Qt, QUrl, Signal
from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import QTextBrowser, QWidget

from armorplan.desktop.practice_html import Told, hint_html, told_html, told_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce

PAD_PX = 4


class DrillTold(QTextBrowser):
    """Empty and hidden until there is something to tell; ``led`` carries the page a link leads to."""

    led = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drill_told")
        self.setAccessibleName(self.tr("What the answer is worth, and why"))
        self.setOpenLinks(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._told: Told | None = None
        self._hint: str | None = None
        self.anchorClicked.connect(self._lead)
        self.hide()

    def forget(self) -> None:
        """Tell nothing."""
        self._told = self._hint = None
        self.clear()
        self.hide()

    def show_hint(self, hint: str) -> None:
        """Tell the reason before the answer."""
        self._hint = hint
        self._draw()
        announce(self, self.toPlainText())

    def show_told(self, told: Told) -> None:
        """Tell what an answer is worth, from its beginning."""
        is_new = told != self._told
        self._told, self._hint = told, None
        self._draw()
        if is_new:
            self.moveCursor(QTextCursor.MoveOperation.Start)
            announce(self, told_words(told))

    def needs_px(self) -> int:
        """Return how high all that is told is in the present width."""
        frame = self.height() - self.viewport().height()
        return ceil(self.document().size().height()) + max(frame, 2) + PAD_PX

    def _draw(self) -> None:
        colours = colours_of(self.palette())
        bar = self.verticalScrollBar()
        at = bar.value()
        self.document().setDefaultFont(self.font())
        if self._told is not None:
            self.setHtml(told_html(self._told, colours))
        elif self._hint is not None:
            self.setHtml(hint_html(self._hint, colours))
        bar.setValue(at)
        self.setVisible(self._told is not None or self._hint is not None)

    def _lead(self, link: QUrl) -> None:
        self.led.emit(link.toString())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._draw()
