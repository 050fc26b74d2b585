"""Plans of wardrobes and full weeks: at once, proved, and better. Goals on 2 cores: 0.1 s and 1 s.

The ratio of a first plan is against ``networkx.dag_longest_path_length`` over its minimum lags,
in the same run; that of a best plan is its finish to the first plan's, and to what is proved.
"""

from time import perf_counter

import networkx as nx
import pytest
from bench.stopwatch import seconds
from schedule.bench_problems import wardrobe
from schedule.full_week import full_week
from solving.small_models import long_search, two_tasks

from armorplan.schedule.bounds import finish_bound
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import best_plan, first_plan, sought_plan
from armorplan.solving.keeper import SolverKeeper

pytestmark = pytest.mark.bench


@pytest.fixture(scope="module")
def solver():
    with SolverKeeper() as keeper:
        keeper.solve(two_tasks())
        yield keeper


def longest_path(problem):
    minutes = {a.id: a.minutes for a in problem.activities}
    graph = nx.DiGraph()
    graph.add_nodes_from(minutes)
    graph.add_weighted_edges_from(
        (lag.first, lag.then, minutes[lag.first] + lag.min_lag) for lag in problem.lags
    )
    return nx.dag_longest_path_length(graph)


def note(benchmark, **facts):
    if benchmark.enabled:
        benchmark.extra_info.update(facts)


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("steps", [60, 120, 300])
def test_first_plan(benchmark, steps, people):
    bench = wardrobe(steps, people=people)
    plan = benchmark(first_plan, bench)
    assert violations(bench, plan) == ()
    baseline_s = min(seconds(longest_path, bench) for _ in range(5))
    if benchmark.enabled:
        note(
            benchmark,
            ratio_to_networkx=benchmark.stats.stats.min / baseline_s,
            finish_to_bound=plan.finish_min / finish_bound(bench),
        )


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("steps", [60, 120])
def test_best_plan_proved(benchmark, solver, steps, people):
    bench = wardrobe(steps, people=people)
    plan = benchmark.pedantic(
        best_plan, (bench, solver), {"seconds": 10}, rounds=3, warmup_rounds=0
    )
    finish = plan.stages[0]
    assert violations(bench, plan) == ()
    assert finish.bound == finish.value
    note(
        benchmark,
        finish_to_first_plan=plan.finish_min / first_plan(bench).finish_min,
        stages=[f"{s.name} {s.value} ({s.bound}) {s.status}" for s in plan.stages],
    )


def test_soonest_finish_of_120_steps_proved(benchmark, solver):
    """The first stage alone: from the first better plan told to the proof, without the order."""
    bench = wardrobe(120, people=2)
    told = []

    def until_proved():
        told.clear()
        return best_plan(
            bench,
            solver,
            on_better=told.append,
            should_stop=lambda: any(len(p.stages) > 1 for p in told),
        )

    plan = benchmark.pedantic(until_proved, rounds=3)
    assert plan.stages[0].bound == plan.stages[0].value


@pytest.mark.parametrize("people", [1, 2])
def test_best_plan_of_300_steps_in_ten_seconds(benchmark, solver, people):
    bench = wardrobe(300, people=people)
    plan = benchmark.pedantic(best_plan, (bench, solver), {"seconds": 10}, rounds=1)
    assert violations(bench, plan) == ()
    note(
        benchmark,
        finish_to_first_plan=plan.finish_min / first_plan(bench).finish_min,
        finish_to_bound=plan.finish_min / plan.stages[0].bound,
    )


def test_a_full_week_gets_better(benchmark, solver):
    """A few seconds of 300 steps at a load of nine tenths; the table's minute is in schedule_table."""
    bench = full_week()
    first = first_plan(bench)
    plan = benchmark.pedantic(
        sought_plan, (bench, solver, first), {"seconds": 4, "repeatable": True}, rounds=1
    )
    assert violations(bench, plan) == ()
    late, late_first = plan.stages[0].value, first.stages[0].value
    assert late < late_first
    note(benchmark, lateness_to_first_plan=late / late_first)


def test_fifty_builds_have_a_plan_that_holds(benchmark):
    """Three thousand steps; the goal is 5 s with the check."""
    bench = full_week(builds=50)

    def planned_and_checked():
        return violations(bench, first_plan(bench))

    assert benchmark.pedantic(planned_and_checked, rounds=1) == ()


def test_stopping_a_search(benchmark, solver):
    """From the wish to stop to the answer: the goal is 100 ms."""
    asked = []

    def setup():
        asked.clear()

    def stop_at_the_first_answer():
        told = []

        def should_stop():
            if told and not asked:
                asked.append(perf_counter())
            return bool(told)

        solver.solve(long_search(), on_better=told.append, should_stop=should_stop)
        return perf_counter() - asked[0]

    waits = []
    benchmark.pedantic(lambda: waits.append(stop_at_the_first_answer()), setup=setup, rounds=5)
    note(benchmark, longest_wait_s=max(waits))
    assert len(asked) == 1


def test_starting_the_solver(benchmark):
    """A cold worker process to its first answer, and its end."""

    def start_solve_end():
        with SolverKeeper() as keeper:
            return keeper.solve(two_tasks())

    answer = benchmark.pedantic(start_solve_end, rounds=3)
    assert answer.objective == 15
