"""The serial plan holds wherever it finds one, and goes back where a maximum lag asks for it."""

import pytest
from hypothesis import given, settings
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, plan_of, problem, problems, waiting

from armorplan.schedule.activity import Demand
from armorplan.schedule.checker import violations
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import EndsBeforeLast, Lag, Plan, Resource, Status, Worker
from armorplan.schedule.serial import Stuck, serial_placing
from armorplan.schedule.table import Table


def laid(problem):
    """Lay by priority; the plan has to hold."""
    placing = serial_placing(problem, {a.id: (a.priority,) for a in problem.activities})
    assert not isinstance(placing, Stuck), placing
    assert violations(problem, Plan(status=Status.GOOD, placed=placing)) == ()
    return {p.id: (p.start_min, p.end_min) for p in placing}


def stuck(problem):
    placing = serial_placing(problem, {a.id: (a.priority,) for a in problem.activities})
    assert isinstance(placing, Stuck)
    return placing


def test_a_smaller_priority_is_laid_first():
    bench = problem(by_hand("late", priority=2), by_hand("soon", priority=1))
    assert laid(bench) == {"soon": (0, 10), "late": (10, 20)}


def test_hands_on_steps_lie_within_one_stretch_of_hours():
    bench = problem(by_hand("a", 50, priority=1), by_hand("b", 20, priority=2))
    assert laid(bench) == {"a": (0, 50), "b": (100, 120)}


def test_gaps_are_filled():
    bench = problem(
        by_hand("a", 50, priority=1), by_hand("b", 20, priority=2), by_hand("c", 10, priority=3)
    )
    assert laid(bench)["c"] == (50, 60)


def test_drying_runs_on_when_the_shop_is_closed():
    bench = problem(by_hand("dye"), waiting("dry", 80), lags=(Lag(first="dye", then="dry"),))
    assert laid(bench)["dry"] == (10, 90)


def test_a_window_that_the_night_would_break_moves_what_it_counts_from():
    """Cased at 50, formed within 20: the shop closes at 60, so casing waits for the next day."""
    bench = problem(
        by_hand("cut", 45, priority=0),
        by_hand("case", 5, priority=1),
        by_hand("form", 15, priority=2),
        lags=(
            Lag(first="cut", then="case"),
            Lag(first="case", then="form", min_lag=5, max_lag=20),
        ),
    )
    assert laid(bench) == {"cut": (0, 45), "case": (100, 105), "form": (110, 125)}


def test_a_chain_of_windows_moves_as_one():
    bench = problem(
        by_hand("cut", 30, priority=0),
        by_hand("a", 10, priority=1),
        waiting("b", 15, priority=2),
        by_hand("c", 10, priority=3),
        lags=(
            Lag(first="cut", then="a"),
            Lag(first="a", then="b", max_lag=0),
            Lag(first="b", then="c", max_lag=5),
        ),
    )
    assert laid(bench) == {"cut": (0, 30), "a": (100, 110), "b": (110, 125), "c": (125, 135)}


def test_nobody_is_given_away_between_a_pair():
    """What the second of a pair also waits for is laid before the first of it."""
    bench = problem(
        by_hand("case", 5, priority=0),
        by_hand("form", 10, priority=3),
        by_hand("stamp", 30, priority=1),
        lags=(Lag(first="case", then="form", max_lag=15), Lag(first="stamp", then="form")),
    )
    places = laid(bench)
    assert places["stamp"] == (0, 30)
    assert places["case"] == (30, 35)


def test_a_full_rack_makes_the_dip_wait():
    on_rack = (Demand(resource="rack", amount=1),)
    bench = problem(
        *(by_hand(f"dye{n}", priority=2 * n) for n in range(2)),
        *(waiting(f"dry{n}", 30, demands=on_rack, priority=2 * n + 1) for n in range(2)),
        lags=tuple(Lag(first=f"dye{n}", then=f"dry{n}", max_lag=0) for n in range(2)),
        resources=(Resource(id="rack", capacity=1),),
    )
    assert laid(bench)["dye1"] == (30, 40)


