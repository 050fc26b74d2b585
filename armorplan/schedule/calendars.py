"""Weekly hours as windows of minutes from an origin, right across changes of the clock."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from math import ceil, floor
from zoneinfo import ZoneInfo

from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Worker
from armorplan.workshop.shop import Opening, Person

_MINUTE_S = 60


def worker_windows(
    person: Person, zone: str, origin_at: datetime, horizon_min: int
) -> tuple[Window, ...]:
    """Return when a person works: minutes from the origin, ascending, apart, within the horizon.

    Hours are the shop's local time; on a day the clock changes, a stretch across the change is
    an hour shorter or longer. An opening that ends at or before its start ends on the next day.
    Minutes are counted inwards, so nothing lies outside the hours.
    """
    local = ZoneInfo(zone)
    first = origin_at.astimezone(local).date() - timedelta(days=1)
    last = (origin_at + timedelta(minutes=horizon_min)).astimezone(local).date()
    days = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    found = [
        _stretch(day, opening, local, origin_at)
        for day in days
        for opening in person.hours
        if opening.weekday == day.weekday()
    ]
    return merged((max(0, start), min(horizon_min, end)) for start, end in found)


def closed_windows(workers: Iterable[Worker], horizon_min: int) -> tuple[Window, ...]:
    """Return the stretches in which nobody works, from 0 to the horizon: nights, noons, Sundays."""
    closed = []
    since = 0
    for start, end in merged(w for worker in workers for w in worker.windows):
        if start > since:
            closed.append((since, start))
        since = max(since, end)
    if since < horizon_min:
        closed.append((since, horizon_min))
    return tuple(closed)


def merged(windows: Iterable[Window]) -> tuple[Window, ...]:
    """Return windows ascending, with those that touch or overlap as one and empty ones left out."""
    joined: list[Window] = []
    for start, end in sorted(w for w in windows if w[0] < w[1]):
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return tuple(joined)


def _stretch(day: date, opening: Opening, local: ZoneInfo, origin_at: datetime) -> Window:
    end_day = day if opening.end > opening.start else day + timedelta(days=1)
    start = _minutes(day, opening.start, local, origin_at)
    return ceil(start), floor(_minutes(end_day, opening.end, local, origin_at))


def _minutes(day: date, at: time, local: ZoneInfo, origin_at: datetime) -> float:
    # Through UTC: the difference of two local times ignores a change of the clock between them.
    instant = datetime.combine(day, at, tzinfo=local).astimezone(UTC)
    return (instant - origin_at).total_seconds() / _MINUTE_S
