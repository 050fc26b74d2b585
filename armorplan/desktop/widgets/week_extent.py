"""The margins around the week: the heading above, the names of the lanes at the left, the scroll."""

from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QAbstractScrollArea, QWidget

from armorplan.app.week_rows import Week
from armorplan.desktop.week_geometry import WeekGeometry
from armorplan.desktop.week_words import lane_lines
from armorplan.desktop.widgets.week_air import air_px, air_range

FIRST_PX_AN_HOUR = 20.0
_MEASURED = 8
"""Of many names so many of the longest ones are measured."""
NAMES_SHARE, LEAST_NAMES_PX = 0.28, 90.0
"""The names of the lanes take at most this share of the width, and may take this much."""


class WeekExtent(QAbstractScrollArea):
    """Holds the geometry of a week, and how much room stands around it."""

    def __init__(self, week: Week, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._week = week
        self._px_an_hour = FIRST_PX_AN_HOUR
        self._geometry = self._lay_out()
        self._names_px = self._widest_name()

    def _lay_out(self, former: WeekGeometry | None = None) -> WeekGeometry:
        text_px = float(self.fontMetrics().height())
        return WeekGeometry(
            week=self._week,
            px_an_hour=self._px_an_hour,
            text_px=text_px,
            former=former,
        )

    @property
    def geometry_now(self) -> WeekGeometry:
        """Where everything lies at the present zoom."""
        return self._geometry

    def heading_px(self) -> float:
        """Return how tall the days and hours along the top are, with the air below them."""
        return 2.0 * self.fontMetrics().height() + 10 + self.strip_px()

    def strip_px(self) -> float:
        """Return how tall the strip of the air is; 0 where the air is always the same."""
        return air_px(float(self.fontMetrics().height())) if self._week.air else 0.0

    def margin_px(self) -> float:
        """Return how wide the lanes' names on the left are."""
        return min(self._names_px, max(self.viewport().width() * NAMES_SHARE, LEAST_NAMES_PX))

    def _widest_name(self) -> float:
        zone, metrics = self._geometry.zone, self.fontMetrics()
        names = {self.air_name()}
        for lane in self._week.lanes:
            stamp = f"{lane.tag}MM" if lane.tag else ""
            names |= {stamp + lane.name, *lane_lines(lane, zone)}
        longest = sorted(names, key=len)[-_MEASURED:]
        return max(metrics.horizontalAdvance(name) for name in longest) + 20.0

    def air_name(self) -> str:
        """Return what the strip of the air is called, with its range; empty where there is none."""
        air = self._week.air
        return self.tr("Air {range}").format(range=air_range(air)) if air else ""

    def _set_scroll(self) -> None:
        view = self.viewport().size()
        wide = self._geometry.width + self.margin_px() - view.width()
        deep = self._geometry.height + self.heading_px() - view.height()
        for bar, most, page in (
            (self.horizontalScrollBar(), wide, view.width()),
            (self.verticalScrollBar(), deep, view.height()),
        ):
            bar.setRange(0, max(0, round(most)))
            bar.setPageStep(page)
            bar.setSingleStep(round(self._px_an_hour / 2))

    def _offset(self) -> QPointF:
        """Return where the first midnight, below the heading, lies in the viewport."""
        across, down = self.horizontalScrollBar().value(), self.verticalScrollBar().value()
        return QPointF(self.margin_px() - across, self.heading_px() - down)
