"""The solver's model of small random shops against every plan there is of them."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from schedule.random_shops import all_plans, best_goals, shops

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
@settings(_QUICKLY, max_examples=12)
def test_each_stage_is_the_least_of_all_plans(solver, problem):
    held_against_all(solver, problem)


@pytest.mark.long
@given(problem=shops(most=4))
@settings(_QUICKLY, max_examples=1000)
def test_each_stage_is_the_least_of_all_plans_in_many_drawings(solver, problem):
    held_against_all(solver, problem)


@st.composite
def begun(draw):
    """Draw a shop, one of its plans, and which of it lies fixed: whole batches, or none of them."""
    problem = draw(shops(most=3))
    plan = next(iter(all_plans(problem)), None)
    assume(plan is not None)
    lies = {p.id: p for p in plan}
    batches = {}
    for a in problem.activities:
        batches.setdefault((bool(a.dip), lies[a.id].start_min, a.dip is None and a.id), []).append(
            a.id
        )
    kept = draw(st.sets(st.sampled_from(sorted(batches, key=str))))
    names = {name for batch in kept for name in batches[batch]}
    return problem, lies, names


@given(drawn=begun())
@settings(_QUICKLY, max_examples=8)
def test_around_what_lies_fixed_the_soonest_of_all_plans_is_found(solver, drawn):
    problem, lies, names = drawn
    pinned = replace(
        problem, activities=tuple(_pinned(a, lies[a.id], names) for a in problem.activities)
    )
    held = replace(
        problem, activities=tuple(_held(a, lies[a.id], names) for a in problem.activities)
    )
    least = min(
        max(p.end_min for p in plan)
        for plan in all_plans(held)
        if all(lies[p.id] == p for p in plan if p.id in names)
    )
    layout = Layout(pinned, problem.horizon_min)
    hint = tuple(lies[a.id] for a in problem.activities)
    model = layout.model_for("finish", {}, effort=EFFORT, hint=hint)
    fits_its_model(model)
    answer = solver.solve(model)
    placed = layout.placed(answer.values)
    assert violations(pinned, Plan(status=Status.GOOD, placed=placed)) == ()
    assert violations(problem, Plan(status=Status.GOOD, placed=placed)) == ()
    assert (answer.status, answer.objective) == (Outcome.BEST, least)


def _pinned(activity, placed, names):
    if activity.id not in names:
        return activity
    return replace(
        activity,
        fixed_start_min=placed.start_min,
        fixed_end_min=placed.end_min,
        fixed_who=placed.who,
        fixed_mode=placed.mode,
    )


def _held(activity, placed, names):
    """The same said by what it may do: so there are fewer plans to go through."""
    if activity.id not in names:
        return activity
    modes = tuple(m for m in activity.modes if (m.who, m.name) == (placed.who, placed.mode))
    return replace(
        activity,
        earliest_min=placed.start_min,
        latest_start_min=placed.start_min,
        modes=modes,
        people=() if modes or placed.who is None else (placed.who,),
    )
