"""One running timer: title, what is left, and the clock time it ends."""

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from armorplan.app.rows import BenchState, TimerRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.glyphs import paint_state, state_word
from armorplan.desktop.theme import colours_of
from armorplan.desktop.timers_model import is_due, left_s
from armorplan.desktop.widgets.checklist_delegate import small_font
from armorplan.desktop.wording import clock_text, countdown_text, over_text

PAD_PX = 8
WIDEST_LEFT = "23:59:59"
WIDEST_UNTIL = "until Wed 00:00"
LARGE = 1.5
"""The time left is this much larger than text."""


def large_font(font: QFont) -> QFont:
    """Return the font of the time left."""
    made = QFont(font)
    made.setPointSizeF(font.pointSizeF() * LARGE)
    made.setWeight(QFont.Weight.DemiBold)
    return made


def card_size(font: QFont) -> QSize:
    """Return the size of every card in device-independent pixels."""
    metrics, large = QFontMetrics(font), QFontMetrics(large_font(font))
    small = QFontMetrics(small_font(font))
    high = metrics.height() + large.height() + 2 * PAD_PX
    wide = large.horizontalAdvance(WIDEST_LEFT) + small.horizontalAdvance(WIDEST_UNTIL)
    return QSize(wide + metrics.height() + 6 * PAD_PX, high)


class TimerCard(QAbstractButton):
    """A timer as a button: pressing it chooses its step. Past its time it says so and fills."""

    def __init__(self, bridge: Bridge, row: TimerRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(f"timer_{row.step}")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._bridge = bridge
        self._row = row
        self.show_row(row)

    def show_row(self, row: TimerRow) -> None:
        """Show this timer."""
        self._row = row
        self.setText(row.title)
        self.retell()

    def retell(self) -> None:
        """Repaint; the name a screen reader hears changes only with the state, not each second."""
        word = self.tr("time is up") if self.is_due() else state_word(self.state())
        name = ", ".join(dict.fromkeys((self._row.title, word, self.lines()[1])))
        if name != self.accessibleName():
            self.setAccessibleName(name)
        self.update()

    def state(self) -> BenchState:
        """Return what the timer's mark shows."""
        if self._row.due_at is None:
            return BenchState.PAUSED
        if self.is_due():
            return BenchState.EARLY
        return BenchState.DRYING if self._row.drying else BenchState.RUNNING

    def is_due(self) -> bool:
        """Tell whether its time is up."""
        return is_due(self._row, self._bridge.clock.now())

    def lines(self) -> tuple[str, str]:
        """Say what is left, and until when."""
        now = self._bridge.clock.now()
        if self._row.due_at is None:
            return countdown_text(left_s(self._row, now)), self.tr("paused")
        at = clock_text(self._row.due_at, now, self._bridge.zone)
        if not self.is_due():
            return countdown_text(left_s(self._row, now)), self.tr("until {0}").format(at)
        return over_text(-left_s(self._row, now)), self.tr("was due {0}").format(at)

    # What Qt asks for.

    def sizeHint(self) -> QSize:
        return card_size(self.font())

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.updateGeometry()

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        state = self.state()
        due = self.is_due()
        text = QColor(colours.alarm_text if due else colours.text)
        accent = colours.alarm_text if due else colours.state(state)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(QColor(colours.alarm if due else colours.panel))
        edge = colours.focus if self.hasFocus() else colours.line
        painter.setPen(QColor(edge))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
        if self.hasFocus():
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(2.5, 2.5, -2.5, -2.5), 3, 3)
        self._paint_words(painter, text, accent, state)
        painter.end()

    def _paint_words(
        self, painter: QPainter, text: QColor, accent: str, state: BenchState
    ) -> None:
        box = self.rect().adjusted(PAD_PX + 2, PAD_PX, -PAD_PX - 2, -PAD_PX)
        metrics = self.fontMetrics()
        painter.setPen(text)
        title = metrics.elidedText(self._row.title, Qt.TextElideMode.ElideRight, box.width())
        painter.drawText(box, Qt.AlignmentFlag.AlignTop, title)
        below = QRect(box.left(), box.top() + metrics.height(), box.width(), 0)
        below.setBottom(box.bottom())
        side = metrics.ascent() + 4
        mark = QRectF(below.left(), below.center().y() - side / 2, side, side)
        paint_state(painter, mark, state, accent)
        left, until = self.lines()
        painter.setFont(large_font(self.font()))
        painter.setPen(QColor(accent))
        beside = below.adjusted(side + PAD_PX, 0, 0, 0)
        painter.drawText(beside, Qt.AlignmentFlag.AlignVCenter, left)
        room = beside.width() - painter.fontMetrics().horizontalAdvance(left) - PAD_PX
        painter.setFont(small_font(self.font()))
        painter.setPen(text)
        # How long it has been due says more than since when: that one gives way.
        if painter.fontMetrics().horizontalAdvance(until) <= room:
            flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight
            painter.drawText(below, flags, until)
