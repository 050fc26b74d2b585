"""What a question asks and tells, in as much room as it needs and there is; more of it is scrolled."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from armorplan.desktop.bring_words import head_and_rest
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import heading_font

SHARE = 0.45
"""It takes this share of the height around it at most: answers need room, too."""


class QuestionText(QScrollArea):
    """The first sentence as a heading, the others below it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("bring_told_text")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._inside = QWidget(self)
        self.first, self.more = QLabel(self._inside), QLabel(self._inside)
        down = QVBoxLayout(self._inside)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.first)
        down.addWidget(self.more)
        down.addStretch(1)
        for label, name in ((self.first, "bring_question"), (self.more, "bring_more")):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.first.setFont(heading_font(self.font()))
        self.setWidget(self._inside)
        self._inside.setAutoFillBackground(False)
        self.viewport().setAutoFillBackground(False)
        parent.installEventFilter(self)

    def show_text(self, text: str) -> None:
        """Show a question from its beginning."""
        first, more = head_and_rest(text)
        self.first.setText(first)
        self.more.setText(more)
        self.more.setVisible(bool(more))
        self._take_room()
        self.verticalScrollBar().setValue(0)
        announce(self.first, text)

    def _take_room(self) -> None:
        """Be as high as the text is, at most a share of what is around."""
        wide = self.viewport().width()
        labels = (self.first, self.more) if self.more.text() else (self.first,)
        inner, above = self._inside.layout(), self.parentWidget()
        gaps = inner.spacing() * (len(labels) - 1) if inner else 0
        wanted = sum(max(label.heightForWidth(wide), 0) for label in labels) + gaps
        around = above.height() if above else wanted
        is_cut = wanted > SHARE * around
        self.setFixedHeight(round(SHARE * around) if is_cut else wanted)
        # Where it is scrolled, keys reach it.
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus if is_cut else Qt.FocusPolicy.NoFocus)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self._take_room()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and watched is self.parentWidget():
            self._take_room()
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.first.setFont(heading_font(self.font()))
            self._take_room()
