"""A damp window shorter than the grid of the tables does not vanish in it."""

import pytest
from drying.sample_rooms import MORNING, cold_nights, entry

from armorplan.drying.body import Body
from armorplan.drying.spans import Stage
from armorplan.schedule.drying_tables import Drier
from armorplan.steps.windows import StepWindow
from armorplan.workshop.shelf import Shelf

CASING = entry(id="casing", window_min=(10, 60), reference_mm=3.5)
SHELF = Shelf(leathers=(), fasteners=(), treatments=(CASING,), durations=())


def lag(thickness_mm):
    window = StepWindow(
        first="case",
        then="form",
        treatment="casing",
        body=Body(thickness_mm=thickness_mm),
        opens=Stage.OPENS,
        closes=Stage.CLOSES,
    )
    return Drier(SHELF, cold_nights(), MORNING).window(window, 96)


@pytest.mark.parametrize("thickness_mm", [3.0, 3.5, 5.0])
def test_thick_leather_goes_by_the_hour(thickness_mm):
    found = lag(thickness_mm)
    assert found is not None
    assert all(
        shut > begun for begun, shut in zip(found.opens.ready, found.closes.ready, strict=True)
    )


@pytest.mark.parametrize("thickness_mm", [0.8, 1.2, 1.6])
def test_thin_leather_keeps_the_minutes_of_a_usual_day(thickness_mm):
    assert lag(thickness_mm) is None
