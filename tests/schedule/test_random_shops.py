"""Plans of small random shops against every plan there is of them."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from schedule.random_shops import all_plans, best_goals, shops

from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Status

# Not made smaller: every try goes through all plans, which takes minutes for a failure.
_QUICKLY = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
FEW = settings(_QUICKLY, max_examples=12)
MANY = settings(_QUICKLY, max_examples=1500)


def held_against_all(problem):
    """Check a first plan against all plans: it holds, and its bounds are true."""
    plan = first_plan(problem)
    best = best_goals(problem)
    if plan.status is Status.NONE:
        assert best is None, plan.conflict
    if plan.placed:
        assert violations(problem, plan) == ()
        assert best is not None
        name, least = next(iter(best.items()))
        stage = next(s for s in plan.stages if s.name == name)
        assert stage.bound <= least <= stage.value


@given(shops(most=3))
@FEW
def test_a_first_plan_holds_and_bounds_are_true(problem):
    held_against_all(problem)


@pytest.mark.long
@given(shops(most=4))
@MANY
def test_many_first_plans_hold_and_bounds_are_true(problem):
    held_against_all(problem)


@given(shops(most=2))
@settings(FEW, max_examples=10)
def test_every_plan_gone_through_passes_the_checker(problem):
    for placed in all_plans(problem):
        assert violations(problem, Plan(status=Status.GOOD, placed=placed)) == ()
