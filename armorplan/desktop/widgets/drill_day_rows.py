"""A row of the day as laid out: its words and its time, and its lane beside or below."""

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.drill_marks import Note, paint_mark
from armorplan.desktop.theme import colours_of

MARGIN_PX = 2
LEAST_PX = 140


class NoteLine(QWidget):
    """What judging says of a row: a mark and words; hidden where it says nothing."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._note: Note | None = None
        self._words = QLabel(self)
        self._words.setWordWrap(True)
        line = QHBoxLayout(self)
        line.setContentsMargins(self.fontMetrics().height() + 4, 0, 0, 0)
        line.addWidget(self._words)
        self.hide()

    def show_note(self, note: Note | None) -> None:
        """Show what is said, or nothing."""
        self._note = note
        self._words.setText(note.words if note else "")
        self.setVisible(note is not None)
        self.update()

    def text(self) -> str:
        """Return the words shown."""
        return self._words.text()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._note is None:
            return
        side = self.fontMetrics().ascent()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(1, (self.height() - side) / 2, side, side)
        paint_mark(painter, box, self._note.mark, colours_of(self.palette()))
        painter.end()


class HeadedScroll(QScrollArea):
    """Scrolls rows under a head that stays in sight, just as wide as they are."""

    def __init__(self, head: QWidget, rows: QWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self._head = head
        head.setParent(self)
        rows.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setWidget(rows)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumHeight(LEAST_PX)
        self._lay_head()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_head()

    def viewportEvent(self, event: QEvent) -> bool:
        done = super().viewportEvent(event)
        if event.type() is QEvent.Type.Resize:
            self._lay_head()
        return done

    def _lay_head(self) -> None:
        """Lay the head over the rows: beside a scroll bar they are narrower."""
        high = self._head.sizeHint().height()
        if self.viewportMargins().top() != high:
            self.setViewportMargins(0, high, 0, 0)
        view = self.viewport().geometry()
        self._head.setGeometry(view.x(), 0, view.width(), high)


class DayLine(QWidget):
    """Words, perhaps a field for the time, a note, and a lane: beside them, or below where it is narrow."""

    def __init__(self, lane: QWidget, field: QWidget | None, parent: QWidget) -> None:
        super().__init__(parent)
        self.lane = lane
        self.words, self.note = QLabel(self), NoteLine(self)
        self.words.setWordWrap(True)
        self._head = QWidget(self)
        self._head.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        said = QHBoxLayout()
        said.addWidget(self.words, 1)
        if field is not None:
            said.addWidget(field, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self._head)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(1)
        column.addLayout(said)
        column.addWidget(self.note)
        self._line = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        self._line.setContentsMargins(MARGIN_PX, 2, MARGIN_PX, 2)
        self._line.setSpacing(3)
        self._line.addWidget(self._head)
        self._line.addWidget(lane, 1)

    def fit(self, head_px: int) -> None:
        """Keep so much of the width for the words; 0: the lane lies below them."""
        way = QBoxLayout.Direction.LeftToRight if head_px else QBoxLayout.Direction.TopToBottom
        self._line.setDirection(way)
        self._head.setMinimumWidth(head_px)
        self._head.setMaximumWidth(head_px or _ANY_PX)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, super().minimumSizeHint().height())


_ANY_PX = 16_777_215
