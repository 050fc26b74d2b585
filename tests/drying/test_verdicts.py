"""'Will not dry' and 'would spoil' are answers of their own, and only where they are true."""

from datetime import timedelta

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, nights
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.body import USUAL_BODY, Body
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage, Verdict
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Carrier

FINISH = entry(film_from_c=10.0, film_min=60)


def times(room, coat=FINISH, start_at=MORNING, body=USUAL_BODY):
    return DryingRoom(room).times(coat, body, start_at)


@pytest.mark.parametrize(
    "room", [Room(usual=air(18.0, 100.0)), Room(by_hour=(air(18, 100),) * 24)]
)
def test_in_saturated_air_it_will_not_dry(room):
    found = times(room)
    assert found.verdict is Verdict.WILL_NOT_DRY
    assert all(span.likely_min is None for span in found.spans.values())
    assert found.pct_of_usual == 0
    assert DryingRoom(room).minutes(FINISH, USUAL_BODY, Stage.HANDLE, MORNING) is None


def test_what_takes_longer_than_four_weeks_will_not_dry():
    # A twentieth of the reference's pace: 600 minutes take nine days, 2500 take 37.
    for damp in (Room(usual=air(18.0, 97.0)), Room(by_hour=(air(18.0, 97.0),) * 24)):
        assert times(damp, entry(handle_min=600)).verdict is Verdict.DRIES
        assert times(damp, entry(handle_min=2500)).verdict is Verdict.WILL_NOT_DRY


def test_oil_dries_in_any_air():
    found = times(Room(usual=air(5.0, 100.0)), entry(Carrier.OIL))
    assert (found.verdict, found.pct_of_usual) == (Verdict.DRIES, 100)


@settings(max_examples=20)
@given(st.floats(0.0, 30.0))
def test_colder_than_its_film_forms_it_would_spoil(temperature_c):
    found = times(Room(usual=air(temperature_c, 50.0)))
    expected = Verdict.WOULD_SPOIL if temperature_c < 10.0 else Verdict.DRIES
    assert found.verdict is expected
    assert found.coldest_c == temperature_c


def test_the_cold_counts_only_while_the_film_forms():
    room = cold_nights(8.0)
    assert times(room, start_at=MORNING).verdict is Verdict.DRIES
    # From eight in the evening it is cold; the film takes more than an hour at 20 °C and 55 %.
    assert times(room, start_at=MORNING.replace(hour=19, minute=30)).verdict is Verdict.WOULD_SPOIL
    assert times(room, start_at=MORNING.replace(hour=18, minute=30)).verdict is Verdict.DRIES
    assert times(room, start_at=MORNING.replace(hour=18, minute=30)).coldest_c == 20.0


def test_a_warm_room_later_in_the_night_does_not_save_what_was_cold_before():
    heated = tuple(air(8.0 if 18 <= hour < 21 else 22.0) for hour in range(24))
    assert times(Room(by_hour=heated), start_at=MORNING.replace(hour=19)).verdict is (
        Verdict.WOULD_SPOIL
    )
    assert times(Room(by_hour=heated), start_at=MORNING.replace(hour=22)).verdict is Verdict.DRIES


def test_a_thick_coat_forms_its_film_later_and_meets_the_night():
    start_at = MORNING.replace(hour=18, minute=30)
    dipped = Body(thickness_mm=5.0, dipped=True)
    assert times(cold_nights(8.0), start_at=start_at, body=dipped).verdict is Verdict.WOULD_SPOIL


def test_without_a_time_of_its_own_the_film_forms_by_the_touch():
    coat = entry(film_from_c=10.0, touch_min=60)
    for minutes, verdict in ((30, Verdict.WOULD_SPOIL), (90, Verdict.DRIES)):
        start_at = MORNING.replace(hour=20) - timedelta(minutes=minutes)
        assert times(cold_nights(8.0), coat, start_at).verdict is verdict


def test_what_forms_no_film_does_not_spoil():
    found = times(Room(by_hour=nights(2.0)), entry(film_from_c=None))
    assert found.verdict is Verdict.DRIES
    assert found.coldest_c == 2.0


@pytest.mark.parametrize(
    ("temperature_c", "verdict"), [(9.9, Verdict.WOULD_SPOIL), (10.0, Verdict.DRIES)]
)
def test_the_temperature_it_forms_at_is_warm_enough(temperature_c, verdict):
    for room in (Room(usual=air(temperature_c)), Room(by_hour=(air(temperature_c),) * 24)):
        assert times(room).verdict is verdict


def test_the_film_takes_its_own_time_not_that_to_the_touch():
    # Touch 30 min, film 60 min at the reference; 40 minutes before the cold.
    start_at = MORNING.replace(hour=19, minute=20)
    assert times(cold_nights(8.0), start_at=start_at).verdict is Verdict.WOULD_SPOIL
    quick = entry(film_from_c=10.0, film_min=30)
    assert times(cold_nights(8.0), quick, start_at).verdict is Verdict.DRIES
