"""What passed while the program was closed, and what each moment means now."""

from datetime import datetime, tzinfo

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.bells import Bell, BellKind
from armorplan.desktop.bell_glyphs import bell_colour, paint_bell, passed_text
from armorplan.desktop.theme import colours_of
from armorplan.desktop.wording import clock_text, of_build

TARGET_PX = 48
MARK_PX = 28


class BellMark(QWidget):
    """The mark of a kind of moment; the words beside it say it as well."""

    def __init__(self, kind: BellKind, parent: QWidget) -> None:
        super().__init__(parent)
        self._kind = kind
        self.setFixedSize(MARK_PX, MARK_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colour = bell_colour(colours_of(self.palette()), self._kind)
        paint_bell(painter, self.rect().toRectF(), self._kind, colour)
        painter.end()


class MissedPage(QDialog):
    """Lists the moments, the oldest first. Does not hold up the bench: Enter or Escape closes.

    ``wanted`` carries the ``Bell`` whose step is to be shown.
    """

    wanted = Signal(object)

    def __init__(
        self, bells: tuple[Bell, ...], now: datetime, zone: tzinfo, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("missed_page")
        self.setWindowTitle(self.tr("While the program was closed"))
        self.setModal(False)
        self._now, self._zone = now, zone
        down = QVBoxLayout(self)
        down.addWidget(self._opening(len(bells)))
        down.addWidget(self._list(bells), 1)
        close = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        close.rejected.connect(self.close)
        shut = close.button(QDialogButtonBox.StandardButton.Close)
        shut.setMinimumHeight(TARGET_PX)
        shut.setDefault(True)
        down.addWidget(close)
        self.resize(640, min(560, 170 + 104 * len(bells)))
        shut.setFocus()

    def _opening(self, count: int) -> QLabel:
        told = self.tr("Nothing passed while the program was closed or the computer slept.")
        if count == 1:
            told = self.tr("One moment passed while the program was closed or the computer slept.")
        elif count:
            told = self.tr(
                "{0} moments passed while the program was closed or the computer slept."
            ).format(count)
        label = QLabel(told, self)
        label.setObjectName("missed_count")
        label.setWordWrap(True)
        return label

    def _list(self, bells: tuple[Bell, ...]) -> QScrollArea:
        inside = QWidget(self)
        down = QVBoxLayout(inside)
        down.setContentsMargins(0, 0, 6, 0)
        for bell in bells:
            down.addWidget(self._row(bell, inside))
        down.addStretch(1)
        area = QScrollArea(self)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setWidget(inside)
        return area

    def _row(self, bell: Bell, inside: QWidget) -> QWidget:
        row = QFrame(inside)
        row.setObjectName(f"missed_{bell.id}")
        row.setFrameShape(QFrame.Shape.StyledPanel)
        row.setAutoFillBackground(True)
        row.setBackgroundRole(QPalette.ColorRole.Base)
        title = of_build(bell.build_title, bell.title)
        when = passed_text(bell.kind, clock_text(bell.about_at, self._now, self._zone))
        head = QLabel(f"{title} – {when}", row)
        bold = head.font()
        bold.setBold(True)
        head.setFont(bold)
        meaning = QLabel(bell.meaning, row)
        for label in (head, meaning):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        words = QVBoxLayout()
        words.addWidget(head)
        words.addWidget(meaning)
        across = QHBoxLayout(row)
        across.addWidget(BellMark(bell.kind, row), 0, Qt.AlignmentFlag.AlignTop)
        across.addLayout(words, 1)
        if bell.step:
            across.addWidget(self._go(bell, row), 0, Qt.AlignmentFlag.AlignVCenter)
        return row

    def _go(self, bell: Bell, row: QWidget) -> QPushButton:
        go = QPushButton(self.tr("Go to the step"), row)
        go.setObjectName("missed_go")
        go.setAccessibleName(self.tr("Go to the step: {0}").format(bell.title))
        go.setMinimumHeight(TARGET_PX)
        go.setAutoDefault(False)
        go.clicked.connect(lambda: self.wanted.emit(bell))
        return go
