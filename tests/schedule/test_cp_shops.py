"""The solver's model of small random shops against every plan there is of them."""

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from schedule.random_shops import best_goals, shops

from armorplan.schedule.checker import violations
from armorplan.schedule.cp import Layout
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Plan, Status
from armorplan.solving.model import Effort, Outcome

EFFORT = Effort(seconds=20)
# Not made smaller: every try goes through all plans, which takes minutes for a failure.
_QUICKLY = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)


def fits_its_model(model):
    """Check that the hint names every variable, each within its ranges."""
    hints = dict(model.hints)
    assert hints.keys() == {n.name for n in model.numbers} | set(model.booleans)
    assert all(any(a <= hints[n.name] <= b for a, b in n.ranges) for n in model.numbers)


def held_against_all(solver, problem):
    """Solve stage by stage: each comes to what is the least of all plans."""
    best = best_goals(problem)
    if lag_cycle(problem):
        assert best is None
        return
    layout = Layout(problem, problem.horizon_min)
    kept, hint = {}, ()
    for stage, least in (best or {"finish": 0}).items():
        model = layout.model_for(stage, kept, effort=EFFORT, hint=hint)
        if hint:
            fits_its_model(model)
        answer = solver.solve(model)
        if best is None:
            assert answer.status is Outcome.NONE
            return
        assert answer.status is Outcome.BEST
        placed = layout.placed(answer.values)
        assert violations(problem, Plan(status=Status.GOOD, placed=placed)) == ()
        assert answer.objective == goals(problem, placed)[stage] == least, stage
        kept[stage], hint = least, placed


@given(problem=shops(most=3))
@settings(_QUICKLY, max_examples=30)
def test_each_stage_is_the_least_of_all_plans(solver, problem):
    held_against_all(solver, problem)


@pytest.mark.long
@given(problem=shops(most=4))
@settings(_QUICKLY, max_examples=1000)
def test_each_stage_is_the_least_of_all_plans_in_many_drawings(solver, problem):
    held_against_all(solver, problem)
