"""How much of each person's hours is taken, day by day."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime, timedelta, tzinfo

from armorplan.app.week_bars import gaps
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_rows import DayLoad
from armorplan.schedule.activity import Window
from armorplan.schedule.company import everybody
from armorplan.schedule.problem import Worker


def loads_of(facts: WeekFacts, worker: Worker, zone: tzinfo) -> tuple[DayLoad, ...]:
    """Return a person's days up to the last that the plan needs, each with its hours and those taken."""
    busy = sorted(_busy(facts, worker))
    last_min = max((p.end_min for p in facts.placed.values()), default=0)
    days: dict[object, list[Window]] = defaultdict(list)
    for window in worker.windows:
        if window[0] < last_min:
            for day, part in _by_day(facts, window, zone):
                days[day].append(part)
    return tuple(_load(facts, windows, busy) for windows in days.values())


def _load(facts: WeekFacts, windows: list[Window], busy: list[Window]) -> DayLoad:
    return DayLoad(
        start_at=facts.at(windows[0][0]),
        end_at=facts.at(windows[-1][1]),
        there_min=sum(end - start for start, end in windows),
        taken_min=sum(_taken(window, busy) for window in windows),
    )


def _taken(window: Window, busy: list[Window]) -> int:
    """Return how many minutes of a window are not free."""
    free = sum(end - start for start, end in gaps(tuple(busy), window))
    return window[1] - window[0] - free


def _busy(facts: WeekFacts, worker: Worker) -> Iterator[Window]:
    for placed in facts.placed.values():
        there = worker.id in everybody(facts.activities[placed.id], placed)
        if there and placed.start_min < placed.end_min:
            yield placed.start_min, placed.end_min


def _by_day(facts: WeekFacts, window: Window, zone: tzinfo) -> Iterator[tuple[object, Window]]:
    """Yield a window cut at local midnights, each part with its day."""
    start, end = window
    while start < end:
        local = facts.at(start).astimezone(zone)
        until = min(end, start + _till_midnight(local))
        yield local.date(), (start, until)
        start = until


def _till_midnight(local: datetime) -> int:
    day = local.date() + timedelta(days=1)
    midnight = datetime(day.year, day.month, day.day, tzinfo=local.tzinfo)
    # Clocks may be changed in between: instants are subtracted, not local times.
    return max(1, round(midnight.timestamp() - local.timestamp()) // 60)
