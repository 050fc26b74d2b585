"""Where the bars of the coming days lie: time across in pixels, lanes down, short bars together."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

from armorplan.app.rows import BenchState, Chart, ChartBar
from armorplan.app.trays import summed_state

LABEL_PX = 64.0
"""A bar narrower than this cannot say what it is, so it joins its neighbour."""
NEAR_PX = 7.0
S_AN_HOUR = 3600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One bar, or several short ones in a row, as drawn. ``row`` counts down within its lane."""

    bars: tuple[ChartBar, ...]
    row: int
    start_at: datetime
    end_at: datetime
    state: BenchState

    @property
    def key(self) -> str:
        """A name for it that holds as long as it begins with the same step."""
        return self.bars[0].step

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps it stands for."""
        return tuple(bar.step for bar in self.bars)

    @property
    def attended(self) -> bool:
        """Tell whether a person does it."""
        return self.bars[0].attended

    @property
    def surely_at(self) -> datetime:
        """By when all of it is ready surely; its end where nothing more is known."""
        return max((self.end_at, *(bar.surely_at for bar in self.bars if bar.surely_at)))

    @property
    def note(self) -> str:
        """What it says beside its title: that of the bar which ends last."""
        return max(self.bars, key=lambda bar: (bar.end_at, bar.step)).note


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """One lane: its name, its blocks, and how many rows they need beside each other."""

    name: str
    drying: bool
    blocks: tuple[Block, ...]
    rows: int


def lanes(chart: Chart, px_an_hour: float) -> tuple[Lane, ...]:
    """Return the lanes of a chart at a zoom; a lane without bars keeps one empty row."""
    return tuple(_lane(name, chart, px_an_hour) for name in chart.lanes)


def _lane(name: str, chart: Chart, px_an_hour: float) -> Lane:
    bars = sorted(
        (bar for bar in chart.bars if bar.lane == name),
        key=lambda bar: (bar.start_at, bar.end_at, bar.step),
    )
    blocks: list[Block] = []
    ends: list[datetime] = []
    for group in _together(bars, px_an_hour):
        start_at = min(bar.start_at for bar in group)
        end_at = max(bar.end_at for bar in group)
        row = next((i for i, end in enumerate(ends) if end <= start_at), len(ends))
        ends[row : row + 1] = [end_at]
        state = summed_state(bar.state for bar in group)
        blocks.append(
            Block(bars=tuple(group), row=row, start_at=start_at, end_at=end_at, state=state)
        )
    drying = bool(bars) and not any(bar.attended for bar in bars)
    return Lane(name=name, drying=drying, blocks=tuple(blocks), rows=max(len(ends), 1))


def _together(bars: Iterable[ChartBar], px_an_hour: float) -> Iterator[list[ChartBar]]:
    """Yield bars in groups: those too short for words with those that follow at once."""
    group: list[ChartBar] = []
    for bar in bars:
        if group and not _joins(group, bar, px_an_hour):
            yield group
            group = []
        group.append(bar)
    if group:
        yield group


def _joins(group: list[ChartBar], bar: ChartBar, px_an_hour: float) -> bool:
    start_at, end_at = group[0].start_at, max(other.end_at for other in group)
    if not bar.attended:
        near = _px(start_at, bar.start_at, px_an_hour) <= NEAR_PX
        return near and abs(_px(end_at, bar.end_at, px_an_hour)) <= NEAR_PX
    over = {group[-1].state, bar.state}
    if BenchState.DONE in over and len(over) > 1:
        return False
    short = min(_px(start_at, end_at, px_an_hour), _px(bar.start_at, bar.end_at, px_an_hour))
    return short < LABEL_PX and _px(end_at, bar.start_at, px_an_hour) <= NEAR_PX


def _px(start_at: datetime, end_at: datetime, px_an_hour: float) -> float:
    return (end_at - start_at).total_seconds() / S_AN_HOUR * px_an_hour


def span(chart: Chart, zone: tzinfo) -> tuple[datetime, datetime]:
    """Return the local midnights around everything the chart shows, and the present."""
    starts = [bar.start_at for bar in chart.bars] + [chart.now_at]
    ends = [max(bar.end_at, bar.surely_at or bar.end_at) for bar in chart.bars] + [chart.now_at]
    return midnight(min(starts), zone), midnight(max(ends), zone, days=1)


def midnight(at: datetime, zone: tzinfo, *, days: int = 0) -> datetime:
    """Return the midnight that starts the local day, or one ``days`` later, in UTC."""
    day = at.astimezone(zone).date() + timedelta(days=days)
    return datetime(day.year, day.month, day.day, tzinfo=zone).astimezone(UTC)


def midnights(start_at: datetime, end_at: datetime, zone: tzinfo) -> Iterator[datetime]:
    """Yield every local midnight from ``start_at`` to ``end_at``; a day may have 23 or 25 hours."""
    at, days = midnight(start_at, zone), 0
    while at <= end_at:
        yield at
        days += 1
        at = midnight(start_at, zone, days=days)


def hours(start_at: datetime, end_at: datetime, zone: tzinfo, every_h: int) -> Iterator[datetime]:
    """Yield the local full hours that ``every_h`` divides, midnight left out."""
    at = start_at.replace(minute=0, second=0, microsecond=0)
    while at <= end_at:
        local = at.astimezone(zone)
        if local.hour % every_h == 0 and local.hour and local.minute == 0:
            yield at
        at += timedelta(hours=1)


def hour_step(px_an_hour: float, label_px: float) -> int:
    """Return how many hours lie between two clock labels so that they keep apart."""
    fitting = (step for step in (1, 2, 3, 6, 12) if step * px_an_hour >= label_px)
    return next(fitting, 24)
