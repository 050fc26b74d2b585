"""A bar of the day: laid by mouse and keys, a slider to whoever listens instead of looking."""

from PySide6.QtCore import QRectF, QSignalBlocker, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QSlider, QWidget

from armorplan.desktop.drill_day_layout import DayScale, DaySpan, Window
from armorplan.desktop.drill_marks import Note
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.drill_day_painting import (
    bar_box,
    paint_bar,
    paint_ground,
    paint_hours,
    paint_window,
)
from armorplan.practice.drill import DayRow

EDGE_PX = 6.0
LANE_LINES = 1.7
HOUR_MIN = 60


def lane_scale(widget: QWidget, span: DaySpan) -> DayScale:
    """Return the day on the width of a lane."""
    return DayScale(span=span, left=EDGE_PX, width=max(widget.width() - 2 * EDGE_PX, 1.0))


class _Lane(QSize):
    """The size a lane asks for."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(180, round(QFontMetrics(widget.font()).height() * LANE_LINES))


class DayBar(QSlider):
    """Holds when one row begins; ``laid`` carries the minute of the day.

    Left and Right go a step of the grid, with Shift an hour, Page Up and Down an hour, Home and
    End to the first and last time. A letter is left to the form.
    """

    laid = Signal(int)

    def __init__(self, span: DaySpan, row: DayRow, letter: str, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.row, self.letter, self._span = row, letter, span
        self._start: int | None = None
        self._note: Note | None = None
        self._held_min: float | None = None
        """How far from the start of the bar it was taken hold of, while it is."""
        self.is_fixed = False
        grid = span.day.grid_min
        self.setRange(0, span.last_start(row) // grid)
        self.setPageStep(max(1, HOUR_MIN // grid))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setMouseTracking(True)
        # Assistive tools set a slider's value by themselves.
        self.valueChanged.connect(lambda step: self.lay(step * grid))

    @property
    def start_min(self) -> int | None:
        """The minute of the day at which it begins; ``None`` until somebody says."""
        return self._start

    def show_start(self, minute: int | None, note: Note | None = None) -> None:
        """Lay the bar without telling."""
        self._start = minute
        self._note = note
        with QSignalBlocker(self):
            self.setValue((minute or 0) // self._span.day.grid_min)
        self.update()

    def lay(self, minute: float) -> None:
        """Lay the bar at the nearest minute of the grid, and tell where that changes anything."""
        to = self._span.snapped(self.row, minute)
        if self.is_fixed or to == self._start:
            self.show_start(self._start, self._note)
            return
        self.show_start(to)
        self.laid.emit(to)

    # --- events -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        grid = self._span.day.grid_min
        is_hour = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        by = HOUR_MIN if is_hour else grid
        now, last = self._start or 0, self._span.last_start(self.row)
        to = {
            Qt.Key.Key_Left: now - by,
            Qt.Key.Key_Right: now + by,
            Qt.Key.Key_PageUp: now + HOUR_MIN,
            Qt.Key.Key_PageDown: now - HOUR_MIN,
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }.get(Qt.Key(event.key()))
        if to is None:
            event.ignore()
            return
        self.lay(0 if self._start is None and to != last else to)
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the bar; beside it, lay it there."""
        if event.button() != Qt.MouseButton.LeftButton:
            event.ignore()
            return
        scale, x = lane_scale(self, self._span), event.position().x()
        at = scale.minute(x)
        is_on = self._start is not None and self._bar(scale).contains(event.position())
        if is_on:
            self._held_min = at - (self._start or 0)
            return
        self._held_min = self.row.minutes / 2
        self.lay(at - self._held_min)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        scale = lane_scale(self, self._span)
        if self._held_min is not None:
            self.lay(scale.minute(event.position().x()) - self._held_min)
        can = not self.is_fixed and self._bar(scale).contains(event.position())
        held = Qt.CursorShape.ClosedHandCursor if self._held_min is not None else None
        shape = Qt.CursorShape.OpenHandCursor if can else Qt.CursorShape.ArrowCursor
        self.setCursor(held or shape)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held_min = None
        self.unsetCursor()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Turning the wheel scrolls past; it lays no bar by chance."""
        event.ignore()

    def _bar(self, scale: DayScale) -> QRectF:
        return bar_box(QRectF(self.rect()), scale, self._start or 0, self.row.minutes)

    def paintEvent(self, event: QPaintEvent) -> None:
        colours, scale = colours_of(self.palette()), lane_scale(self, self._span)
        painter, box = QPainter(self), QRectF(self.rect())
        paint_ground(painter, box, scale, colours)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        mark = self._note.mark if self._note else None
        look, is_set = (self.font(), colours), self._start is not None
        paint_bar(painter, self._bar(scale), self.letter, look=look, is_set=is_set, mark=mark)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.focus), 2.5))
            painter.drawRoundedRect(box.adjusted(1.5, 1.5, -1.5, -1.5), 4, 4)
        painter.end()

    def sizeHint(self) -> QSize:
        return _Lane(self)

    def minimumSizeHint(self) -> QSize:
        return _Lane(self)


class DayLane(QWidget):
    """A lane without a bar: the window of a wait, or the hours at the head of the day."""

    def __init__(self, span: DaySpan, parent: QWidget, *, is_head: bool = False) -> None:
        super().__init__(parent)
        self._span, self._is_head = span, is_head
        self._window: Window | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def window_shown(self) -> Window | None:
        """What is drawn."""
        return self._window

    def show_window(self, window: Window | None) -> None:
        """Draw where a wait lies; ``None``: what it follows has no time yet."""
        self._window = window
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        colours, scale = colours_of(self.palette()), lane_scale(self, self._span)
        painter, box = QPainter(self), QRectF(self.rect())
        if self._is_head:
            paint_hours(painter, box, scale, look=(self.font(), colours))
        else:
            paint_ground(painter, box, scale, colours)
        if self._window is not None:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_window(painter, box, scale, self._window, colours)
        painter.end()

    def sizeHint(self) -> QSize:
        return _Lane(self)

    def minimumSizeHint(self) -> QSize:
        return _Lane(self)
