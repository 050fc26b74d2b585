"""What is shaded behind a drying: the night of the shop's air, or the hours it is closed."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta

from armorplan.drying.days import hours_of, usual_days
from armorplan.drying.track import cell_of, start_of
from armorplan.schedule.calendars import closed_windows, worker_windows
from armorplan.schedule.problem import Worker
from armorplan.sheets.drying_figure import Shades
from armorplan.workshop.air import Room
from armorplan.workshop.shop import Person

_FALLS_C = 2.0
"""Air that falls by less has no night to speak of."""
_MINUTE = timedelta(minutes=1)


def night_hours(room: Room) -> frozenset[int]:
    """Return the local hours of a usual day in which the air is nearer its coldest than its warmest.

    None where it hardly changes.
    """
    warm = [climate.temperature_c for climate in usual_days(room)]
    low, high = min(warm), max(warm)
    if high - low < _FALLS_C:
        return frozenset()
    return frozenset(hour for hour, value in enumerate(warm) if value < (low + high) / 2)


def shades_of(
    room: Room, people: Sequence[Person], start_at: datetime, until_at: datetime
) -> Shades:
    """Return the nights of the air between two instants; where it has none, the closed hours."""
    hours = night_hours(room)
    if hours:
        return Shades(word="night", spans=tuple(_nights(room, hours, (start_at, until_at))))
    minutes = -((start_at - until_at) // _MINUTE)
    workers = [
        Worker(id=each.id, windows=worker_windows(each, room.zone, start_at, minutes))
        for each in people
    ]
    if not workers:
        return Shades()
    closed = closed_windows(workers, minutes)
    spans = ((start_at + since * _MINUTE, start_at + until * _MINUTE) for since, until in closed)
    return Shades(word="closed", spans=tuple(spans))


def _nights(
    room: Room, hours: frozenset[int], span: tuple[datetime, datetime]
) -> Iterator[tuple[datetime, datetime]]:
    start_at, until_at = span
    first = cell_of(start_at)
    cells = cell_of(until_at) - first + 1
    since: datetime | None = None
    for at, hour in enumerate(hours_of(room.zone, first, cells)):
        begins_at = max(start_of(first + at), start_at)
        if hour in hours:
            since = since or begins_at
        elif since is not None:
            yield since, begins_at
            since = None
    if since is not None and since < until_at:
        yield since, until_at
