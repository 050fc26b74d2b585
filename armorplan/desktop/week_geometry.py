"""The week in pixels: every block's rectangle, every instant's place, at one zoom."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from PySide6.QtCore import QPointF, QRectF

from armorplan.app.week_rows import Week
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.week_layout import S_AN_HOUR, Block, Lane, lanes, span

LANE_GAP_PX = 12.0
ROW_GAP_PX = 9.0
"""Room for the line of a window above a block and for the stitches of what was promised below it."""
STRAP_PX = 11.0
LEAST_PX = 5.0
"""A block is drawn at least this wide."""
REACH_PX = 12.0
"""Half of the least target size (WCAG 2.2, success criterion 2.5.8: 24 px)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekGeometry:
    """A week at a zoom. Coordinates start at the first midnight and below the heading.

    ``former`` is how it lay before: bars stay in their rows where they can.
    """

    week: Week
    px_an_hour: float
    text_px: float
    former: "WeekGeometry | None" = None
    zone: tzinfo = field(init=False)
    lanes: tuple[Lane, ...] = field(init=False)
    origin_at: datetime = field(init=False)
    end_at: datetime = field(init=False)
    tops: tuple[float, ...] = field(init=False)
    boxes: Mapping[str, QRectF] = field(init=False)
    blocks: Mapping[str, Block] = field(init=False)

    def __post_init__(self) -> None:
        """Lay everything out once."""
        zone = ZoneInfo(self.week.zone)
        origin_at, end_at = span(self.week, zone)
        laid = lanes(self.week, self.px_an_hour, self._kept())
        found: dict[str, object] = {
            "former": None,
            "zone": zone,
            "lanes": laid,
            "origin_at": origin_at,
            "end_at": end_at,
        }
        for name, value in found.items():
            object.__setattr__(self, name, value)
        tops, top = [], LANE_GAP_PX
        boxes: dict[str, QRectF] = {}
        for lane in laid:
            tops.append(top)
            rows = self.row_tops(lane, top)
            for block in lane.blocks:
                boxes[block.key] = self._box(lane, rows[block.row], block)
            top = rows[-1] + self.foot_px(lane) + LANE_GAP_PX
        object.__setattr__(self, "tops", (*tops, top))
        blocks = {block.key: block for lane in laid for block in lane.blocks}
        object.__setattr__(self, "blocks", blocks)
        object.__setattr__(self, "boxes", boxes)

    def _kept(self) -> Mapping[str, int]:
        if self.former is None or self.former.week.by is not self.week.by:
            return {}
        return {bar.key: b.row for b in self.former.blocks.values() for bar in b.bars}

    def row_tops(self, lane: Lane, top: float) -> tuple[float, ...]:
        """Return where each row of a lane begins, and where the last one ends."""
        tops = [top]
        for row in range(lane.rows):
            tops.append(tops[-1] + self.row_px(lane, row) + ROW_GAP_PX)
        return tuple(tops)

    def row_px(self, lane: Lane, row: int = 0) -> float:
        """Return how tall a row of a lane is: title and clock, or on a rail the title alone."""
        return self.text_px + 12 if row in lane.rails else 2 * self.text_px + 12

    def foot_px(self, lane: Lane) -> float:
        """Return how tall the strap of taken hours, or of time to spare, at a lane's foot is."""
        return self.text_px + STRAP_PX + 5 if lane.of.loads or lane.of.due_at else 0.0

    def _box(self, lane: Lane, y: float, block: Block) -> QRectF:
        left, right = self.x(block.start_at), self.x(block.end_at)
        return QRectF(left, y, max(right - left - 1, LEAST_PX), self.row_px(lane, block.row))

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
        x, y = spot.x(), spot.y()
        for candidate, box in self.boxes.items():
            aside = max(box.left() - x, x - box.right(), 0.0)
            if aside < best:
                away = max(aside, box.top() - y, y - box.bottom())
                if away < best:
                    best, key = away, candidate
        return key

    def key_of_step(self, step: str) -> str:
        """Return the block that holds a step; empty where the week does not show it."""
        return next((key for key, block in self.blocks.items() if step in block.steps), "")

    def key_of_bar(self, bar: str) -> str:
        """Return the block that holds a bar; empty where there is none such."""
        if bar in self.blocks:
            return bar
        held = (k for k, block in self.blocks.items() if any(b.key == bar for b in block.bars))
        return next(held, "")
