"""A damp window shorter than the grid of the tables does not vanish in it."""

from datetime import timedelta

import pytest
from drying.sample_rooms import MORNING, cold_nights, entry

from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.track import GRID_MIN
from armorplan.schedule.drying_tables import Drier
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.steps.windows import StepWindow
from armorplan.workshop.shelf import Shelf

CASING = entry(id="casing", window_min=(10, 60), reference_mm=3.5)
SHELF = Shelf(leathers=(), fasteners=(), treatments=(CASING,), durations=())


def window(thickness_mm):
    return StepWindow(
        first="case",
        then="form",
        treatment="casing",
        body=Body(thickness_mm=thickness_mm),
        opens=Stage.OPENS,
        closes=Stage.CLOSES,
    )


@pytest.mark.parametrize("thickness_mm", [0.8, 1.6, 3.5, 5.0])
def test_whenever_it_is_cased_its_window_is_told_nearly_to_the_minute(thickness_mm):
    room = drying_room(cold_nights())
    body = Body(thickness_mm=thickness_mm)
    found = Drier(SHELF, cold_nights(), MORNING).window(window(thickness_mm), 96)
    short = 0
    for end in range(0, 24 * 60, 7):
        at = MORNING + timedelta(minutes=end)
        opens = room.minutes(CASING, body, Stage.OPENS, at)
        closes = room.minutes(CASING, body, Stage.CLOSES, at)
        assert end + opens - 1 <= opens_at(found, end) <= end + opens + GRID_MIN
        assert end + closes - GRID_MIN <= closes_at(found, end) <= end + closes + 1
        short += closes_at(found, end) - opens_at(found, end) < closes - opens - 2
    assert short < 20  # Of 206; only around the hours at which the air changes.


def test_a_window_that_counts_from_a_known_end_is_told_in_plain_minutes():
    drier = Drier(SHELF, cold_nights(), MORNING)
    end_at = MORNING - timedelta(minutes=5, seconds=20)
    found = drier.window_from(window(3.5), end_at)
    room, body = drying_room(cold_nights()), Body(thickness_mm=3.5)
    opens = room.minutes(CASING, body, Stage.OPENS, end_at)
    closes = room.minutes(CASING, body, Stage.CLOSES, end_at)
    # It ended in minute -6: what it opens at is counted from there, and never too soon.
    assert (found.min_lag, found.max_lag) == (opens + 1, closes)
    assert (found.opens, found.closes) == (None, None)
