"""How much longer something dries that was found still damp."""

from datetime import UTC, datetime, timedelta
from math import exp

import pytest
from scipy.stats import lognorm, truncnorm

from armorplan.drying.body import USUAL_BODY
from armorplan.drying.damp import Damp, factors_after, minutes_after
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.air import Climate, Pace, Room

MIDDLE, SPREAD = 0.8, 0.2
FACTORS = tuple(float(lognorm(SPREAD, scale=MIDDLE).ppf(share)) for share in (0.1, 0.5, 0.9))


@pytest.mark.parametrize("standard", [-2.0, 0.0, 1.5, 3.0])
def test_of_dryings_that_take_longer_the_quantiles_are_those_of_the_cut_off_law(standard):
    # scipy's truncated normal law as the outside check.
    cut = truncnorm(standard, float("inf"))
    wanted = [MIDDLE * exp(SPREAD * cut.ppf(share)) for share in (0.1, 0.5, 0.9)]
    found = factors_after(FACTORS, MIDDLE * exp(SPREAD * standard))
    least = 1.01 * MIDDLE * exp(SPREAD * standard)
    assert found == pytest.approx([max(each, least) for each in wanted], rel=1e-6)


def test_what_was_never_found_damp_takes_what_it_takes():
    assert factors_after(FACTORS, 0.0) == FACTORS


def test_far_beyond_all_that_was_expected_it_still_takes_somewhat_longer():
    found = factors_after(FACTORS, 50.0)
    assert found == (50.5, 50.5, 50.5)


NIGHTS = Room(
    by_hour=tuple(Climate(temperature_c=21.0 if 8 <= h < 18 else 8.0) for h in range(24)),
    paces=(Pace(treatment="dye", factor=0.8, spread=0.2, observations=5),),
)
ENTRY = sketch_shelf().treatment("dye")


@pytest.mark.parametrize("room", [NIGHTS, Room(paces=NIGHTS.paces)])
def test_a_room_tells_how_much_longer_from_the_look_on(room):
    drying = drying_room(room)
    start_at = datetime(2026, 11, 30, 9, tzinfo=UTC)
    usual_min = drying.minutes(ENTRY, USUAL_BODY, Stage.HANDLE, start_at)
    assert usual_min is not None
    damp_at = start_at + timedelta(minutes=usual_min)
    least, likely, most = minutes_after(
        drying, ENTRY, USUAL_BODY, Stage.HANDLE, Damp(at=damp_at, stage=Stage.HANDLE, factor=0.8)
    )
    assert 0 < least <= likely <= most
    # Of dryings that take longer than the median, half take up to 0.8 * exp(0.2 * 0.6745) = 0.9155.
    doses = drying.doses(ENTRY, USUAL_BODY, Stage.HANDLE)
    assert doses is not None
    passed = drying.dose_min(ENTRY, damp_at, damp_at + timedelta(minutes=likely))[1]
    assert passed == pytest.approx(doses[1] * (0.91551 / 0.8 - 1), rel=0.02, abs=2)


def test_what_a_look_taught_the_room_does_not_put_its_own_drying_off_once_more():
    at = datetime(2026, 11, 30, 9, tzinfo=UTC)
    told = [
        minutes_after(
            drying_room(
                Room(paces=(Pace(treatment="dye", factor=f, spread=0.25, observations=1),))
            ),
            ENTRY,
            USUAL_BODY,
            Stage.HANDLE,
            Damp(at=at, stage=Stage.HANDLE, factor=1.0, expected=(1.0, 0.3)),
        )
        for f in (1.0, 1.1)
    ]
    assert told[0] == pytest.approx(told[1])
    # A dye that took more than its 1440 min takes exp(0.3 * 0.6745) times as long in half of all cases.
    assert told[0][1] == pytest.approx(ENTRY.handle_min * (exp(0.3 * 0.67449) - 1), rel=1e-4)


def test_a_weighing_foretells_the_rest_of_this_very_drying():
    drying = drying_room(Room(paces=NIGHTS.paces))
    at = datetime(2026, 11, 30, 9, tzinfo=UTC)
    doses = drying.doses(ENTRY, USUAL_BODY, Stage.HANDLE)
    assert doses is not None
    damp = Damp(at=at, stage=Stage.HANDLE, factor=0.4, foretold=(0.5, 0.1))
    least, likely, most = minutes_after(drying, ENTRY, USUAL_BODY, Stage.HANDLE, damp)
    assert likely == pytest.approx(doses[1] / 0.8 * 0.1)
    assert least < likely < most