def test_the_last_of_several_waits():
    bench = problem(
        by_hand("left", priority=0),
        by_hand("right", priority=1),
        by_hand("rivet", priority=2),
        before_last=(EndsBeforeLast(first="rivet", of=frozenset({"left", "right"})),),
    )
    assert laid(bench) == {"left": (0, 10), "rivet": (10, 20), "right": (20, 30)}


def test_one_it_waits_for_itself_cannot_be_the_last():
    bench = problem(
        by_hand("left", priority=1),
        by_hand("right", priority=0),
        by_hand("rivet", priority=2),
        lags=(Lag(first="left", then="rivet"),),
        before_last=(EndsBeforeLast(first="rivet", of=frozenset({"left", "right"})),),
    )
    assert laid(bench) == {"left": (0, 10), "rivet": (10, 20), "right": (20, 30)}


def test_a_table_is_looked_up_at_the_start():
    night = Table(grid_min=10, ready=(40, 90))
    bench = problem(
        by_hand("dye"), waiting("dry", table=night), lags=(Lag(first="dye", then="dry"),)
    )
    assert laid(bench)["dry"] == (10, 90)


def test_who_is_free_first_does_it():
    workers = (Worker(id="m", windows=((20, 60),)), Worker(id="n", windows=((0, 60),)))
    both = by_hand("a")
    bench = problem(type(both)(id="a", minutes=10, people=("m", "n")), workers=workers)
    assert laid(bench) == {"a": (0, 10)}


def test_what_is_under_way_stays_and_takes_its_person():
    bench = problem(by_hand("a", fixed_start_min=-5, fixed_end_min=15), by_hand("b"))
    assert laid(bench) == {"a": (-5, 15), "b": (15, 25)}


def test_several_timers_at_once_are_history_not_a_fault():
    begun = {"fixed_start_min": -5, "fixed_end_min": 15}
    bench = problem(by_hand("a", **begun), by_hand("b", **begun), by_hand("c"))
    assert laid(bench)["c"] == (15, 25)


def test_a_rack_too_full_by_history_blocks_until_it_empties():
    two = (Demand(resource="rack", amount=2),)
    begun = {"fixed_start_min": -5, "fixed_end_min": 15, "demands": two}
    bench = problem(
        waiting("a", **begun),
        waiting("b", **begun),
        waiting("c", demands=two),
        resources=(Resource(id="rack", capacity=3),),
    )
    assert laid(bench)["c"] == (15, 25)


def test_it_says_where_it_got_stuck():
    long = problem(by_hand("carve", 70, title="Carve the shield"))
    assert stuck(long).text == "“Carve the shield” does not fit into the hours and places left"
    late = problem(
        by_hand("case", fixed_start_min=-100, fixed_end_min=-80),
        by_hand("form"),
        lags=(Lag(first="case", then="form", max_lag=30),),
    )
    assert "50 min too late" in stuck(late).text


@settings(max_examples=24, deadline=None)
@given(problems(most=12, horizon_min=80, windows=((0, 9), (12, 30), (35, 60), (61, 80))))
def test_every_serial_plan_holds(bench):
    if lag_cycle(bench):
        return
    placing = serial_placing(bench, {a.id: (a.priority,) for a in bench.activities})
    if not isinstance(placing, Stuck):
        assert violations(bench, Plan(status=Status.GOOD, placed=placing)) == ()


@pytest.mark.long
@settings(max_examples=1000, deadline=None)
@given(problems(most=12, horizon_min=80, windows=((0, 9), (12, 30), (35, 60), (61, 80))))
def test_every_serial_plan_holds_in_many_drawings(bench):
    test_every_serial_plan_holds.hypothesis.inner_test(bench)


@pytest.mark.parametrize("people", [1, 2])
@pytest.mark.parametrize("steps", [40, 120, 300])
def test_a_wardrobe_is_laid_whole(steps, people):
    bench = wardrobe(steps, people=people)
    assert len(bench.activities) == steps
    assert len(laid(bench)) == steps


def test_the_plan_keeps_the_problems_order():
    bench = problem(by_hand("b", priority=1), by_hand("a", priority=0))
    placing = serial_placing(bench, {"a": (0,), "b": (1,)})
    assert [p.id for p in placing] == ["b", "a"]
    assert plan_of(bench, ("b", 10, 20), ("a", 0, 10)).placed == placing
