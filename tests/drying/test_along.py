"""Doses kept for a room are the same whatever was asked before, near or far, in any order."""

from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, read_hourly

from armorplan.drying.along import AirAlong, air_along
from armorplan.workshop.air import Pace, Room

COAT = entry()
LIKELY = 1
STARTS = [
    MORNING + timedelta(days=days, minutes=minutes, seconds=13)
    for days, minutes in (
        (0, 0),
        (-1, 7),
        (40, 14),
        (-400, 15),
        (3, 61),
        (-30, 1439),
        (900, 0),
        (2, 2),
    )
]
READ = read_hourly(MORNING, [air(10.0 + hour % 9, 40.0 + hour % 31) for hour in range(100)])


@pytest.mark.parametrize("room", [cold_nights(zone="Europe/Lisbon"), Room(readings=READ)])
def test_what_was_asked_before_changes_no_answer(room):
    fresh = [AirAlong(room).taken_min(COAT, LIKELY, 700.0, (at,))[0] for at in STARTS]
    chance = Random(3)  # noqa: S311 - the same order every time
    for _ in range(3):
        kept, order = AirAlong(room), chance.sample(range(len(STARTS)), len(STARTS))
        for at in order:
            taken = kept.taken_min(COAT, LIKELY, 700.0, (STARTS[at],))[0]
            assert taken == pytest.approx(fresh[at], abs=1e-5)
            passed = kept.passed(COAT, LIKELY, (STARTS[at], STARTS[at] + timedelta(minutes=taken)))
            assert passed == pytest.approx([0.0, 700.0], abs=1e-5)


def test_years_apart_are_not_reckoned_through():
    kept = AirAlong(cold_nights())
    for start in STARTS:
        kept.taken_min(COAT, LIKELY, 700.0, (start,))
    assert sum(len(stretch.air) for stretch in kept._stretches) < 600 * 96


def test_the_air_of_a_steady_room_is_its_usual():
    assert AirAlong(Room(usual=air(15.0))).air(5, 3) == [air(15.0)] * 3


def test_what_was_learned_of_it_leaves_the_air_as_it_is():
    room = cold_nights(6.5)
    learned = Pace(treatment="coat", factor=1.4, spread=0.2, observations=3)
    assert air_along(replace(room, paces=(learned,), volume_m3=40.0)) is air_along(room)
    assert air_along(cold_nights(6.0)) is not air_along(room)


def test_times_near_each_other_lie_in_one_stretch():
    kept = AirAlong(cold_nights())
    for days in (0, 9, -3, 30, -20):
        kept.passed(COAT, LIKELY, (MORNING + timedelta(days=days),) * 2)
    assert len(kept._stretches) == 1
