"""Plans: at once, proved, stopped, impossible, and when the solver is lost."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, plan_of, problem, problems, soonest_by_trying, waiting

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import violations
from armorplan.schedule.measures import goals
from armorplan.schedule.planning import begun_plan, best_plan, first_plan
from armorplan.schedule.problem import Lag, Plan, Status
from armorplan.solving.model import Answer, Outcome

WARDROBE = wardrobe(60)
TIGHT = wardrobe(180)


CASED = problem(
    waiting("case", 5),
    by_hand("tool", 30),
    by_hand("form", 40),
    by_hand("cut", 10),
    lags=(
        Lag(first="cut", then="case"),
        Lag(first="case", then="tool", max_lag=20, reason="Too dry to tool."),
        Lag(first="case", then="form", max_lag=20, reason="Too dry to form."),
    ),
)
"""Both have to begin within 20 minutes of casing, by one person, and each takes longer."""


class Lost:
    """A solver whose process is gone, at once or after so many solves of a real one."""

    def __init__(self, solver=None, solves=0):
        self.solver = solver
        self.left = solves

    def solve(self, model, *, on_better=None, should_stop=None):
        if not self.left:
            raise SolverLostError("gone")
        self.left -= 1
        return self.solver.solve(model, on_better=on_better, should_stop=should_stop)


class Lying:
    """A solver that answers every question with the same."""

    def __init__(self, answer):
        self.answer = answer

    def solve(self, model, **_):
        if self.answer.values:
            names = [n.name for n in model.numbers] + list(model.booleans)
            return replace(self.answer, values=tuple((name, 0) for name in names))
        return self.answer


def test_the_first_plan_holds_and_says_how_good_it_is():
    plan = first_plan(WARDROBE)
    assert violations(WARDROBE, plan) == ()
    (finish,) = plan.stages
    assert (plan.made_by, finish.name, finish.value) == ("serial", "finish", plan.finish_min)
    assert plan.status is finish.status is Status.GOOD


def test_a_first_plan_that_meets_its_bound_is_proved():
    plan = first_plan(problem(by_hand("a"), by_hand("b")))
    assert plan.status is Status.BEST
    assert plan.stages[0].bound == plan.finish_min == 20


def test_nothing_to_do_is_a_plan():
    assert first_plan(problem()) == replace(first_plan(problem()), placed=())
    assert first_plan(problem()).status is Status.BEST


def test_the_best_plan_is_proved_and_holds(solver):
    told = []
    plan = best_plan(WARDROBE, solver, seconds=60, on_better=told.append)
    assert violations(WARDROBE, plan) == ()
    assert [s.status for s in plan.stages] == [Status.BEST, Status.BEST, Status.BEST]
    assert plan.finish_min <= first_plan(WARDROBE).finish_min
    assert {s.name: s.value for s in plan.stages} == goals(WARDROBE, plan.placed)
    assert told
    assert all(violations(WARDROBE, better) == () for better in told)


@pytest.mark.parametrize("many", [4, 30, 60])
def test_a_hint_counts_the_same_whether_its_sequence_is_tried_first_or_later(many):
    bench = wardrobe(many, people=2)
    hint = first_plan(wardrobe(many))
    begun = begun_plan(bench, first_plan(bench), hint)
    assert violations(bench, begun) == ()
    assert begun == first_plan(bench, earlier=hint)


def test_from_what_cannot_be_planned_nothing_begins():
    bench = problem(by_hand("a"), lags=(Lag(first="a", then="a"),))
    first = first_plan(bench)
    assert first.status is Status.NONE
    assert begun_plan(bench, first, first_plan(WARDROBE)) is first


def test_the_same_problem_gets_the_same_plan(solver):
    for bench in (WARDROBE, wardrobe(80, people=2)):
        one, other = (best_plan(bench, solver, seconds=2, repeatable=True) for _ in range(2))
        assert one == other


def test_the_chosen_order_is_kept_where_it_costs_no_time(solver):
    bench = problem(*(by_hand(n, 10, priority=at) for at, n in enumerate("cabd")))
    plan = best_plan(bench, solver)
    assert [p.id for p in sorted(plan.placed, key=lambda p: p.start_min)] == list("cabd")
    assert [(s.name, s.value, s.status) for s in plan.stages] == [
        ("finish", 40, Status.BEST),
        ("batches, colour changes and times at the bench", 1, Status.BEST),
        ("jumps in the chosen order", 0, Status.BEST),
    ]


def test_the_chosen_order_gives_way_to_the_finish(solver):
    bench = problem(
        by_hand("trim", 40, priority=0),
        by_hand("dye", 10, priority=1),
        waiting("dry", 50),
        lags=(Lag(first="dye", then="dry"),),
    )
    plan = best_plan(bench, solver)
    assert plan.finish_min == 60
    assert plan.stages[-1].value == 1


def test_a_lost_solver_leaves_the_serial_plan():
    plan = best_plan(WARDROBE, Lost())
    assert plan == first_plan(WARDROBE)
    assert plan.status is Status.GOOD


def test_a_solver_lost_in_the_second_stage_leaves_the_first_proved(solver):
    plan = best_plan(WARDROBE, Lost(solver, solves=1))
    assert [s.status for s in plan.stages[:1]] == [Status.BEST]
    assert len(plan.stages) < len(goals(WARDROBE, plan.placed))
    assert violations(WARDROBE, plan) == ()


@pytest.mark.parametrize(
    "answer",
    [
        Answer(status=Outcome.NONE),
        Answer(status=Outcome.BEST, values=(("all", 0),), objective=0, bound=0),
        Answer(status=Outcome.OUT_OF_TIME),
    ],
)
def test_an_answer_the_checker_does_not_pass_is_not_believed(answer):
    plan = best_plan(WARDROBE, Lying(answer), seconds=0.3)
    assert plan.placed
    assert violations(WARDROBE, plan) == ()
    assert plan.stages[0] == first_plan(WARDROBE).stages[0]


def test_a_stopped_plan_is_never_called_best(solver):
    plan = best_plan(TIGHT, solver, should_stop=lambda: True)
    assert plan.status is Status.STOPPED
    assert violations(TIGHT, plan) == ()


def test_stopped_before_there_is_any():
    plan = best_plan(CASED, Lying(Answer(status=Outcome.STOPPED)))
    assert (plan.status, plan.placed) == (Status.STOPPED, ())
    assert plan.conflict == "Stopped before a plan was found."


def test_a_ring_is_told_at_once():
    bench = problem(
        by_hand("a"), by_hand("b"), lags=(Lag(first="a", then="b"), Lag(first="b", then="a"))
    )
    plan = best_plan(bench, Lost())
    assert plan.status is Status.NONE
    assert "cannot all hold" in plan.conflict


def test_a_step_too_long_for_any_opening_is_told_at_once():
    plan = best_plan(problem(by_hand("carve", 70)), Lost())
    assert plan.status is Status.NONE
    assert "70 min in one go" in plan.conflict


def test_a_conflict_with_the_hours_names_the_fewest_demands(solver):
    plan = best_plan(CASED, solver)
    assert (plan.status, plan.placed) == (Status.NONE, ())
    assert "Too dry to tool" in plan.conflict
    assert "Too dry to form" in plan.conflict
    assert "“cut”" not in plan.conflict


def test_a_lost_solver_leaves_what_the_serial_plan_said():
    plan = best_plan(CASED, Lost())
    assert (plan.status, plan.placed) == (Status.OUT_OF_TIME, ())
    assert plan.conflict == first_plan(CASED).conflict
    assert plan.conflict.startswith(("“tool”", "“form”"))


def test_a_better_hint_is_started_from(solver):
    best = best_plan(TIGHT, solver, seconds=3)
    plan = best_plan(TIGHT, Lost(), hint=best)
    assert plan.finish_min <= best.finish_min
    assert violations(TIGHT, plan) == ()


def test_a_hint_for_a_former_state_gives_its_sequence():
    """Both orders finish at once; the former plan's is kept, though its minutes are stale."""
    bench = problem(by_hand("a"), by_hand("b"))
    former = plan_of(bench, ("b", -500, -490), ("a", -300, -290), ("gone", -600, -590))
    plan = best_plan(bench, Lost(), hint=former)
    assert violations(bench, plan) == ()
    assert plan.finish_min == 20


