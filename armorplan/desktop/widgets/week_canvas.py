"""The drawing of the coming days, and the keys and mouse on it."""

from datetime import datetime

from PySide6.QtCore import QEvent
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import Chart
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.week_painting import paint_chart
from armorplan.desktop.widgets.week_room import WeekRoom
from armorplan.desktop.widgets.week_sheet import Frame, Sheet


class WeekCanvas(WeekRoom):
    """Shows a ``rows.Chart``. A key of the picture is the first step of a block."""

    def __init__(self, chart: Chart, parent: QWidget | None = None) -> None:
        super().__init__(chart, parent)
        self._chosen: frozenset[str] = frozenset()
        self._opened = False

    def show_chart(self, chart: Chart) -> None:
        """Take new rows, keeping zoom and place."""
        self._chart = chart
        self._now_at = chart.now_at
        self._renew()

    def show_now(self, now_at: datetime) -> None:
        """Move the line of the present."""
        self._now_at = now_at
        self.viewport().update()

    def light(self, steps: frozenset[str]) -> None:
        """Light the blocks that hold these steps."""
        self._chosen = steps
        self.viewport().update()

    # --- events -----------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        offset, margin, geometry = self._offset(), self.margin_px(), self._geometry
        size = self.viewport().size()
        start_at = geometry.instant(margin - offset.x())
        sheet = Sheet(
            geometry=geometry,
            colours=colours_of(self.palette()),
            font=self.font(),
            seen=(start_at, geometry.instant(size.width() - offset.x())),
            chosen=self._chosen,
            closed=self.tr("closed"),
            air=self.air_name(),
        )
        clock = f"{self._now_at.astimezone(geometry.zone):%H:%M}"
        frame = Frame(
            size=size,
            offset=offset,
            margin_px=margin,
            heading_px=self.heading_px(),
            air_px=self.strip_px(),
            now=(self._now_at, self.tr("now {clock}").format(clock=clock)),
            ring=self.hands.here if self.hasFocus() else "",
        )
        painter = QPainter(self.viewport())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_chart(painter, sheet, frame)
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
            self._renew()
        elif event.type() == QEvent.Type.PaletteChange:
            self.viewport().update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
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
        self.hands.mouse_move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_release(event)
