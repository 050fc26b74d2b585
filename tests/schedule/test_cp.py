"""The solver's model means what the problem says: all plans are tried beside it."""

import pytest
from hypothesis import HealthCheck, given, settings
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, problem, problems, soonest_by_trying, waiting

from armorplan.schedule.activity import Demand
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.cp import Layout
from armorplan.schedule.keeping import jumps, order_pairs
from armorplan.schedule.problem import Lag, Plan, Resource, Status
from armorplan.schedule.serial import serial_placing
from armorplan.schedule.stages import FINISH
from armorplan.schedule.table import Table
from armorplan.solving.model import Effort, Outcome

EFFORT = Effort(seconds=20)


def soonest(solver, bench, hint=()):
    """Solve for the soonest finish; a plan found has to hold."""
    layout = Layout(bench, bench.horizon_min)
    answer = solver.solve(layout.model_for(FINISH, {}, effort=EFFORT, hint=hint))
    placed = layout.placed(answer.values) if answer.values else ()
    if placed:
        plan = Plan(status=Status.GOOD, placed=placed)
        assert violations(bench, plan) == ()
        # The model's finish is never before the origin, even where all was done before it.
        assert max(0, plan.finish_min) == answer.objective
    return answer, placed


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(bench=problems(most=4, horizon_min=14, windows=((0, 5), (7, 14))))
def test_the_soonest_of_all_plans_is_found_and_proved(solver, bench):
    expected = soonest_by_trying(bench)
    if hopeless(bench):
        assert expected is None
        return
    answer, placed = soonest(solver, bench)
    if expected is None:
        assert answer.status is Outcome.NONE
    else:
        assert answer.status is Outcome.BEST
        assert max(0, answer.objective) == max(0, expected)
        assert len(placed) == len(bench.activities)


@pytest.mark.long
@settings(
    max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(bench=problems(most=4, horizon_min=14, windows=((0, 5), (7, 14))))
def test_the_soonest_of_all_plans_is_found_and_proved_in_many_drawings(solver, bench):
    test_the_soonest_of_all_plans_is_found_and_proved.hypothesis.inner_test(solver, bench)


@pytest.mark.parametrize("ready", [(25, 25, 60, 61), (2, 12, 22, 33), (5, 5, 5, 90)])
@pytest.mark.parametrize("floor", [0, 9, 10, 25, 33, 45])
def test_a_table_ends_where_the_problem_says(solver, ready, floor):
    """Cells with their own ready time, ready already, and starts beyond the last cell."""
    bench = problem(waiting("dry", earliest_min=floor, table=Table(grid_min=10, ready=ready)))
    answer, _ = soonest(solver, bench)
    ends = [bench.activities[0].table.ready_at(start) for start in range(floor, 100)]
    assert answer.objective == min(ends)


def test_a_table_can_hold_a_place_on_the_rack(solver):
    on_rack = (Demand(resource="rack", amount=1),)
    table = Table(grid_min=10, ready=(25, 45, 45, 45, 70))
    bench = problem(
        *(waiting(n, table=table, demands=on_rack) for n in "ab"),
        resources=(Resource(id="rack", capacity=1),),
    )
    answer, _ = soonest(solver, bench)
    assert answer.objective == 45


def test_a_whole_serial_plan_is_taken_as_hint(solver):
    bench = wardrobe(60, people=2)
    placing = serial_placing(bench, {a.id: (a.priority,) for a in bench.activities})
    told = []
    layout = Layout(bench, max(p.end_min for p in placing))
    model = layout.model_for(FINISH, {}, effort=EFFORT, hint=placing)
    variables = {n.name for n in model.numbers} | set(model.booleans)
    assert {name for name, _ in model.hints} == variables
    solver.solve(model, on_better=told.append, should_stop=lambda: bool(told))
    assert told[0].objective <= max(p.end_min for p in placing)


def test_hints_cover_tables_too():
    bench = problem(
        by_hand("a"),
        waiting("dry", table=Table(grid_min=10, ready=(25, 45))),
        lags=(Lag(first="a", then="dry"),),
    )
    placing = serial_placing(bench, {"a": (0,), "dry": (1,)})
    model = Layout(bench, 200).model_for(FINISH, {}, effort=EFFORT, hint=placing)
    hints = dict(model.hints)
    assert hints.keys() == {n.name for n in model.numbers} | set(model.booleans)
    assert all(any(a <= hints[n.name] <= b for a, b in n.ranges) for n in model.numbers)


def test_fewest_jumps_are_those_of_the_plan(solver):
    bench = problem(
        by_hand("a", 10, priority=0),
        by_hand("b", 10, priority=1),
        by_hand("c", 10, priority=2),
        waiting("dry", 30),
        lags=(Lag(first="b", then="dry"), Lag(first="dry", then="a")),
    )
    layout = Layout(bench, 60)
    answer = solver.solve(layout.fewest_jumps(order_pairs(bench), effort=EFFORT, hint=()))
    assert answer.status is Outcome.BEST
    assert answer.objective == jumps(bench, layout.placed(answer.values)) == 1