def test_a_hint_that_breaks_the_problem_is_not_believed():
    bench = problem(by_hand("a"), by_hand("b"))
    plan = best_plan(bench, Lost(), hint=plan_of(bench, ("a", 0, 10), ("b", 5, 15)))
    assert plan.finish_min == 20


def holds_and_is_the_soonest(solver, bench):
    expected = soonest_by_trying(bench)
    plan = best_plan(bench, solver, seconds=5)
    if expected is None:
        assert plan.status is Status.NONE
        assert plan.conflict
        return
    assert violations(bench, plan) == ()
    assert plan.status is Status.BEST
    assert plan.finish_min == expected


SMALL = problems(most=5, horizon_min=14, windows=((0, 5), (7, 14)))
SHARED_SOLVER = [HealthCheck.function_scoped_fixture]


@settings(max_examples=12, deadline=None, suppress_health_check=SHARED_SOLVER)
@given(bench=SMALL)
def test_every_plan_holds_and_is_the_soonest(solver, bench):
    holds_and_is_the_soonest(solver, bench)


@pytest.mark.long
@settings(max_examples=2000, deadline=None, suppress_health_check=SHARED_SOLVER)
@given(bench=SMALL)
def test_two_thousand_plans_hold_and_are_the_soonest(solver, bench):
    holds_and_is_the_soonest(solver, bench)


def test_an_empty_plan_from_a_former_state_does_no_harm(solver):
    empty = Plan(status=Status.NONE, conflict="once")
    assert best_plan(WARDROBE, solver, hint=empty).stages[0].status is Status.BEST
