"""The air at any time: as read, between readings, in their gaps, and on days nobody read."""

from datetime import UTC, datetime, timedelta
from random import Random
from zoneinfo import ZoneInfo

import pytest
from drying.sample_rooms import MORNING, air, nights, read_hourly
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.days import CELLS_A_DAY, climates, hours_of, usual_days
from armorplan.drying.track import cell_of, start_of
from armorplan.workshop.air import AirReading, Climate, Room

ZONES = ("UTC", "Europe/Lisbon", "Australia/Lord_Howe", "Asia/Kathmandu", "America/St_Johns")


def at_hours(*told):
    """Return readings at hours after the morning, told as (hours, °C)."""
    return tuple(
        AirReading(at=MORNING + timedelta(hours=hours), climate=air(temperature_c))
        for hours, temperature_c in told
    )


def air_at(room, hours):
    cell = cell_of(MORNING + timedelta(hours=hours))
    return climates(room, cell, 1)[0].temperature_c


@settings(max_examples=25)
@given(
    st.sampled_from(ZONES),
    st.integers(0, 400 * CELLS_A_DAY),
    st.integers(1, 3 * CELLS_A_DAY),
)
def test_hours_are_those_of_the_clock_on_the_wall(zone, after, cells):
    first = cell_of(datetime(2026, 1, 1, tzinfo=UTC)) + after
    local = ZoneInfo(zone)
    clock = [start_of(first + at).astimezone(local).hour for at in range(cells)]
    assert hours_of(zone, first, cells) == clock


@pytest.mark.parametrize(("month", "day", "hours"), [(3, 29, 23), (10, 25, 25)])
def test_a_day_on_which_the_clocks_change_has_an_hour_less_or_twice(month, day, hours):
    # Lisbon: 29 March has no 01:00, 25 October has it twice.
    local = ZoneInfo("Europe/Lisbon")
    midnight = datetime(2026, month, day, tzinfo=local)
    cells = cell_of(midnight + timedelta(days=1)) - cell_of(midnight)
    assert cells == 4 * hours
    found = hours_of("Europe/Lisbon", cell_of(midnight), cells)
    assert found == sorted(found)
    assert found.count(1) == 4 * (hours - 23)
    assert set(found) - {1} == set(range(24)) - {1}


def test_a_day_by_hours_is_told_by_the_local_clock():
    room = Room(by_hour=nights(8.0), zone="Europe/Lisbon")
    # In summer time 20:00 in Lisbon is 19:00 UTC.
    cell = cell_of(datetime(2026, 7, 1, 18, 45, tzinfo=UTC))
    assert [c.temperature_c for c in climates(room, cell, 2)] == [20.0, 8.0]


def test_readings_three_hours_apart_are_joined_straight():
    room = Room(readings=at_hours((0, 10.0), (3, 16.0)), usual=air(23.0))
    middles = [air_at(room, quarter / 4) for quarter in range(12)]
    assert middles == pytest.approx([10 + (0.125 + q * 0.25) * 2 for q in range(12)], abs=0.051)


def test_over_a_longer_gap_the_usual_day_counts_but_for_what_lies_near_a_reading():
    room = Room(readings=at_hours((0, 10.0), (8, 16.0)), by_hour=(air(22.0),) * 24)
    told = [air_at(room, quarter / 4) for quarter in range(-8, 42)]
    # From 1.5 h before a reading to 1.5 h after it that one counts.
    near_first, near_second = range(2, 14), range(34, 46)
    for at, temperature_c in enumerate(told):
        expected = 10.0 if at in near_first else 16.0 if at in near_second else 22.0
        assert temperature_c == expected, at


def test_before_the_first_and_after_the_last_reading_the_usual_day_counts():
    room = Room(readings=at_hours((0, 10.0), (1, 10.0)), by_hour=(air(22.0),) * 24)
    assert air_at(room, -2.0) == air_at(room, 3.0) == 22.0
    assert air_at(room, -1.0) == air_at(room, 2.0) == 10.0


