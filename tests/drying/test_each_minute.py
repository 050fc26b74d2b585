"""What is told of each minute at once is what the room tells of it; a change that is past is past."""

from datetime import timedelta

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, nights, read_hourly

from armorplan.drying.body import Body
from armorplan.drying.each_minute import is_steady_from, waits_by_minute
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.workshop.air import Room

COAT, BODY = entry(), Body(thickness_mm=2.0)
ONE_AIR = (air(),) * 24


@pytest.mark.parametrize("stage", [Stage.OPENS, Stage.CLOSES, Stage.HANDLE])
@pytest.mark.parametrize("room", [cold_nights(), Room()], ids=["nights", "steady"])
def test_each_minute_is_told_as_the_room_tells_it(room, stage):
    from_at = MORNING + timedelta(hours=9, minutes=7)
    waits = waits_by_minute(drying_room(room), COAT, (BODY, stage), from_at, 240)
    told = [
        drying_room(room).minutes(COAT, BODY, stage, from_at + timedelta(minutes=minute))
        for minute in range(0, 240, 11)
    ]
    assert [int(wait) for wait in waits[::11]] == told


def test_what_never_gets_there_has_no_minutes():
    soaked = drying_room(Room(by_hour=(air(4.0, 100.0),) * 24))
    assert waits_by_minute(soaked, COAT, (BODY, Stage.HANDLE), MORNING, 15) is None
    no_cure = entry(cure_min=None)
    assert waits_by_minute(soaked, no_cure, (BODY, Stage.CURE), MORNING, 15) is None


def test_air_that_was_another_is_steady_once_its_readings_are_past():
    before = read_hourly(MORNING - timedelta(hours=30), [air(10.0, 80.0)] * 24)
    room = drying_room(Room(by_hour=ONE_AIR, readings=before))
    last_at = before[-1].at
    assert not room.is_steady
    assert not is_steady_from(room, last_at)
    assert not is_steady_from(room, last_at + timedelta(minutes=80))
    assert is_steady_from(room, last_at + timedelta(hours=2))
    assert is_steady_from(room, MORNING)


def test_air_that_is_still_to_change_is_not_steady():
    coming = read_hourly(MORNING + timedelta(days=2), [air(10.0, 80.0)])
    assert not is_steady_from(drying_room(Room(by_hour=ONE_AIR, readings=coming)), MORNING)
    assert not is_steady_from(drying_room(Room(by_hour=nights(8.0))), MORNING)
    assert is_steady_from(drying_room(Room()), MORNING)
