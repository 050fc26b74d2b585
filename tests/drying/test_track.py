"""Doses on the grid: what one gives back the other takes, on borders and between them."""

from datetime import UTC, datetime, timedelta
from math import inf
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.drying.track import GRID_MIN, Track, cell_of, start_of

PACES = st.lists(st.sampled_from((0.0, 0.1, 0.5, 1.0, 2.5)), min_size=2, max_size=12)
QUARTER = timedelta(minutes=15)


def slowly(paces, start_min, dose):
    """Return the minute a dose has passed, minute by minute."""
    passed, minute = 0.0, start_min
    while passed < dose - 1e-6:
        if minute >= len(paces) * GRID_MIN:
            return inf
        passed += paces[minute // GRID_MIN]
        minute += 1
    return minute


@settings(max_examples=60)
@given(PACES, st.integers(0, 100), st.integers(0, 120))
def test_a_dose_is_reached_when_minute_by_minute_it_is(paces, start_min, dose):
    start_min = min(start_min, len(paces) * GRID_MIN)
    track = Track(0, np.array(paces))
    begun = np.array([float(start_min)])
    found = float(track.reached(track.dose(begun) + dose)[0])
    told = slowly(paces, start_min, dose)
    if dose and told < inf:
        assert told - 1 - 1e-6 < found <= told + 1e-6
    elif dose:
        assert found == inf


@settings(max_examples=30)
@given(PACES, st.floats(0.0, 180.0))
def test_what_passed_by_a_minute_is_reached_by_it(paces, minute):
    track = Track(0, np.array(paces))
    at = np.array([min(minute, len(paces) * GRID_MIN)])
    assert float(track.reached(track.dose(at))[0]) <= at[0] + 1e-6


def test_a_dose_that_is_full_at_dusk_does_not_wait_for_the_morning():
    # 0.1 is no sum of binary fractions: three quarters of an hour of it miss 4.5 by a hair.
    track = Track(0, np.array([0.1, 0.1, 0.1, 0.0, 0.0, 1.0]))
    begun = track.dose(np.array([0.0]))
    for dose in (4.5, 0.1 * 3 * 15, 4.5 + 1e-9):
        assert float(track.reached(begun + dose)[0]) == pytest.approx(45.0, abs=1e-4)


@pytest.mark.parametrize("zone", ["UTC", "Europe/Lisbon", "Asia/Kathmandu"])
def test_cells_begin_on_the_quarters_of_an_hour(zone):
    at = datetime(2026, 3, 29, 0, 59, 59, tzinfo=UTC).astimezone(ZoneInfo(zone))
    cell = cell_of(at)
    assert start_of(cell) == datetime(2026, 3, 29, 0, 45, tzinfo=UTC)
    assert cell_of(start_of(cell + 1)) == cell + 1
    assert cell_of(start_of(cell) - timedelta(microseconds=1)) == cell - 1
    assert start_of(cell + 1) - start_of(cell) == QUARTER


def test_cells_before_the_grid_s_first_are_counted_too():
    assert start_of(cell_of(datetime(1987, 6, 1, 3, 5, tzinfo=UTC))) == datetime(
        1987, 6, 1, 3, tzinfo=UTC
    )


def test_minutes_of_an_instant_in_another_zone():
    track = Track(cell_of(datetime(2026, 3, 29, 0, tzinfo=UTC)), np.array([1.0]))
    at = datetime(2026, 3, 29, 2, 30, tzinfo=ZoneInfo("Europe/Lisbon"))
    assert track.minutes_of(at) == 90.0
