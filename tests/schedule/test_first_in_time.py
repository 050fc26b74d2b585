"""A first plan of many steps: in the time given, stopped when asked, and given up when proved."""

from dataclasses import replace
from threading import Event
from time import monotonic

import pytest
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, problem

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule import first, planning
from armorplan.schedule.activity import Demand, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.first import better_laid_like, first_placing
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import best_plan, first_plan, sought_plan
from armorplan.schedule.problem import Plan, Resource, Status, Worker
from armorplan.schedule.serial import Stuck, serial_placings

MANY = wardrobe(1200, people=4, rack=60)


class Lost:
    """A solver that cannot be had."""

    def solve(self, *_, **__):
        raise SolverLostError


class Deaf:
    """A solver that answers only once it is told that nobody waits any more."""

    def __init__(self, never):
        self.never = never

    def solve(self, *_, **__):
        self.never.wait(60)
        raise SolverLostError


def stop():
    """Somebody asked to stop long ago."""
    return True


@pytest.fixture
def orders_laid(monkeypatch):
    """Every order that is laid, as it is."""
    laid = []

    def counted(problem, tries, should_stop=None, **more):
        for found in serial_placings(problem, tries, should_stop, **more):
            laid.append(found)
            yield found

    monkeypatch.setattr(first, "serial_placings", counted)
    return laid


def test_a_stop_is_heard_while_many_steps_are_laid():
    found = first_placing(MANY, should_stop=stop)
    assert isinstance(found, Stuck)
    plan = first_plan(MANY, timed=Deadline(60, stop))
    assert (plan.status, plan.placed) == (Status.OUT_OF_TIME, ())
    assert plan.conflict == "There was no time to lay every step once."


def test_few_steps_are_laid_once_though_there_is_no_time(orders_laid):
    few = wardrobe(60)
    plan = first_plan(few, timed=Deadline(0))
    assert violations(few, plan) == ()
    assert len(orders_laid) == 1


def test_a_sequence_is_not_tried_once_there_is_no_time():
    former = first_plan(MANY).placed
    assert better_laid_like(MANY, (), former, stop) == ()


def test_of_very_many_steps_one_order_is_laid(orders_laid, monkeypatch):
    few = wardrobe(60)
    monkeypatch.setattr(first, "_MOST_LAID", 60)
    first_placing(few)
    assert len(orders_laid) == first._LEAST_TRIES
    orders_laid.clear()
    monkeypatch.setattr(first, "_MANY", 59)
    first_placing(few)
    assert len(orders_laid) == 1


def test_where_no_order_is_found_of_many_steps_not_all_are_tried(orders_laid, monkeypatch):
    """Four times an hour at the one press, and two hundred minutes to lay them in."""
    press = (Demand(resource="press", amount=1),)
    bench = problem(
        *(by_hand(n, 60, demands=press) for n in "abcd"),
        resources=(Resource(id="press", capacity=1),),
        workers=tuple(Worker(id=w, windows=((0, 200),)) for w in "mn"),
    )
    assert isinstance(first_placing(bench), Stuck)
    assert len(orders_laid) > first._LEAST_TRIES
    orders_laid.clear()
    monkeypatch.setattr(first, "_MOST_LAID_IN_VAIN", 1)
    assert isinstance(first_placing(bench), Stuck)
    assert len(orders_laid) == first._LEAST_TRIES


def test_more_work_than_hours_is_proved_with_the_numbers():
    """Five times twenty-five minutes, and two stretches of an hour."""
    bench = problem(*(by_hand(f"rivet {n}", 25) for n in range(5)))
    plan = best_plan(bench, Lost(), naming=Naming(names={"m": "Mira"}))
    assert plan.status is Status.NONE
    assert plan.conflict == (
        "There is more work than hours: what Mira alone can do takes 2 h 5 min at the least, and "
        "within 200 min there are 2 h."
    )


def test_work_that_others_can_do_too_is_no_overload():
    ways = (Mode(who="m", minutes=50), Mode(who="n", minutes=60))
    workers = (Worker(id="m", windows=((0, 60),)), Worker(id="n", windows=((0, 60),)))
    steps = [replace(by_hand(n, 0), people=(), modes=ways) for n in "ab"]
    assert first_plan(problem(*steps, workers=workers)).placed
    late = [replace(by_hand(n, 0), people=(), modes=ways) for n in "abc"]
    told = first_plan(problem(*late, workers=workers))
    assert told.status is Status.NONE
    assert "what m and n alone can do takes 2 h 30 min" in told.conflict


def test_ten_thousand_steps_are_told_to_be_too_many_at_once():
    started = monotonic()
    plan = first_plan(wardrobe(10_000))
    assert plan.status is Status.NONE
    assert "more work than hours" in plan.conflict
    assert monotonic() - started < 10  # It was 80 s, without a reason.


def test_a_deadline_says_stop_once_the_seconds_are_over_or_somebody_asks():
    assert not Deadline(60)()
    assert Deadline(0)()
    assert Deadline(60, lambda: True)()
    assert Deadline(-1).left_s == 0
    assert 0 < Deadline(60).left_s <= 60


def test_of_many_steps_nothing_is_counted_where_there_is_no_time(monkeypatch):
    few = wardrobe(60)
    counted = first_plan(few, timed=Deadline(0)).stages
    monkeypatch.setattr(planning, "_COUNTED_AT_ONCE", 59)
    told = first_plan(few, timed=Deadline(0)).stages
    assert [s.bound for s in told] == [0]
    assert told[0].value == counted[0].value > counted[0].bound > 0
    assert first_plan(few, timed=Deadline(60)).stages == first_plan(few).stages


def test_a_search_of_many_steps_that_does_not_end_is_not_waited_for(monkeypatch):
    """The solver takes no notice of the time; the serial plan comes back, and is not 'stopped'."""
    monkeypatch.setattr(planning, "_COUNTED_AT_ONCE", 59)
    few, never = wardrobe(60), Event()
    started = monotonic()
    plan = sought_plan(few, Deaf(never), first_plan(few), seconds=0.1)
    took = monotonic() - started
    never.set()
    assert took < 10
    assert violations(few, plan) == ()
    assert plan.status is Status.GOOD


def test_the_solver_is_not_asked_for_a_plan_of_very_many_steps(monkeypatch):
    few = wardrobe(60)
    monkeypatch.setattr(planning, "_MOST_WHOLE", 59)
    none = Plan(status=Status.OUT_OF_TIME, conflict="None yet.")
    assert sought_plan(few, Lost(), none, seconds=60) is none


@pytest.mark.long
def test_the_seconds_given_are_kept_for_ten_thousand_steps(solver):
    many = wardrobe(10_000, people=4, rack=60)
    started = monotonic()
    plan = best_plan(many, solver, seconds=10)
    assert monotonic() - started < 13
    assert not plan.placed or violations(many, plan) == ()


@pytest.mark.parametrize(
    "bench", [problem(), problem(by_hand("a", fixed_start_min=-20, fixed_end_min=-10))]
)
def test_where_nothing_is_left_to_do_the_plan_is_proved_best(bench):
    plan = best_plan(bench, Lost())
    assert plan.status is Status.BEST
    assert {s.status for s in plan.stages} == {Status.BEST}
    assert len(plan.placed) == len(bench.activities)
