"""The drawing of the week, and the keys and mouse on it."""

from datetime import datetime

from PySide6.QtCore import QElapsedTimer, QEvent, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from armorplan.app.week_rows import Week
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.week_painting import paint_chart
from armorplan.desktop.widgets.week_room import WeekRoom
from armorplan.desktop.widgets.week_sheet import Frame, Sheet

REST_MS = 1200
"""A pointer that has not moved for so long is not about to click."""
_DAYS = {Qt.Key.Key_1: 1, Qt.Key.Key_7: 7}


class WeekCanvas(WeekRoom):
    """Shows a ``week_rows.Week``. A key of the picture is the first bar of a block.

    ``typed`` carries a letter that is for the view; ``opened`` the block that was clicked twice.
    """

    typed = Signal(str)
    opened = Signal(str)

    def __init__(self, week: Week, parent: QWidget | None = None) -> None:
        super().__init__(week, parent)
        self._chosen: frozenset[str] = frozenset()
        self._opened = False
        self._compares = False
        self._open_build = ""
        self._moved = QElapsedTimer()

    def show_week(self, week: Week, open_build: str = "") -> None:
        """Take new rows; the instant at the left edge and the zoom stay."""
        left_at = self._geometry.instant(self.margin_px() - self._offset().x())
        self._open_build = open_build
        self._week = week
        self._now_at = week.now_at
        self._names_px = self._widest_name()
        self._renew(keeps_rows=True)
        across = self.horizontalScrollBar()
        across.setValue(round(self._geometry.x(left_at)))

    def show_now(self, now_at: datetime) -> None:
        """Move the line of the present."""
        self._now_at = now_at
        self.viewport().update()

    def light(self, steps: frozenset[str]) -> None:
        """Light the blocks that hold these steps."""
        self._chosen = steps
        self.viewport().update()

    def compare(self, wanted: bool) -> None:
        """Draw where things lay as promised, or leave that out."""
        self._compares = wanted
        self.viewport().update()

    def is_pointed_at(self) -> bool:
        """Tell whether the pointer is on the move over the bars, or a drag is under way."""
        on_the_move = self._moved.isValid() and self._moved.elapsed() < REST_MS
        return self.viewport().underMouse() and on_the_move

    # --- events -----------------------------------------------------------------------------

    def sheet(self) -> Sheet:
        """Return what the painting needs to know now."""
        offset, margin, geometry = self._offset(), self.margin_px(), self._geometry
        start_at = geometry.instant(margin - offset.x())
        return Sheet(
            geometry=geometry,
            colours=colours_of(self.palette()),
            font=self.font(),
            seen=(start_at, geometry.instant(self.viewport().width() - offset.x())),
            deep=(-offset.y(), self.viewport().height() - offset.y()),
            chosen=self._chosen,
            closed=self.tr("closed"),
            air=self.air_name(),
            change=self.tr("change"),
            open_build=self._open_build,
            compares=self._compares,
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        clock = f"{self._now_at.astimezone(self._geometry.zone):%H:%M}"
        frame = Frame(
            size=self.viewport().size(),
            offset=self._offset(),
            margin_px=self.margin_px(),
            heading_px=self.heading_px(),
            air_px=self.strip_px(),
            now=(self._now_at, self.tr("now {clock}").format(clock=clock)),
            ring=self.hands.here if self.hasFocus() else "",
        )
        painter = QPainter(self.viewport())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_chart(painter, self.sheet(), frame)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._set_scroll()
        if not self._opened:
            self._opened = True
            self.open_at_now()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._names_px = self._widest_name()
            self._renew()
        elif event.type() == QEvent.Type.PaletteChange:
            self.viewport().update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if event.modifiers() not in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
        ):
            self.hands.key_press(event)
        elif key in _DAYS:
            self.show_days(_DAYS[key])
        elif key in (Qt.Key.Key_L, Qt.Key.Key_C, Qt.Key.Key_O):
            self.typed.emit(event.text().lower())
        else:
            self.hands.key_press(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.hands.focus_in(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.show_ring()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._moved.start()
        self.hands.mouse_move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_release(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        key = self.key_at(event.position().toPoint())
        if key:
            self.opened.emit(key)
