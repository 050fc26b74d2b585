"""Laws of drying in a room: how one question and another have to agree."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, nights, read_hourly
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.body import USUAL_BODY, Body
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.stages import stage_minutes
from armorplan.workshop.air import Pace, Room
from armorplan.workshop.shelf import Carrier

COAT = entry()
NIGHTS = DryingRoom(cold_nights())
READ = DryingRoom(
    Room(readings=read_hourly(MORNING, [air(8.0 + h % 13, 40.0 + h % 37) for h in range(120)]))
)
STARTS = st.integers(-3000, 20_000).map(lambda minutes: MORNING + timedelta(minutes=minutes))
CARRIERS = st.sampled_from(tuple(Carrier))
BY_THEN = (Stage.CLOSES, Stage.RECOAT_BY)


def likely(room, start_at=MORNING, *, coat=COAT, body=USUAL_BODY, stage=Stage.HANDLE):
    return DryingRoom(room).minutes(coat, body, stage, start_at)


@pytest.mark.parametrize("carrier", Carrier)
@pytest.mark.parametrize("stage", Stage)
def test_at_the_reference_all_takes_what_the_catalogue_says(carrier, stage):
    coat = entry(carrier, water_share=0.1)
    assert likely(Room(), coat=coat, stage=stage) == stage_minutes(coat)[stage]
    span = DryingRoom(Room()).times(coat, USUAL_BODY, MORNING).spans[stage]
    assert span.soonest_min < span.likely_min < span.latest_min


@settings(max_examples=25)
@given(st.floats(8.0, 35.0), st.floats(10.0, 85.0), st.floats(0.0, 2.0), st.floats(1.0, 6.0))
def test_worse_air_and_thicker_leather_take_longer(temperature_c, humidity_pct, air_m_s, mm):
    here = likely(
        Room(usual=air(temperature_c, humidity_pct, air_m_s)), body=Body(thickness_mm=mm)
    )
    worse = (
        (air(temperature_c - 3, humidity_pct, air_m_s), mm),
        (air(temperature_c, humidity_pct + 5, air_m_s), mm),
        (air(temperature_c, humidity_pct, air_m_s / 2), mm),
        (air(temperature_c, humidity_pct, air_m_s), mm + 1),
    )
    for climate, thickness_mm in worse:
        longer = likely(Room(usual=climate), body=Body(thickness_mm=thickness_mm))
        assert longer is None or longer >= here


@settings(max_examples=15)
@given(STARTS, CARRIERS, st.sampled_from(Stage))
def test_equal_hours_and_equal_readings_are_steady_air(start_at, carrier, stage):
    climate, coat = air(14.0, 62.0, 0.3), entry(carrier, water_share=0.1)
    steady = likely(Room(usual=climate), start_at, coat=coat, stage=stage)
    by_hour = Room(by_hour=(climate,) * 24, zone="Europe/Lisbon")
    read = Room(readings=read_hourly(MORNING, [climate] * 60), usual=climate)
    for room in (by_hour, read):
        assert likely(room, start_at, coat=coat, stage=stage) == steady


@settings(max_examples=20)
@given(STARTS, st.integers(0, 3000), st.integers(0, 3000), st.sampled_from((NIGHTS, READ)))
def test_two_half_nights_add_up_to_one(start_at, first_min, second_min, room):
    halfway = start_at + timedelta(minutes=first_min)
    end_at = halfway + timedelta(minutes=second_min)
    one, other = room.dose_min(COAT, start_at, halfway), room.dose_min(COAT, halfway, end_at)
    whole = room.dose_min(COAT, start_at, end_at)
    assert [a + b for a, b in zip(one, other, strict=True)] == pytest.approx(whole, abs=1e-6)
    assert list(whole) == sorted(whole)


@settings(max_examples=20)
@given(STARTS, st.integers(1, 700), st.sampled_from((NIGHTS, READ)))
def test_a_drying_looked_at_halfway_is_ready_when_it_was_going_to_be(start_at, after_min, room):
    needed = room.doses(COAT, USUAL_BODY, Stage.HANDLE)[1]
    ready = start_at + timedelta(minutes=room.minutes(COAT, USUAL_BODY, Stage.HANDLE, start_at))
    looked = start_at + timedelta(minutes=after_min)
    left = replace(
        COAT, handle_min=max(1, round(needed - room.dose_min(COAT, start_at, looked)[1]))
    )
    then = looked + timedelta(minutes=room.minutes(left, USUAL_BODY, Stage.HANDLE, looked))
    assert abs(then - ready) <= timedelta(minutes=4) or left.handle_min == 1


@settings(max_examples=20)
@given(STARTS, st.sampled_from((NIGHTS, READ)))
def test_the_dose_at_its_end_is_the_one_it_takes(start_at, room):
    ready_min = room.minutes(COAT, USUAL_BODY, Stage.HANDLE, start_at)
    passed = room.dose_min(COAT, start_at, start_at + timedelta(minutes=ready_min))[1]
    needed = room.doses(COAT, USUAL_BODY, Stage.HANDLE)[1]
    assert needed - 1e-3 <= passed <= needed + 3.0


def test_nothing_has_passed_before_it_began():
    assert NIGHTS.dose_min(COAT, MORNING, MORNING - timedelta(hours=3)) == (0.0, 0.0, 0.0)
    assert DryingRoom(Room()).dose_min(COAT, MORNING, MORNING - timedelta(hours=3)) == (0, 0, 0)


def test_a_cold_night_stretches_what_dries_through_it():
    evening = MORNING.replace(hour=19)
    warm, cold = Room(by_hour=nights(20.0)), cold_nights(10.0)
    assert likely(cold, evening) > 1.2 * likely(warm, evening)
    # Begun in the morning and dry before the night it takes as long in both.
    short = entry(handle_min=240)
    assert likely(cold, MORNING, coat=short) == likely(warm, MORNING, coat=short)
    assert likely(cold, evening, coat=short) > likely(cold, MORNING, coat=short)


def test_through_a_saturated_night_nothing_dries_and_in_the_morning_it_goes_on():
    damp = tuple(air(15.0, 50.0 if 8 <= hour < 20 else 100.0) for hour in range(24))
    room, evening = Room(by_hour=damp), MORNING.replace(hour=20)
    half_day = entry(handle_min=300)
    morning_min = likely(room, MORNING.replace(hour=8), coat=half_day)
    assert likely(room, evening, coat=half_day) == 12 * 60 + morning_min


@settings(max_examples=10)
@given(STARTS, st.sampled_from((NIGHTS, READ)), st.sampled_from(Stage))
def test_who_begins_later_is_not_ready_sooner(start_at, room, stage):
    starts = [start_at + timedelta(minutes=17 * at) for at in range(60)]
    taken = room.reached(COAT, Body(thickness_mm=4.0), stage, starts)[1]
    ready = [17 * at + float(minutes) for at, minutes in enumerate(taken)]
    assert all(one <= other + 1e-6 for one, other in pairwise(ready))


@settings(max_examples=30)
@given(
    STARTS,
    st.integers(0, 59),
    st.integers(0, 14),
    st.sampled_from((NIGHTS, READ)),
    st.sampled_from(Stage),
)
def test_a_table_is_safe_for_every_start_in_its_cells(origin_at, cell, within, room, stage):
    body = Body(thickness_mm=4.0)
    table = room.table(COAT, body, stage, origin_at, 60)
    assert list(table) == sorted(table)
    start_min = cell * 15 + within
    start_at = origin_at + timedelta(minutes=start_min)
    ready_min = start_min + room.minutes(COAT, body, stage, start_at)
    if stage in BY_THEN:
        assert ready_min - 60 <= table[cell] <= ready_min
    else:
        assert ready_min <= table[cell] <= ready_min + 60


def test_a_table_without_end_takes_the_longest_time_looked_at():
    never = DryingRoom(Room(by_hour=(air(15.0, 100.0),) * 24))
    table = never.table(COAT, USUAL_BODY, Stage.HANDLE, MORNING, 3)
    assert table == tuple(28 * 24 * 60 + 14 + 15 * at for at in range(3))


def test_in_steady_air_there_is_no_table():
    assert DryingRoom(Room()).table(COAT, USUAL_BODY, Stage.HANDLE, MORNING, 3) is None


def test_a_stage_it_does_not_know_is_told():
    plain = entry(cure_min=None)
    for room in (NIGHTS, DryingRoom(Room())):
        with pytest.raises(KeyError):
            room.reached(plain, USUAL_BODY, Stage.CURE, (MORNING,))
        assert room.minutes(plain, USUAL_BODY, Stage.CURE, MORNING) is None
    with pytest.raises(KeyError):
        NIGHTS.table(plain, USUAL_BODY, Stage.CURE, MORNING, 3)


@pytest.mark.parametrize(("month", "day", "turned_h"), [(3, 28, -1), (10, 24, 1), (6, 10, 0)])
def test_a_night_on_which_the_clocks_change_is_as_long_as_it_is(month, day, turned_h):
    """Lisbon, 20:00 to 08:00 by the clock on the wall; nothing dries before eight."""
    damp = tuple(air(15.0, 50.0 if 8 <= hour < 20 else 100.0) for hour in range(24))
    room = Room(by_hour=damp, zone="Europe/Lisbon")
    evening = datetime(2026, month, day, 20, tzinfo=ZoneInfo("Europe/Lisbon"))
    short = entry(handle_min=60)
    day_min = likely(room, evening.replace(day=10, hour=9), coat=short)
    for start_at in (evening, evening.astimezone(UTC)):
        assert likely(room, start_at, coat=short) == (12 + turned_h) * 60 + day_min


def test_an_instant_is_the_same_in_whatever_zone_it_is_told():
    lisbon = ZoneInfo("Europe/Lisbon")
    room = DryingRoom(cold_nights(zone="Europe/Lisbon"))
    start_at, end_at = (datetime(2026, 3, day, 22, tzinfo=UTC) for day in (28, 30))
    there = (start_at.astimezone(lisbon), end_at.astimezone(lisbon))
    assert room.dose_min(COAT, *there) == room.dose_min(COAT, start_at, end_at)
    steady = DryingRoom(Room())
    assert steady.dose_min(COAT, *there) == steady.dose_min(COAT, start_at, end_at)
    for stage in (Stage.HANDLE, Stage.CLOSES):
        told = (room.table(COAT, USUAL_BODY, stage, at, 200) for at in (start_at, there[0]))
        assert len(set(told)) == 1
    assert (
        room.curve(COAT, USUAL_BODY, *there).at
        == room.curve(COAT, USUAL_BODY, start_at, end_at).at
    )


@settings(max_examples=20)
@given(STARTS, st.sampled_from((NIGHTS, READ)), st.floats(0.0, 59.9))
def test_a_start_off_the_minute_lies_between_its_neighbours(start_at, room, seconds):
    ready = [
        at.timestamp() / 60 + float(room.reached(COAT, USUAL_BODY, Stage.HANDLE, (at,))[1][0])
        for at in (
            start_at,
            start_at + timedelta(seconds=seconds),
            start_at + timedelta(minutes=1),
        )
    ]
    assert ready[0] - 1e-4 <= ready[1] <= ready[2] + 1e-4


@settings(max_examples=15)
@given(STARTS, st.floats(0.3, 3.0), st.floats(0.05, 0.6))
def test_what_was_learned_moves_the_middle_and_the_band(start_at, factor, spread):
    pace = Pace(treatment="coat", factor=factor, spread=spread, observations=5)
    span = DryingRoom(Room(paces=(pace,))).times(COAT, USUAL_BODY, start_at).spans[Stage.HANDLE]
    assert span.likely_min == pytest.approx(720 * factor, abs=1.0)
    wide = span.latest_min / span.soonest_min
    assert wide == pytest.approx(2.71828 ** (2 * 1.2816 * spread), rel=0.02)
    other = Pace(treatment="another", factor=factor, spread=spread, observations=5)
    assert likely(Room(paces=(other,)), start_at) == 720


@settings(max_examples=15)
@given(STARTS, st.sampled_from((NIGHTS, READ)), st.floats(0.5, 8.0), st.sampled_from(Stage))
def test_the_band_holds_what_is_likely(start_at, room, thickness_mm, stage):
    body = Body(thickness_mm=thickness_mm, dipped=True)
    span = room.times(COAT, body, start_at).spans[stage]
    band = (span.soonest_min, span.likely_min, span.latest_min)
    ended = [minutes for minutes in band if minutes is not None]
    # What is never reached comes last.
    assert tuple(sorted(ended)) == band[: len(ended)]
    assert span.likely_min == room.minutes(COAT, body, stage, start_at)


def test_equal_rooms_share_what_was_reckoned():
    one, other = cold_nights(7.0), cold_nights(7.0)
    assert drying_room(one) is drying_room(other)
    assert drying_room(one) is not drying_room(cold_nights(7.5))


@settings(max_examples=10)
@given(STARTS, st.sampled_from((NIGHTS, READ)), st.sampled_from(Stage))
def test_times_and_reached_tell_the_same(start_at, room, stage):
    span = room.times(COAT, USUAL_BODY, start_at).spans[stage]
    told = [float(minutes[0]) for minutes in room.reached(COAT, USUAL_BODY, stage, (start_at,))]
    assert told == pytest.approx([span.soonest_min, span.likely_min, span.latest_min], abs=1.0)
