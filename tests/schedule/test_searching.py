"""The search: stages one after another, parts of large problems, stops, lost solvers, repeats."""

import os
import signal
from dataclasses import replace
from random import Random
from time import perf_counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.bench_problems import wardrobe
from schedule.full_week import full_week, load
from schedule.random_shops import best_goals, shops

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule import searching
from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.improving import Improver
from armorplan.schedule.measures import goals
from armorplan.schedule.neighbourhoods import KINDS, Grounds
from armorplan.schedule.piecewise import PartByPart
from armorplan.schedule.pinning import Pinner, merged_plan
from armorplan.schedule.planning import best_plan, first_plan, sought_plan
from armorplan.schedule.problem import Placed, Plan, Problem, Status, Worker
from armorplan.schedule.searching import Asked, Search
from armorplan.schedule.stages import LATENESS
from armorplan.solving.keeper import SolverKeeper
from armorplan.solving.model import Effort

posix_only = pytest.mark.skipif(os.name != "posix", reason="sends POSIX signals")
WEEK = full_week(builds=2, scale=2.0)
LARGE = full_week()


@pytest.fixture(scope="module")
def first():
    return first_plan(LARGE)


def test_the_full_week_is_full_and_has_everything():
    assert len(LARGE.activities) == 300
    assert load(LARGE) > 0.9
    assert {j.due_min is not None for j in LARGE.jobs} == {True}
    assert LARGE.holds
    assert LARGE.baths[0].change_min
    assert {a.sitting_min > 0 for a in LARGE.activities} == {True, False}


def is_the_best_of_all(solver, shop):
    """The search's plan is as good in every stage as the best of all plans there are."""
    best = best_goals(shop)
    if best is None:
        return
    plan = best_plan(shop, solver, seconds=20)
    assert violations(shop, plan) == ()
    assert goals(shop, plan.placed) == best
    assert [s.status for s in plan.stages] == [Status.BEST] * len(best)


SHARED_SOLVER = [HealthCheck.function_scoped_fixture]


@settings(max_examples=8, deadline=None, suppress_health_check=SHARED_SOLVER)
@given(shop=shops(most=3))
def test_small_shops_get_the_best_plan_of_all(solver, shop):
    is_the_best_of_all(solver, shop)


@pytest.mark.long
@settings(max_examples=300, deadline=None, suppress_health_check=SHARED_SOLVER)
@given(shop=shops())
def test_three_hundred_small_shops_get_the_best_plan_of_all(solver, shop):
    is_the_best_of_all(solver, shop)


def test_a_step_is_kept_where_it_stood_though_all_ends_later(solver):
    """The least that has to move is asked of all plans, not of those that end as early only."""
    steps = tuple(Activity(id=name, minutes=2, people=("maker",)) for name in ("a", "b"))
    stood = tuple(
        Placed(id=i, start_min=at, end_min=at + 2, who="maker") for i, at in (("a", 0), ("b", 20))
    )
    shop = Problem(
        origin_at=WEEK.origin_at,
        horizon_min=60,
        activities=steps,
        workers=(Worker(id="maker", windows=((0, 60),)),),
        stood=stood,
    )
    plan = best_plan(shop, solver, seconds=5)
    assert {p.id: p.start_min for p in plan.placed} == {"a": 0, "b": 20}


@settings(max_examples=8, deadline=None, suppress_health_check=SHARED_SOLVER)
@given(shop=shops(most=3), at=st.lists(st.integers(0, 12), min_size=3, max_size=3))
def test_small_shops_with_a_plan_to_keep_to_get_the_best_of_all(solver, shop, at):
    stood = tuple(
        Placed(id=one.id, start_min=start, end_min=start + one.minutes, who=way.who, mode=way.name)
        for one, start in zip(shop.activities, at, strict=False)
        for way in one.ways[:1]
        if one.fixed_start_min is None
    )
    is_the_best_of_all(solver, replace(shop, stood=stood))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_what_is_freed_belongs_together_and_the_rest_stays(first, kind):
    lies = {p.id: p for p in first.placed}
    grounds = Grounds(LARGE)
    rng = Random(3)  # noqa: S311
    free = grounds.closed(KINDS[kind](grounds, lies, 40, rng), lies)
    assert 2 <= len(free) < len(LARGE.activities)
    for lag in LARGE.lags:
        if lag.max_lag is not None:
            assert (lag.first in free) == (lag.then in free)
    dips = {a.id for a in LARGE.activities if a.dip}
    for one in dips & free:
        mates = {i for i in dips if lies[i].start_min == lies[one].start_min}
        assert mates <= free
    part = Pinner(LARGE).part(first.placed, free, span=(0, LARGE.horizon_min))
    moves = {a.id for a in part.problem.activities if a.fixed_start_min is None}
    assert moves == free
    assert violations(part.problem, Plan(status=Status.GOOD, placed=part.placed)) == ()


def test_only_what_was_free_is_taken_from_an_answer(first):
    moved = tuple(replace(p, start_min=p.start_min + 1) for p in first.placed)
    free = frozenset(p.id for p in first.placed[:3])
    merged = merged_plan(first.placed, moved, free)
    assert merged == (*moved[:3], *first.placed[3:])


