"""What lies in baths, hangs on racks and takes places, with how much of them is taken."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime

from armorplan.app.lane_names import bath_lane, place_lane
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_rows import BarKind, LaneKind, WeekBar, WeekLane
from armorplan.schedule.activity import Window
from armorplan.schedule.calendars import closed_windows
from armorplan.schedule.problem import Bath, Hold, Resource, Worker


def place_bars(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> tuple[WeekBar, ...]:
    """Return bars for dips in their baths, for what hangs, and for what takes a place at work."""
    by_key = {bar.key: bar for bar in bars}
    found = [bar for bar in bars if bar.key in facts.placed]
    laid = [place for bar in found for place in _taken_by(facts, bar)]
    holds = facts.problem.holds if facts.problem else ()
    laid += [bar for hold in holds if (bar := _hanging(facts, hold, by_key)) is not None]
    return tuple(sorted(laid, key=lambda bar: (bar.start_at, bar.end_at, bar.key)))


def _taken_by(facts: WeekFacts, bar: WeekBar) -> Iterator[WeekBar]:
    activity, way = facts.activities[bar.key], facts.way(facts.placed[bar.key])
    if activity.dip is not None and way is not None and way.bath:
        lane = bath_lane(way.bath)
        yield replace(bar, lane=lane, key=f"{bar.key}@{lane}", amount=activity.dip.amount)
    for demand in (*activity.demands, *(way.demands if way else ())):
        lane = place_lane(demand.resource)
        yield replace(bar, lane=lane, key=f"{bar.key}@{lane}", amount=demand.amount)


def _hanging(facts: WeekFacts, hold: Hold, bars: dict[str, WeekBar]) -> WeekBar | None:
    """Return the bar of what hangs from the end of one step to the start of the last of others."""
    until = [bars[i].start_at for i in hold.until if i in bars]
    if hold.first not in bars or not until:
        return None
    first = bars[hold.first]
    start_at, end_at = first.end_at, max(until)
    if end_at <= start_at:
        return None
    dries = [bars[i] for i in facts.dries_after.get(hold.first, ()) if i in bars]
    free_at = max((bar.end_at for bar in dries), default=None)
    lane = place_lane(hold.resource)
    return replace(
        first,
        key=f"{first.key}@{lane}",
        kind=BarKind.HANGS,
        lane=lane,
        who="",
        start_at=start_at,
        end_at=end_at,
        free_at=free_at if free_at is not None and start_at < free_at < end_at else None,
        surely_at=None,
        note=next((bar.note for bar in dries if bar.note), ""),
        state=dries[0].state if dries else first.state,
        rests=(),
        window=None,
        promised=None,
        amount=hold.amount,
    )


def place_lanes(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> tuple[WeekLane, ...]:
    """Return the lanes of all baths, then of all places."""
    if facts.problem is None:
        return ()
    of_lane = defaultdict(list)
    for bar in bars:
        of_lane[bar.lane].append(bar)
    baths = [_bath(facts, bath) for bath in facts.problem.baths]
    places = [
        _place(facts, place, of_lane[place_lane(place.id)]) for place in facts.problem.resources
    ]
    return (*baths, *places)


def _bath(facts: WeekFacts, bath: Bath) -> WeekLane:
    return WeekLane(
        id=bath_lane(bath.id),
        name=facts.name(bath_lane(bath.id)),
        kind=LaneKind.BATH,
        capacity=bath.capacity,
        holds=bath.holds,
        change_min=bath.change_min,
    )


def _place(facts: WeekFacts, place: Resource, bars: list[WeekBar]) -> WeekLane:
    closed: tuple[Window, ...] = ()
    if place.windows is not None and facts.problem is not None:
        keeper = Worker(id=place.id, windows=place.windows)
        closed = closed_windows((keeper,), facts.problem.horizon_min)
    return WeekLane(
        id=place_lane(place.id),
        name=facts.name(place_lane(place.id)),
        kind=LaneKind.PLACE,
        closed=tuple(facts.stretch(window) for window in closed),
        capacity=place.capacity,
        most=most_taken(bars),
    )


def most_taken(bars: Iterable[WeekBar]) -> int:
    """Return the most that is taken at any time."""
    turns: list[tuple[datetime, int]] = []
    for bar in bars:
        turns += [(bar.start_at, bar.amount), (bar.end_at, -bar.amount)]
    most = now = 0
    for _, by in sorted(turns):
        now += by
        most = max(most, now)
    return most
