"""Weekly hours as windows of minutes from an origin, right across changes of the clock."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from math import ceil, floor
from zoneinfo import ZoneInfo

from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Worker
from armorplan.workshop.calendar import Holidays, Stretch
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import Person, Shop, Wearer

_MINUTE_S = 60


def worker_windows(
    person: Person, zone: str, origin_at: datetime, horizon_min: int
) -> tuple[Window, ...]:
    """Return when a person works: minutes from the origin, ascending, apart, within the horizon.

    Absences and extra hours are theirs; closing days are the shop's, see ``ShopCalendar``.
    Hours are the shop's local time; on a day the clock changes, a stretch across the change is
    an hour shorter or longer. An opening that ends at or before its start ends on the next day.
    Minutes are counted inwards, so nothing lies outside the hours.
    """
    shop = Shop(people=(person,), zone=zone)
    return ShopCalendar(shop, origin_at, horizon_min).of_person(person)


def weekly_windows(
    hours: Iterable[Opening], zone: str, origin_at: datetime, horizon_min: int
) -> tuple[Window, ...]:
    """Return weekly hours as windows, see ``worker_windows``."""
    local, weekly = ZoneInfo(zone), tuple(hours)
    found = [
        _stretch(day, opening, local, origin_at)
        for day in _days(local, origin_at, horizon_min)
        for opening in weekly
        if opening.weekday == day.weekday()
    ]
    return merged((max(0, start), min(horizon_min, end)) for start, end in found)


class ShopCalendar:
    """Turns the hours of one shop into windows: weekly hours, closing days, absences, extra hours.

    Args:
        shop: people and places, with their days off.
        origin_at: minutes count from here.
        horizon_min: nothing lies beyond.
    """

    def __init__(self, shop: Shop, origin_at: datetime, horizon_min: int) -> None:
        self._shop = shop
        self._origin_at = origin_at
        self._horizon_min = horizon_min
        self._closed = merged((*self._of(shop.closed, outward=True), *self._holidays()))

    def of_person(self, person: Person) -> tuple[Window, ...]:
        """Return when a person works: extra hours on closing days too, and never while away."""
        usual = without(self._weekly(person.hours), self._closed)
        here = merged((*usual, *self._of(person.extra)))
        return without(here, merged(self._of(person.away, outward=True)))

    def of_place(self, hours: Iterable[Opening]) -> tuple[Window, ...]:
        """Return when a place with hours of its own may be used: it is shut on closing days."""
        return without(self._weekly(hours), self._closed)

    def of_wearer(self, wearer: Wearer) -> tuple[Window, ...]:
        """Return when a wearer comes: by appointment on closing days too."""
        weekly = without(self._weekly(wearer.hours), self._closed)
        return merged((*weekly, *self._of(wearer.appointments)))

    def _weekly(self, hours: Iterable[Opening]) -> tuple[Window, ...]:
        return weekly_windows(hours, self._shop.zone, self._origin_at, self._horizon_min)

    def _of(self, stretches: Iterable[Stretch], *, outward: bool = False) -> Iterator[Window]:
        """Yield stretches in whole minutes, counted inwards, or outwards for what is shut."""
        up, down = (floor, ceil) if outward else (ceil, floor)
        for stretch in stretches:
            start = (stretch.start_at - self._origin_at).total_seconds() / _MINUTE_S
            end = (stretch.end_at - self._origin_at).total_seconds() / _MINUTE_S
            yield max(0, up(start)), min(self._horizon_min, down(end))

    def _holidays(self) -> Iterator[Window]:
        if self._shop.holidays is not None:
            local = ZoneInfo(self._shop.zone)
            for day in _days(local, self._origin_at, self._horizon_min):
                if _is_holiday(self._shop.holidays, day):
                    start = floor(_minutes(day, time(0), local, self._origin_at))
                    end = ceil(_minutes(day + timedelta(days=1), time(0), local, self._origin_at))
                    yield max(0, start), min(self._horizon_min, end)


@lru_cache(maxsize=2048)
def _is_holiday(holidays: Holidays, day: date) -> bool:
    return bool(holidays.on(day))


def _days(local: ZoneInfo, origin_at: datetime, horizon_min: int) -> list[date]:
    first = origin_at.astimezone(local).date() - timedelta(days=1)
    last = (origin_at + timedelta(minutes=horizon_min)).astimezone(local).date()
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]


def without(windows: Iterable[Window], gaps: Sequence[Window]) -> tuple[Window, ...]:
    """Return what is left of windows without some gaps; both ascending and apart."""
    left: list[Window] = []
    for start, end in windows:
        since = start
        for shut_from, shut_till in gaps:
            if shut_till <= since:
                continue
            if shut_from >= end:
                break
            left.append((since, min(shut_from, end)))
            since = max(since, shut_till)
        left.append((since, end))
    return merged(left)


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
