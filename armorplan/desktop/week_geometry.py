"""The coming days in pixels: every block's rectangle, every instant's place, at one zoom."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from PySide6.QtCore import QPointF, QRectF

from armorplan.app.rows import Chart
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.week_layout import S_AN_HOUR, Block, Lane, lanes, span

LANE_GAP_PX = 12.0
ROW_GAP_PX = 5.0
LEAST_PX = 5.0
"""A block is drawn at least this wide."""
REACH_PX = 12.0
"""Half of the least target size (WCAG 2.2, success criterion 2.5.8: 24 px)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekGeometry:
    """A chart at a zoom. Coordinates start at the first midnight and below the heading."""

    chart: Chart
    px_an_hour: float
    text_px: float
    zone: tzinfo = field(init=False)
    lanes: tuple[Lane, ...] = field(init=False)
    origin_at: datetime = field(init=False)
    end_at: datetime = field(init=False)
    tops: tuple[float, ...] = field(init=False)
    boxes: Mapping[str, QRectF] = field(init=False)
    blocks: Mapping[str, Block] = field(init=False)

    def __post_init__(self) -> None:
        """Lay everything out once."""
        zone = ZoneInfo(self.chart.zone)
        origin_at, end_at = span(self.chart, zone)
        laid = lanes(self.chart, self.px_an_hour)
        tops, top = [], LANE_GAP_PX
        for lane in laid:
            tops.append(top)
            top += lane.rows * (self.row_px(lane) + ROW_GAP_PX) + LANE_GAP_PX
        found = {
            "zone": zone,
            "lanes": laid,
            "origin_at": origin_at,
            "end_at": end_at,
            "tops": (*tops, top),
        }
        for name, value in found.items():
            object.__setattr__(self, name, value)
        blocks = {block.key: block for lane in laid for block in lane.blocks}
        boxes = {
            block.key: self._box(lane, lane_top, block)
            for lane, lane_top in zip(laid, tops, strict=True)
            for block in lane.blocks
        }
        object.__setattr__(self, "blocks", blocks)
        object.__setattr__(self, "boxes", boxes)

    def row_px(self, lane: Lane) -> float:
        """Return how tall a row of a lane is: title and clock, or for drying the title alone."""
        return self.text_px + 12 if lane.drying else 2 * self.text_px + 12

    def _box(self, lane: Lane, top: float, block: Block) -> QRectF:
        left, right = self.x(block.start_at), self.x(block.end_at)
        row = self.row_px(lane)
        y = top + block.row * (row + ROW_GAP_PX)
        return QRectF(left, y, max(right - left - 1, LEAST_PX), row)

    def x(self, at: datetime) -> float:
        """Return where an instant lies."""
        return (at - self.origin_at).total_seconds() / S_AN_HOUR * self.px_an_hour

    def instant(self, x: float) -> datetime:
        """Return the instant at a place."""
        return self.origin_at + timedelta(hours=x / self.px_an_hour)

    @property
    def width(self) -> float:
        """Pixels from the first midnight to the last."""
        return self.x(self.end_at)

    @property
    def height(self) -> float:
        """Pixels from the heading down to the end of the last lane."""
        return self.tops[-1]

    def places(self) -> dict[str, Place]:
        """Return the middle of every block, in the order of time through all lanes."""
        order = sorted(self.blocks, key=lambda key: (self.blocks[key].start_at, key))
        return {key: (self.boxes[key].center().x(), self.boxes[key].center().y()) for key in order}

    def key_near(self, spot: QPointF) -> str:
        """Return the block at a place, or the nearest within reach; empty where there is none."""
        best, key = REACH_PX, ""
        for candidate, box in self.boxes.items():
            aside = max(box.left() - spot.x(), spot.x() - box.right(), 0.0)
            away = max(box.top() - spot.y(), spot.y() - box.bottom(), 0.0)
            if max(aside, away) < best:
                best, key = max(aside, away), candidate
        return key

    def key_of_step(self, step: str) -> str:
        """Return the block that holds a step; empty where the chart does not show it."""
        return next((key for key, block in self.blocks.items() if step in block.steps), "")
