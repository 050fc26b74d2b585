"""Closing days, absences, extra hours and appointments as windows, across changes of the clock."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.schedule.calendars import ShopCalendar, merged, without, worker_windows
from armorplan.workshop.calendar import Holidays, Stretch
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import Person, Shop, Wearer

DAY = 24 * 60
LISBON, NEW_YORK = "Europe/Lisbon", "America/New_York"
ALWAYS = tuple(
    opening
    for day in range(7)
    for opening in (
        Opening(weekday=day, start=time(0), end=time(12)),
        Opening(weekday=day, start=time(12), end=time(0)),
    )
)


def person(hours=ALWAYS, **more):
    return Person(id="m", name="Maker", hours=hours, **more)


def instant(zone, *when):
    return datetime(*when, tzinfo=ZoneInfo(zone)).astimezone(UTC)


def stretch(zone, start, end):
    return Stretch(start_at=instant(zone, *start), end_at=instant(zone, *end))


def windows(worker, zone=LISBON, *, start=(2026, 12, 7), days=3, **shop):
    calendar = ShopCalendar(
        Shop(people=(worker,), zone=zone, **shop), instant(zone, *start), days * DAY
    )
    return calendar.of_person(worker)


def test_closing_days_absences_and_extra_hours():
    mornings = tuple(Opening(weekday=day, start=time(9), end=time(12)) for day in range(7))
    extra = stretch(LISBON, (2026, 12, 8, 18), (2026, 12, 8, 20))
    away = stretch(LISBON, (2026, 12, 9, 10), (2026, 12, 9, 11))
    closed = stretch(LISBON, (2026, 12, 8), (2026, 12, 9))
    assert windows(person(mornings, extra=(extra,), away=(away,)), closed=(closed,)) == (
        (540, 720),
        (DAY + 1080, DAY + 1200),
        (2 * DAY + 540, 2 * DAY + 600),
        (2 * DAY + 660, 2 * DAY + 720),
    )


def test_who_is_away_does_no_extra_hours():
    evening = stretch(LISBON, (2026, 12, 8, 18), (2026, 12, 8, 20))
    ill = stretch(LISBON, (2026, 12, 8), (2026, 12, 9))
    assert windows(person((), extra=(evening,), away=(ill,))) == ()


def test_a_person_asked_without_a_shop_is_away_all_the_same():
    mornings = tuple(Opening(weekday=day, start=time(9), end=time(12)) for day in range(7))
    away = stretch(LISBON, (2026, 12, 8), (2026, 12, 9))
    origin_at = instant(LISBON, 2026, 12, 7)
    found = worker_windows(person(mornings, away=(away,)), LISBON, origin_at, 3 * DAY)
    assert found == ((540, 720), (2 * DAY + 540, 2 * DAY + 720))


def test_public_holidays_are_closed():
    # 8 December is a national holiday in Portugal (Código do Trabalho, art. 234).
    assert windows(person(), holidays=Holidays(country="PT")) == ((0, DAY), (2 * DAY, 3 * DAY))


def test_seconds_count_inwards_for_work_and_outwards_for_absence():
    start_at = instant(LISBON, 2026, 12, 7, 10) + timedelta(seconds=20)
    end_at = instant(LISBON, 2026, 12, 7, 11) + timedelta(seconds=20)
    odd = Stretch(start_at=start_at, end_at=end_at)
    assert windows(person((), extra=(odd,)), days=1) == ((601, 660),)
    assert windows(person(away=(odd,)), days=1) == ((0, 600), (661, DAY))


def test_a_wearer_comes_weekly_and_by_appointment():
    captain = Wearer(
        id="w",
        name="Captain",
        hours=(Opening(weekday=1, start=time(16), end=time(17)),),
        appointments=(stretch(LISBON, (2026, 12, 8, 9), (2026, 12, 8, 10)),),
    )
    closed = (stretch(LISBON, (2026, 12, 8), (2026, 12, 9)),)
    origin_at = instant(LISBON, 2026, 12, 7)
    shop = Shop(people=(), zone=LISBON, wearers=(captain,))
    assert ShopCalendar(shop, origin_at, 3 * DAY).of_wearer(captain) == (
        (DAY + 540, DAY + 600),
        (DAY + 960, DAY + 1020),
    )
    shut = Shop(people=(), zone=LISBON, wearers=(captain,), closed=closed)
    assert ShopCalendar(shut, origin_at, 3 * DAY).of_wearer(captain) == ((DAY + 540, DAY + 600),)


@pytest.mark.parametrize(
    ("zone", "day", "hours"),
    [
        # Directive 2000/84/EC: last Sunday of March and of October, at 01:00 UTC.
        (LISBON, date(2027, 3, 28), 23),
        (LISBON, date(2026, 10, 25), 25),
        # 15 U.S.C. 260a: second Sunday of March, first Sunday of November, at 02:00 local time.
        (NEW_YORK, date(2027, 3, 14), 23),
        (NEW_YORK, date(2026, 11, 1), 25),
        (NEW_YORK, date(2026, 10, 25), 24),
    ],
)
def test_days_on_which_the_clock_changes(zone, day, hours):
    """A shop open day and night works as long as the day has hours, and a day off takes all of them."""
    before = day - timedelta(days=1)
    origin_at = datetime.combine(before, time(0), tzinfo=ZoneInfo(zone)).astimezone(UTC)
    start = datetime.combine(day, time(0), tzinfo=ZoneInfo(zone)).astimezone(UTC)
    end = datetime.combine(day + timedelta(days=1), time(0), tzinfo=ZoneInfo(zone)).astimezone(UTC)
    sunday = tuple(o for o in ALWAYS if o.weekday == day.weekday())
    shop = Shop(people=(), zone=zone)
    on = ShopCalendar(shop, origin_at, 4 * DAY).of_person(person(sunday))
    assert sum(b - a for a, b in on) == hours * 60
    off = Stretch(start_at=start, end_at=end)
    shut = Shop(people=(), zone=zone, closed=(off,))
    left = ShopCalendar(shut, origin_at, 4 * DAY).of_person(person())
    assert sum(b - a for a, b in left) == 4 * DAY - hours * 60


@given(
    zone=st.sampled_from((LISBON, NEW_YORK)),
    day=st.dates(date(2026, 1, 1), date(2027, 12, 31)),
    hour=st.integers(6, 20),
    hours=st.integers(1, 3),
)
def test_hours_by_day_are_what_the_clock_on_the_wall_shows(zone, day, hour, hours):
    """Whatever the clock did at night: open from the hour told, for as long as told."""
    opening = Opening(weekday=day.weekday(), start=time(hour), end=time(hour + hours))
    start_at = datetime.combine(day, time(0), tzinfo=ZoneInfo(zone)) - timedelta(days=2)
    origin_at = start_at.astimezone(UTC)
    shop = Shop(people=(), zone=zone)
    ((start, end),) = ShopCalendar(shop, origin_at, 5 * DAY).of_person(person((opening,)))
    opened = (origin_at + timedelta(minutes=start)).astimezone(ZoneInfo(zone))
    assert (opened.date(), opened.hour, opened.minute) == (day, hour, 0)
    assert end - start == hours * 60


SPANS = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=6).map(merged)


@given(SPANS, SPANS)
def test_what_is_left_of_windows_minute_by_minute(one, other):
    left = {m for a, b in without(one, other) for m in range(a, b)}
    assert left == {m for a, b in one for m in range(a, b)} - {
        m for a, b in other for m in range(a, b)
    }
