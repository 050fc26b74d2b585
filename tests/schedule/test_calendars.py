"""Weekly hours become minutes from an origin, also on the two days a clock changes."""

from datetime import UTC, datetime, time
from itertools import pairwise
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from armorplan.schedule.calendars import closed_windows, merged, worker_windows
from armorplan.schedule.problem import Worker
from armorplan.workshop.shop import Opening, Person, usual_hours

DAY = 24 * 60
BERLIN = "Europe/Berlin"


def person(*hours):
    return Person(id="m", name="Maker", hours=tuple(hours))


def opening(weekday, start, end):
    return Opening(weekday=weekday, start=start, end=end)


def test_a_week_of_usual_hours():
    monday = datetime(2025, 3, 3, tzinfo=UTC)
    windows = worker_windows(person(*usual_hours()), "UTC", monday, 7 * DAY)
    assert len(windows) == 12
    assert windows[:2] == ((540, 750), (810, 1050))
    assert windows[-1] == (5 * DAY + 810, 5 * DAY + 1050)


def test_an_origin_within_an_opening_cuts_it():
    monday = datetime(2025, 3, 3, 10, 0, 30, tzinfo=UTC)
    windows = worker_windows(person(*usual_hours()), "UTC", monday, 200)
    # 12:30 is 149.5 minutes away, counted inwards; 13:30 is 209.5 away, beyond the horizon.
    assert windows == ((0, 149),)


def test_spring_forward_shortens_a_stretch_across_it():
    # Berlin, Sunday 30 March 2025: 02:00 becomes 03:00.
    sunday = datetime(2025, 3, 30, tzinfo=ZoneInfo(BERLIN)).astimezone(UTC)
    night = person(opening(6, time(1), time(4)), opening(6, time(9), time(10)))
    assert worker_windows(night, BERLIN, sunday, DAY) == ((60, 180), (480, 540))


def test_autumn_back_lengthens_a_stretch_across_it():
    # Berlin, Sunday 26 October 2025: 03:00 becomes 02:00.
    sunday = datetime(2025, 10, 26, tzinfo=ZoneInfo(BERLIN)).astimezone(UTC)
    night = person(opening(6, time(1), time(4)), opening(6, time(9), time(10)))
    assert worker_windows(night, BERLIN, sunday, DAY) == ((60, 300), (600, 660))


def test_local_hours_stay_the_same_across_the_change():
    friday = datetime(2025, 3, 28, tzinfo=UTC)
    windows = worker_windows(person(*usual_hours()), BERLIN, friday, 5 * DAY)
    zone = ZoneInfo(BERLIN)
    local = [
        datetime.fromtimestamp(friday.timestamp() + 60 * start, tz=zone).time()
        for start, _ in windows
    ]
    assert set(local) == {time(9), time(13, 30)}


def test_an_opening_over_midnight_ends_the_next_day():
    monday = datetime(2025, 3, 3, tzinfo=UTC)
    owl = person(opening(0, time(22), time(2)), opening(2, time(18), time(0)))
    assert worker_windows(owl, "UTC", monday, 7 * DAY) == (
        (1320, DAY + 120),
        (2 * DAY + 1080, 3 * DAY),
    )


def test_an_opening_begun_the_day_before_counts():
    tuesday = datetime(2025, 3, 4, tzinfo=UTC)
    owl = person(opening(0, time(22), time(2)))
    assert worker_windows(owl, "UTC", tuesday, DAY) == ((0, 120),)


def test_openings_that_touch_are_one_stretch():
    monday = datetime(2025, 3, 3, tzinfo=UTC)
    busy = person(opening(0, time(8), time(12)), opening(0, time(12), time(17)))
    assert worker_windows(busy, "UTC", monday, DAY) == ((480, 1020),)


def test_closed_is_when_nobody_works():
    workers = (
        Worker(id="a", windows=((10, 20), (40, 50))),
        Worker(id="b", windows=((15, 30),)),
    )
    assert closed_windows(workers, 60) == ((0, 10), (30, 40), (50, 60))
    assert closed_windows((), 60) == ((0, 60),)
    assert closed_windows((Worker(id="a", windows=((0, 60),)),), 60) == ()


windows = st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), max_size=8)


@given(windows)
def test_merging_keeps_every_minute_and_nothing_else(found):
    joined = merged(found)
    minutes = {m for a, b in found for m in range(a, b)}
    assert {m for a, b in joined for m in range(a, b)} == minutes
    assert all(a < b for a, b in joined)
    assert all(one[1] < two[0] for one, two in pairwise(joined))


@given(windows)
def test_closed_and_open_share_out_the_horizon(found):
    worker = Worker(id="a", windows=merged(found))
    shut = {m for a, b in closed_windows((worker,), 40) for m in range(a, b)}
    is_open = {m for a, b in found for m in range(a, b)}
    assert shut | is_open == set(range(40))
    assert not shut & is_open