def test_a_usual_day_is_what_was_read_at_its_hours_on_average():
    days = [air(10.0 + hour) for hour in range(24)] + [air(12.0 + hour) for hour in range(24)]
    midnight = MORNING.replace(hour=0)
    room = Room(readings=read_hourly(midnight, days))
    assert [c.temperature_c for c in usual_days(room)] == [11.0 + hour for hour in range(24)]
    # Next month's days are like that.
    later = climates(room, cell_of(midnight + timedelta(days=30)), CELLS_A_DAY)
    assert [c.temperature_c for c in later[::4]] == [11.0 + hour for hour in range(24)]


def test_hours_nobody_read_have_the_usual_air_but_between_near_ones():
    # Read at 22, 1 and 4 o'clock.
    room = Room(readings=at_hours((13, 12.0), (16, 9.0), (19, 6.0)), usual=air(21.0))
    day = [c.temperature_c for c in usual_days(room)]
    assert day[22:] + day[:5] == [12.0, 11.0, 10.0, 9.0, 8.0, 7.0, 6.0]
    assert set(day[5:22]) == {21.0}


def test_hours_told_go_before_hours_read():
    room = Room(readings=at_hours((0, 10.0)), by_hour=(air(22.0),) * 24)
    assert usual_days(room) == room.by_hour


@settings(max_examples=25)
@given(st.integers(0, 2**16), st.integers(1, 30), st.integers(-400, 400))
def test_readings_in_any_order_and_twice_at_a_time_never_stop_it(seed, count, first):
    chance = Random(seed)  # noqa: S311 - the same readings every time
    at = [chance.randint(0, 30 * 60) for _ in range(count)]
    told = tuple(
        AirReading(at=MORNING + timedelta(minutes=m), climate=air(chance.uniform(5, 30)))
        for m in (*at, at[0])
    )
    found = climates(Room(readings=told), cell_of(MORNING) + first, 60)
    assert all(5 <= c.temperature_c <= 30 for c in found)
    in_order = Room(readings=tuple(sorted(told, key=lambda r: r.at)))
    assert found == climates(in_order, cell_of(MORNING) + first, 60)


@settings(max_examples=20)
@given(st.integers(-500, 500), st.integers(1, 200), st.integers(0, 100))
def test_a_piece_of_the_air_is_the_air_of_the_piece(first, cells, skipped):
    room = Room(readings=at_hours((0, 10.0), (2, 14.0), (9, 9.0)), by_hour=nights(8.0))
    begin = cell_of(MORNING) + first
    assert climates(room, begin, cells + skipped)[skipped:] == climates(
        room, begin + skipped, cells
    )


@pytest.mark.parametrize("apart", [1, 4, 6])
def test_a_logger_that_reads_seldom_tells_of_all_the_day(apart):
    cold = at_hours(*((hour, 8.0) for hour in range(0, 48, apart)))
    for usual in (Climate(), air(21.0)):
        room = Room(readings=cold, usual=usual)
        assert {c.temperature_c for c in usual_days(room)} == {8.0}
        assert {air_at(room, quarter / 4) for quarter in range(400)} == {8.0}


def test_hours_far_from_all_that_was_read_have_the_air_that_was_told_if_any_was():
    # Read at 9 and 16 o'clock.
    read = at_hours((0, 10.0), (7, 10.0))
    assert usual_days(Room(readings=read, usual=air(21.0)))[12].temperature_c == 21.0
    assert usual_days(Room(readings=read))[12].temperature_c == 10.0


def test_a_usual_day_is_one_of_the_last_two_weeks_read():
    midnight = MORNING.replace(hour=0)
    summer, winter = [air(28.0, 40.0)] * 24, [air(12.0, 70.0)] * 24
    read = read_hourly(midnight, summer * 20 + winter * 15)
    assert set(usual_days(Room(readings=read))) == {air(12.0, 70.0)}
    # What was read in the summer still counts for the summer.
    assert climates(Room(readings=read), cell_of(midnight + timedelta(days=3)), 1) == summer[:1]
