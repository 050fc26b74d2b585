"""The lateness no plan can beat, where builds hang in each other's way."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from schedule.random_shops import best_goals, shops
from schedule.small_problems import problem, waiting

from armorplan.schedule.bounds import lateness_bound
from armorplan.schedule.measures import lateness
from armorplan.schedule.problem import Hold, Job, Lag, Resource
from armorplan.schedule.serial import serial_placing
from armorplan.schedule.stages import LATENESS

QUICKLY = settings(
    deadline=None, suppress_health_check=list(HealthCheck), phases=(Phase.explicit, Phase.generate)
)


def hung(*jobs):
    """Dyed in ten minutes, and taken down thirty minutes after by a step of ten."""
    return problem(
        waiting("dye"),
        waiting("off"),
        lags=(Lag(first="dye", then="off", min_lag=30),),
        resources=(Resource(id="rack", capacity=1),),
        holds=(Hold(resource="rack", amount=1, first="dye", until=("off",)),),
        jobs=jobs,
    )


def least_late(bench):
    """Everything at its soonest."""
    placed = serial_placing(bench, {a.id: (0,) for a in bench.activities})
    return lateness(bench, {p.id: p for p in placed})


def test_what_another_build_takes_down_hangs_on_after_the_first_has_ended():
    """The first ends at 10 and is not late; that it hangs until 40 is the other's."""
    first, other = (
        Job(id="one", activities=("dye",), due_min=5),
        Job(id="two", activities=("off",)),
    )
    bench = hung(first, other)
    assert lateness_bound(bench) == least_late(bench) == 5


def test_what_a_build_takes_down_itself_counts_for_it():
    bench = hung(Job(id="one", activities=("dye", "off"), due_min=5))
    assert lateness_bound(bench) == least_late(bench) == 45


def held_against_all(shop):
    """No plan is less late than the bound."""
    best = best_goals(shop) if any(j.due_min is not None for j in shop.jobs) else None
    if best is not None:
        assert lateness_bound(shop) <= best[LATENESS]


@pytest.mark.long
@settings(QUICKLY, max_examples=400)
@given(shops(most=3))
def test_no_plan_of_many_shops_is_less_late_than_the_bound(shop):
    held_against_all(shop)