def test_a_part_is_laid_better_and_holds(solver, first):
    """Within so many parts something is gained; every plan it leads to holds."""
    improver = Improver(LARGE, 1)
    improver._sizes = dict.fromkeys(KINDS, 36.0)
    parts = PartByPart(LARGE, improver, LATENESS, first.placed)
    gained = 0
    for _ in range(20):
        answer = solver.solve(parts.model(Effort(seconds=2, work=0.03)))
        found = parts.plan_in(answer)
        nearer = parts.is_nearer(found)
        parts.learn(answer, gained=nearer)
        if nearer:
            assert violations(LARGE, Plan(status=Status.GOOD, placed=found)) == ()
            parts.at_hand = found
            gained += 1
        if gained:
            break
    assert gained


def test_plans_told_hold_and_get_better(solver, first):
    told = []
    plan = sought_plan(
        LARGE,
        solver,
        first,
        seconds=20,
        on_better=told.append,
        should_stop=lambda: len(told) >= 2,
    )
    worth = [tuple(goals(LARGE, p.placed).values()) for p in (first, *told)]
    assert worth == sorted(worth, reverse=True)
    assert all(violations(LARGE, p) == () for p in (*told, plan))
    assert plan.status in (Status.STOPPED, Status.GOOD)


def test_a_repeatable_search_gives_the_same_plan_again(solver):
    one, other = (best_plan(LARGE, solver, seconds=0.4, repeatable=True, seed=2) for _ in range(2))
    assert one == other
    assert violations(LARGE, one) == ()


class Busy:
    """A solver that answers a stop only long after it was asked to."""

    def solve(self, *_, **__):
        until = perf_counter() + 1.0
        while perf_counter() < until:
            pass
        raise SolverLostError("too late")


def test_a_stop_is_answered_at_once_whatever_the_search_is_at(first, monkeypatch):
    monkeypatch.setattr(searching, "_LAID_S", 0.0)
    monkeypatch.setattr(searching, "_LAID_ROUNDS", 0)
    begun = perf_counter()
    stopped = []

    def should_stop():
        if perf_counter() - begun > 0.3 and not stopped:
            stopped.append(perf_counter())
        return bool(stopped)

    plan = sought_plan(LARGE, Busy(), first, seconds=60, should_stop=should_stop)
    assert perf_counter() - stopped[0] < 0.6
    assert plan.status is Status.STOPPED
    assert plan.placed == first.placed


def test_an_error_of_the_search_is_not_swallowed(first):
    class Broken:
        def solve(self, *_, **__):
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        sought_plan(LARGE, Broken(), first, seconds=5, should_stop=lambda: False)


@posix_only
def test_killed_in_mid_solve_the_search_goes_on():
    """The first worker dies as it solves; the plan is found and proved by the next."""
    bench = wardrobe(60)
    with SolverKeeper() as keeper:
        killed = []
        solve = keeper.solve

        def kill_once(model, **asked):
            better = asked.pop("on_better", None)

            def told(answer):
                if not killed:
                    killed.append(keeper._worker.pid)
                    os.kill(killed[0], signal.SIGKILL)
                if better is not None:
                    better(answer)

            return solve(model, on_better=told, **asked)

        keeper.solve = kill_once
        plan = best_plan(bench, keeper, seconds=60)
        assert killed
        assert keeper._worker.pid != killed[0]
    assert violations(bench, plan) == ()
    assert plan.stages[0].status is Status.BEST


@posix_only
def test_hanging_for_good_leaves_the_serial_plan():
    """Every worker is halted as soon as it is asked; what was laid at once stands, and is told."""
    bench = wardrobe(60)
    with SolverKeeper(grace_s=0.0) as keeper:
        keeper.warm_up()
        solve = keeper.solve
        halted = []

        def halt(model, **asked):
            def stop_worker():
                pid = keeper._worker.pid
                if keeper._worker.ready and pid not in halted:
                    halted.append(pid)
                    os.kill(pid, signal.SIGSTOP)
                return False

            asked["should_stop"] = stop_worker
            brief = replace(model, effort=replace(model.effort, seconds=0.05))
            return solve(replace(brief, hints=()), **asked)

        keeper.solve = halt
        plan = best_plan(bench, keeper, seconds=30)
    assert len(halted) >= 3
    assert violations(bench, plan) == ()
    assert plan.placed


def test_a_search_that_lost_its_solver_often_ends(first, monkeypatch):
    monkeypatch.setattr(searching, "_LAID_S", 0.1)
    monkeypatch.setattr(searching, "_LAID_ROUNDS", 0)

    class Lost:
        asked = 0

        def solve(self, *_, **__):
            self.asked += 1
            raise SolverLostError("gone")

    lost = Lost()
    plan = Search(LARGE, lost, first, Asked(seconds=60)).run()
    assert lost.asked == 3
    assert violations(LARGE, plan) == ()
    assert goals(LARGE, plan.placed)[LATENESS] <= first.stages[0].value


def test_a_part_that_was_searched_through_is_larger_next_time():
    improver = Improver(LARGE, 1)
    placed = first_plan(LARGE).placed
    trial = improver.draw(placed)
    before = improver._sizes[trial.kind]
    improver.learn(trial, gained=False, searched_through=True)
    grown = improver._sizes[trial.kind]
    improver.learn(trial, gained=False, searched_through=False)
    assert before < grown
    assert improver._sizes[trial.kind] < grown


def test_builds_that_are_due_come_first_and_say_how_late_they_are_at_least(solver):
    plan = best_plan(WEEK, solver, seconds=1)
    assert [s.name for s in plan.stages][:2] == ["lateness", "finish"]
    assert all(s.bound <= s.value for s in plan.stages)
    assert violations(WEEK, plan) == ()
