"""Whatever was done, in whatever order, leaves a plan; only windows that are missed are let go."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.assembly.model import Side
from armorplan.relations.model import Before, BeforeAll, Force, Reason
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.schedule.bench_history import History
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.shop import one_maker

MONDAY_9 = datetime(2025, 3, 3, 9, tzinfo=UTC)
WHY = Reason(rule="r", text="Because.", force=Force.CANNOT, source="common practice, no source")


def step(name, kind, minutes, **parts):
    return Step(
        id=name,
        kind=kind,
        piece="cop",
        side=Side.SINGLE,
        title=name.capitalize(),
        tray=name,
        parts=("gore",),
        minutes=minutes,
        **parts,
    )


STEPS = (
    step("cut", StepKind.CUT, 20),
    step("case", StepKind.CASE, 5),
    step("form", StepKind.FORM, 25),
    step("case again", StepKind.CASE, 5),
    step("tool", StepKind.TOOL, 40),
    step("dye", StepKind.DYE, 15),
    step("dry", StepKind.DRY, 300, attended=False, after="dye"),
    step("left", StepKind.RIVET, 4),
    step("right", StepKind.RIVET, 4),
    step("inner", StepKind.RIVET, 4),
)
ORDER = tuple(s.id for s in STEPS)


def before(first, then, low=0, high=None):
    return Before(first=first, then=then, reason=WHY, lag_min=low, max_lag_min=high)


RELATIONS = (
    before("cut", "case"),
    before("case", "form", 10, 60),
    before("form", "case again"),
    before("case again", "tool", 10, 60),
    before("tool", "dye"),
    before("dye", "dry", 0, 0),
    before("dry", "left"),
    before("dry", "right"),
    BeforeAll(first="inner", of=frozenset({"left", "right"}), reason=WHY),
)


def planned(done=(), running=(), *, at=MONDAY_9):
    problem = problem_from(
        Work(steps=STEPS),
        RELATIONS,
        Workplace(shop=one_maker("UTC"), shelf=sketch_shelf()),
        origin_at=at,
        order=ORDER,
        history=History(done=dict(done), running=dict(running), worked_min={}),
    )
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return problem, {p.id: p.start_min for p in plan.placed}


def ended(minutes_ago):
    end_at = MONDAY_9 - timedelta(minutes=minutes_ago)
    return (end_at - timedelta(minutes=5), end_at)


def most(problem):
    return {(lag.first, lag.then): lag.max_lag for lag in problem.lags if lag.max_lag is not None}


def test_of_two_windows_only_the_missed_one_is_let_go():
    done = {"cut": ended(300), "case": ended(200), "case again": ended(20)}
    problem, start = planned(done)
    assert most(problem) == {("dye", "dry"): 0, ("case again", "tool"): 60}
    assert start["tool"] <= 40


def test_two_windows_that_cannot_both_be_met_leave_a_plan():
    """Forming takes 25 minutes and tooling 40, and both windows close in 5."""
    done = {"cut": ended(300), "case": ended(55), "case again": ended(55)}
    problem, start = planned(done)
    assert most(problem) == {("dye", "dry"): 0}
    assert min(start["form"], start["tool"]) == 0


def test_a_window_of_a_step_under_way_is_kept():
    problem, start = planned({"cut": ended(30)}, {"case": MONDAY_9 - timedelta(minutes=2)})
    assert most(problem)["case", "form"] == 60
    assert start["form"] == 13


@settings(max_examples=24, deadline=None)
@given(
    done=st.dictionaries(st.sampled_from(ORDER), st.integers(0, 4000)),
    running=st.dictionaries(st.sampled_from(ORDER), st.integers(0, 300), max_size=3),
    hours=st.integers(0, 7 * 24),
)
def test_any_history_leaves_a_plan(done, running, hours):
    at = MONDAY_9 + timedelta(hours=hours)
    spans = {
        name: (at - timedelta(minutes=ago + 5), at - timedelta(minutes=ago))
        for name, ago in done.items()
    }
    begun = {
        name: at - timedelta(minutes=ago) for name, ago in running.items() if name not in done
    }
    planned(spans, begun, at=at)


@pytest.mark.long
@settings(max_examples=400, deadline=None)
@given(
    done=st.dictionaries(st.sampled_from(ORDER), st.integers(0, 4000)),
    running=st.dictionaries(st.sampled_from(ORDER), st.integers(0, 300), max_size=3),
    hours=st.integers(0, 7 * 24),
)
def test_any_history_leaves_a_plan_in_many_drawings(done, running, hours):
    test_any_history_leaves_a_plan.hypothesis.inner_test(done, running, hours)
