"""A room whose air was told otherwise meanwhile: before in the air of then, from then on in the new."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.past_air import PAST, going_over, over_time
from armorplan.app.shop_air import DayNight
from armorplan.drying.body import USUAL_BODY
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.files.catalogue import read_shelf
from armorplan.workshop.air import AirReading, Climate, Room

AT = datetime(2026, 11, 29, 14, 0, tzinfo=UTC)
STILL = Room()
WINDY = Room(usual=Climate(air_m_s=1.5))
NIGHTS = Room(
    by_hour=DayNight(
        day=Climate(temperature_c=18), night=Climate(temperature_c=9, humidity_pct=70)
    ).hours(),
    zone="UTC",
)
FINISH = next(t for t in read_shelf().treatments if t.film_from_c is not None)


def air(room, hours):
    return drying_room(room).air(AT + timedelta(hours=hours))


@pytest.mark.parametrize(("before", "after"), [(STILL, WINDY), (NIGHTS, STILL), (STILL, NIGHTS)])
def test_each_air_holds_on_its_side_of_the_change(before, after):
    room = going_over(before, after, AT)
    for hours in (-200.5, -30.5, -11.5, -3.5, -0.3):
        assert air(room, hours) == air(before, hours)
    for hours in (0, 0.1, 1, 5, 12, 36.5, 400.5):
        assert air(room, hours) == air(after, hours)


def test_the_same_air_changes_nothing():
    assert going_over(NIGHTS, replace(NIGHTS, volume_m3=40.0), AT) == replace(
        NIGHTS, volume_m3=40.0
    )


def test_what_was_read_by_the_new_room_counts_over_what_was_told_before():
    reading = AirReading(at=AT - timedelta(hours=6), climate=Climate(temperature_c=3))
    room = going_over(STILL, replace(NIGHTS, readings=(reading,)), AT)
    assert air(room, -6).temperature_c == pytest.approx(3, abs=1.5)
    assert air(room, -12).temperature_c == 23


def test_a_fan_put_on_half_way_saves_less_than_one_that_ran_all_along():
    start_at = AT - timedelta(hours=8)
    minutes = {
        name: drying_room(room).minutes(FINISH, USUAL_BODY, Stage.HANDLE, start_at)
        for name, room in (
            ("still", STILL),
            ("half", going_over(STILL, WINDY, AT)),
            ("windy", WINDY),
        )
    }
    assert minutes["windy"] < minutes["half"] < minutes["still"]
    # What is left after eight hours dries as fast as with the fan from the beginning.
    left = (minutes["still"] - 8 * 60) * minutes["windy"] / minutes["still"]
    assert minutes["half"] == pytest.approx(8 * 60 + left, abs=3)


def test_the_first_air_that_was_told_holds_for_before_too_and_old_changes_are_forgotten():
    told = ((AT, NIGHTS), (AT + timedelta(days=1), WINDY))
    room = over_time(told, AT + timedelta(days=2))
    assert air(room, -24 * 3) == air(NIGHTS, -24 * 3)
    assert over_time(told[:1], AT) is NIGHTS
    assert over_time(told, AT + timedelta(days=1) + PAST + timedelta(minutes=1)) is WINDY
