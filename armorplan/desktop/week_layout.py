"""Where the bars of the week lie: time across in pixels, lanes down, short bars together."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

from armorplan.app.rows import BenchState
from armorplan.app.trays import summed_state
from armorplan.app.week_rows import BarKind, LaneKind, Stretch, Week, WeekBar, WeekLane

LABEL_PX = 64.0
"""A bar narrower than this cannot say what it is, so it joins its neighbour of the same build."""
SPECK_PX = 12.0
"""One narrower than this joins its neighbour of whichever build."""
NEAR_PX = 7.0
S_AN_HOUR = 3600.0
_RAILED = (BarKind.DRIES, BarKind.HANGS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One bar, or several short ones in a row, as drawn. ``row`` counts down within its lane."""

    bars: tuple[WeekBar, ...]
    row: int
    start_at: datetime
    end_at: datetime
    state: BenchState

    @property
    def key(self) -> str:
        """A name for it that holds as long as it begins with the same bar."""
        return self.bars[0].key

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps it stands for."""
        return tuple(dict.fromkeys(bar.step for bar in self.bars))

    @property
    def attended(self) -> bool:
        """Tell whether a person does it."""
        return self.bars[0].attended

    @property
    def tags(self) -> tuple[str, ...]:
        """The letters of its builds, that of the build that is open here first."""
        ranked = sorted(self.bars, key=lambda bar: bool(bar.build))
        return tuple(dict.fromkeys(bar.tag for bar in ranked if bar.tag))

    @property
    def surely_at(self) -> datetime:
        """By when all of it is ready surely; its end where nothing more is known."""
        return max((self.end_at, *(bar.surely_at for bar in self.bars if bar.surely_at)))

    @property
    def note(self) -> str:
        """What it says beside its title: that of the bar which ends last."""
        return max(self.bars, key=lambda bar: (bar.end_at, bar.step)).note

    @property
    def promised(self) -> Stretch | None:
        """Where it lay as promised, from first to last; ``None`` where none of it has moved."""
        if not any(bar.is_moved for bar in self.bars):
            return None
        lay = [bar.promised for bar in self.bars if bar.promised]
        return min(start for start, _ in lay), max(end for _, end in lay)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """One lane: what it stands for, its blocks, and its rows; ``rails`` are the rows that hang."""

    of: WeekLane
    blocks: tuple[Block, ...]
    rows: int
    rails: frozenset[int] = frozenset()

    @property
    def name(self) -> str:
        """What it is called."""
        return self.of.name


@dataclass(frozen=True, slots=True, kw_only=True)
class _Near:
    """What is short, and what is near, at a zoom."""

    label: timedelta
    speck: timedelta
    gap: timedelta

    @classmethod
    def at(cls, px_an_hour: float) -> "_Near":
        label, speck, gap = (
            timedelta(hours=px / px_an_hour) for px in (LABEL_PX, SPECK_PX, NEAR_PX)
        )
        return cls(label=label, speck=speck, gap=gap)


Kept = Mapping[str, int]
"""In which row each bar lay before: it stays there where that is free."""


def lanes(week: Week, px_an_hour: float, kept: Kept | None = None) -> tuple[Lane, ...]:
    """Return the lanes of a week at a zoom; a lane without bars keeps one empty row."""
    of_lane: dict[str, list[WeekBar]] = {lane.id: [] for lane in week.lanes}
    for bar in week.bars:
        if bar.lane in of_lane:
            of_lane[bar.lane].append(bar)
    near = _Near.at(px_an_hour)
    return tuple(_lane(lane, of_lane[lane.id], near, kept or {}) for lane in week.lanes)


def _lane(lane: WeekLane, bars: list[WeekBar], near: _Near, kept: Kept) -> Lane:
    work = [bar for bar in bars if bar.kind is BarKind.WORK]
    railed = [bar for bar in bars if bar.kind in _RAILED]
    groups = _batches(work) if lane.kind is LaneKind.BATH else _together(work, near)
    hung = _together(railed, near)
    # People do one thing at a time: their one row needs no keeping.
    blocks, rows = _stacked(groups, 0, {})
    hanging, all_rows = _stacked(hung, rows, kept)
    is_rail = lane.kind is LaneKind.DRYING and not rows
    rows_px = max(all_rows, 1)
    rails = frozenset(range(0 if is_rail else rows, rows_px))
    return Lane(of=lane, blocks=(*blocks, *hanging), rows=rows_px, rails=rails)


def _stacked(
    groups: Iterable[list[WeekBar]], first_row: int, kept: Kept
) -> tuple[list[Block], int]:
    """Return groups as blocks in as few rows as hold them, and the row after the last.

    What lay in a row before stays in it where that is free; the rest leaves such rows alone.
    """
    told = [(group, kept.get(group[0].key, -1) - first_row) for group in groups]
    claimed = {before for _, before in told if before >= 0}
    blocks: list[Block] = []
    ends: dict[int, datetime] = {}
    for group, before in told:
        start_at, end_at = _span(group)
        row = before
        if row < 0 or (row in ends and ends[row] > start_at):
            row = _free_row(ends, claimed, start_at)
        ends[row] = end_at
        state = group[0].state if len(group) == 1 else summed_state(bar.state for bar in group)
        blocks.append(
            Block(
                bars=tuple(group),
                row=row + first_row,
                start_at=start_at,
                end_at=end_at,
                state=state,
            )
        )
    return blocks, first_row + max(ends, default=-1) + 1


def _free_row(ends: Mapping[int, datetime], claimed: set[int], start_at: datetime) -> int:
    row = 0
    while (row in ends and ends[row] > start_at) or (row in claimed and row not in ends):
        row += 1
    return row


def _span(group: list[WeekBar]) -> Stretch:
    if len(group) == 1:  # the usual case, and there may be thousands
        return group[0].start_at, group[0].end_at
    return min(bar.start_at for bar in group), max(bar.end_at for bar in group)


def _batches(bars: Iterable[WeekBar]) -> Iterator[list[WeekBar]]:
    """Yield what lies in a bath together."""
    batch: list[WeekBar] = []
    for bar in bars:
        if batch and (batch[0].start_at, batch[0].family) != (bar.start_at, bar.family):
            yield batch
            batch = []
        batch.append(bar)
    if batch:
        yield batch


def _together(bars: Iterable[WeekBar], near: _Near) -> Iterator[list[WeekBar]]:
    """Yield bars in groups: those too short for words with those that follow at once."""
    group: list[WeekBar] = []
    end_at: datetime | None = None
    for bar in bars:
        if group and end_at is not None and not _joins(group, end_at, bar, near):
            yield group
            group, end_at = [], None
        group.append(bar)
        end_at = bar.end_at if end_at is None else max(end_at, bar.end_at)
    if group:
        yield group


def _joins(group: list[WeekBar], end_at: datetime, bar: WeekBar, near: _Near) -> bool:
    first, last = group[0], group[-1]
    if bar.kind is not BarKind.WORK:
        return bar.start_at - first.start_at <= near.gap and abs(bar.end_at - end_at) <= near.gap
    if bar.start_at - end_at > near.gap or last.rests or bar.rests:
        return False
    if bar.family and (first.family, first.start_at) == (bar.family, bar.start_at):
        return True
    if (last.state is BenchState.DONE) is not (bar.state is BenchState.DONE):
        return False
    room = near.label if last.build == bar.build else near.speck
    return end_at - first.start_at < room or bar.end_at - bar.start_at < room


def span(week: Week, zone: tzinfo) -> tuple[datetime, datetime]:
    """Return the local midnights around everything the week shows, and the present."""
    return midnight(week.reach[0], zone), midnight(week.reach[1], zone, days=1)


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
    """Yield the local full hours that ``every_h`` divides, midnight left out; none at a day or more."""
    at = start_at.replace(minute=0, second=0, microsecond=0)
    while every_h < 24 and at <= end_at:  # noqa: PLR2004 - a day has no full hour but midnight
        local = at.astimezone(zone)
        if local.hour % every_h == 0 and local.hour and local.minute == 0:
            yield at
        at += timedelta(hours=1)


def hour_step(px_an_hour: float, label_px: float) -> int:
    """Return how many hours lie between two clock labels so that they keep apart."""
    fitting = (step for step in (1, 2, 3, 6, 12) if step * px_an_hour >= label_px)
    return next(fitting, 24)
