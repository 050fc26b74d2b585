"""The window over the coming days: scrolls by the hour, zooms from hours to days."""

from collections.abc import Mapping
from datetime import datetime, timedelta

from PySide6.QtCore import QPoint, QPointF, QSize, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QFrame, QWidget

from armorplan.app.week_rows import BarKind, Week
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.widgets.picture_hands import ZOOM_STEP, Hands
from armorplan.desktop.widgets.week_extent import WeekExtent

LEAST_PX_AN_HOUR = 0.5
MOST_PX_AN_HOUR = 900.0
FIRST_HOURS = 30.0
BEFORE_NOW_H = 1.5
QUIET_H = 4.0
"""Where nobody works for longer than this from now on, the week opens where work begins."""
GAP_PX = 10.0


class WeekRoom(WeekExtent):
    """Holds the part of a week that is in view, and moves it."""

    def __init__(self, week: Week, parent: QWidget | None = None) -> None:
        super().__init__(week, parent)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.viewport().setMouseTracking(True)
        self._now_at: datetime = week.now_at
        self.hands = Hands(self, self)

    def _renew(self, *, keeps_rows: bool = False) -> None:
        here = self.hands.here
        held = self._geometry.blocks.get(here)
        self._geometry = self._lay_out(self._geometry if keeps_rows else None)
        step = held.steps[0] if held else ""
        self.hands.keep(self._geometry.key_of_bar(here) or self._geometry.key_of_step(step))
        self._set_scroll()
        self.viewport().update()

    def zoom(self, factor: float, at_x: float | None = None) -> None:
        """Zoom in time, keeping the instant at a place (or what holds the ring) where it is."""
        if at_x is None:
            at_x = self._anchor_x()
        at = self._geometry.instant(at_x - self._offset().x())
        wanted = self._px_an_hour * factor
        self._px_an_hour = min(max(wanted, LEAST_PX_AN_HOUR), MOST_PX_AN_HOUR)
        self._renew()
        self.horizontalScrollBar().setValue(round(self._geometry.x(at) + self.margin_px() - at_x))

    def _anchor_x(self) -> float:
        middle = (self.viewport().width() + self.margin_px()) / 2
        if self.hands.here not in self._geometry.boxes:
            return middle
        x = self._geometry.boxes[self.hands.here].center().x() + self._offset().x()
        return x if self.margin_px() <= x <= self.viewport().width() else middle

    def fit(self) -> None:
        """Show all days at once."""
        hours = self._geometry.width / self._px_an_hour
        room = self.viewport().width() - self.margin_px()
        self._px_an_hour = min(max(room / hours, LEAST_PX_AN_HOUR), MOST_PX_AN_HOUR)
        self._renew()
        self.horizontalScrollBar().setValue(0)

    def show_days(self, days: int) -> None:
        """Zoom so that so many days fill the width, keeping what holds the ring or the middle."""
        room = max(self.viewport().width() - self.margin_px(), 100.0)
        self.zoom(room / (days * 24) / self._px_an_hour)

    def open_at_now(self) -> None:
        """Show the next day and a bit, beginning a little before the present, or before work does."""
        room = max(self.viewport().width() - self.margin_px(), 100.0)
        self._px_an_hour = room / FIRST_HOURS
        self._renew()
        x = self._geometry.x(self._opens_at()) - BEFORE_NOW_H * self._px_an_hour
        self.horizontalScrollBar().setValue(round(x))

    def _opens_at(self) -> datetime:
        """Return the present, or when hands-on work begins where that is hours away."""
        ahead = (
            bar.start_at
            for bar in self._week.bars
            if bar.kind is BarKind.WORK and bar.end_at > self._now_at
        )
        begins_at = min(ahead, default=self._now_at)
        is_quiet = begins_at - self._now_at > timedelta(hours=QUIET_H)
        return begins_at if is_quiet else self._now_at

    # --- walking ----------------------------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        """Return the middle of every block, in the order of time."""
        return self._geometry.places()

    def first(self) -> str:
        """Return the first block that is not yet past."""
        order = list(self._geometry.places())
        blocks = self._geometry.blocks
        ahead = (key for key in order if blocks[key].end_at > self._now_at)
        return next(ahead, order[-1] if order else "")

    def show_ring(self) -> None:
        """Draw the ring around what has the keys."""
        self.viewport().update()

    def reveal(self, key: str) -> None:
        """Bring a block into view, its start where it is wider than the view."""
        box = self._geometry.boxes[key].translated(self._offset())
        left, right = self.margin_px() + GAP_PX, self.viewport().width() - GAP_PX
        top, low = self.heading_px() + GAP_PX, self.viewport().height() - GAP_PX
        over = QPointF(
            _over(box.left(), box.right(), left, right), _over(box.top(), box.bottom(), top, low)
        )
        self.pan_by(over.toPoint())

    def pan_by(self, by: QPoint) -> None:
        """Move the window over the days by so many pixels."""
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() + by.x())
        down.setValue(down.value() + by.y())

    def key_at(self, spot: QPoint) -> str:
        """Return the block at a point of the viewport; empty where there is none."""
        if spot.x() < self.margin_px() or spot.y() < self.heading_px():
            return ""
        return self._geometry.key_near(QPointF(spot) - self._offset())

    def sizeHint(self) -> QSize:
        return QSize(640, 260)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turn = event.angleDelta()
        aside = turn.x() or (
            turn.y() if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 0
        )
        if aside:
            bar = self.horizontalScrollBar()
            bar.setValue(bar.value() - aside)
        else:
            self.zoom(ZOOM_STEP ** (turn.y() / 120), event.position().x())
        event.accept()


def _over(low: float, high: float, least: float, most: float) -> float:
    """Return how far a stretch reaches out of its room; its start counts where both ends do."""
    if low < least or high - low > most - least:
        return low - least
    return max(high - most, 0.0)
