"""The next steps laid anew by the solver: an hour lost moves a few of them and nothing later."""

import pytest
from schedule.full_week import full_week
from schedule.hand_shops import HOUR
from schedule.test_keeping_to import TUESDAY_MIN, delayed

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import violations
from armorplan.schedule.keeping_to import stood_in
from armorplan.schedule.measures import goals
from armorplan.schedule.near_now import laid_near_now
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.rearranging import still_standing
from armorplan.schedule.stages import LATENESS, MOVED


@pytest.fixture(scope="module")
def late():
    """Three hundred steps, an hour late on Tuesday."""
    problem = full_week(scale=0.9)
    plan = first_plan(problem)
    now = delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR)
    return stood_in(now, plan), plan


def test_an_hour_late_moves_a_few_steps_only(late, solver):
    now, plan = late
    found = next(filter(None, laid_near_now(now, still_standing(now), solver, lambda: False)))
    assert violations(now, Plan(status=Status.GOOD, placed=found)) == ()
    values = goals(now, found)
    # On a quiet machine 3 to 10 in 100; a busy one gives the solver less of its time.
    assert 0 < values[MOVED] <= len(now.stood) / 4
    assert values[LATENESS] <= goals(now, plan.placed)[LATENESS]


def test_without_a_solver_nothing_is_yielded(late):
    class Gone:
        def solve(self, *_args, **_more):
            message = "The solver is gone."
            raise SolverLostError(message)

    now, _ = late
    assert list(laid_near_now(now, still_standing(now), Gone(), lambda: False)) == []
