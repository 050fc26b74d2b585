"""Windows of a usual day, for lists that know no clock."""

from datetime import UTC, datetime, timedelta

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, nights, read_hourly

from armorplan.drying.body import USUAL_BODY, Body
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.workshop.air import Room

COAT = entry()


def usual_min(room, stage=Stage.HANDLE):
    return DryingRoom(room).usual(COAT, USUAL_BODY).likely_min(stage)


def test_in_steady_air_it_is_any_day():
    room = DryingRoom(Room(usual=air(14.0, 60.0)))
    there = room.times(COAT, USUAL_BODY, MORNING + timedelta(days=3, minutes=5))
    assert room.usual(COAT, USUAL_BODY).spans == there.spans


@pytest.mark.parametrize("zone", ["UTC", "Pacific/Auckland", "America/St_Johns"])
def test_it_is_the_middle_of_starts_by_the_local_clock(zone):
    # Nine starts from nine to five: the fifth in order of what they take.
    at_home = DryingRoom(cold_nights())
    hours = [MORNING + timedelta(hours=hour) for hour in range(9)]
    taken = sorted(at_home.minutes(COAT, USUAL_BODY, Stage.HANDLE, at) for at in hours)
    assert usual_min(cold_nights(zone=zone)) == taken[4]


def test_readings_count_by_the_day_they_make_wherever_they_lie():
    day = list(nights(9.0))
    midnight = MORNING.replace(hour=0)
    told = usual_min(Room(by_hour=tuple(day)))
    for first in (midnight, midnight - timedelta(days=90), midnight + timedelta(days=12)):
        assert usual_min(Room(readings=read_hourly(first, day * 3))) == told
    # And however many hours of the last day were read.
    for hours in (25, 37, 48, 61):
        read = read_hourly(midnight, (day * 3)[:hours])
        assert usual_min(Room(readings=read)) == told


def test_readings_of_last_week_tell_next_week_s_nights():
    midnight = MORNING.replace(hour=0)
    read = DryingRoom(Room(readings=read_hourly(midnight, list(nights(9.0)) * 7)))
    told = DryingRoom(Room(by_hour=nights(9.0)))
    for after in (timedelta(days=9, hours=3), timedelta(days=40, hours=19)):
        assert read.minutes(COAT, Body(), Stage.HANDLE, MORNING + after) == told.minutes(
            COAT, Body(), Stage.HANDLE, MORNING + after
        )


def test_it_is_the_same_each_time_it_is_asked():
    room = DryingRoom(cold_nights())
    assert room.usual(COAT, USUAL_BODY) is room.usual(entry(), Body())
    assert room.usual(COAT, Body(thickness_mm=6.0)) != room.usual(COAT, USUAL_BODY)


def test_days_unlike_each_other_count_by_their_mean():
    # Read through the very days that a usual day is reckoned on.
    midnight = datetime(2026, 1, 13, tzinfo=UTC)
    warm, cold = [air(20.0, 60.0)] * 24, [air(10.0, 60.0)] * 24
    read = Room(readings=read_hourly(midnight, warm + cold + warm + cold))
    assert usual_min(read) == usual_min(Room(by_hour=(air(15.0, 60.0),) * 24))
