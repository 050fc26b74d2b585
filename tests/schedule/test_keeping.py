"""How a plan keeps to the chosen order, and pulling it earlier without breaking anything."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, kinds, plan_of, problem, problems, waiting

from armorplan.schedule.checker import violations
from armorplan.schedule.keeping import jumps, order_pairs, pulled_earlier
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import Job, Lag, Plan, Status
from armorplan.schedule.serial import Stuck, serial_placing

THREE = problem(*(by_hand(n, priority=at) for at, n in enumerate("abc")))


def test_jumps_count_neighbours_the_other_way_round():
    assert order_pairs(THREE) == (("a", "b"), ("b", "c"))
    assert jumps(THREE, plan_of(THREE, ("a", 0, 10), ("b", 10, 20), ("c", 20, 30)).placed) == 0
    assert jumps(THREE, plan_of(THREE, ("c", 0, 10), ("a", 10, 20), ("b", 20, 30)).placed) == 1
    assert jumps(THREE, plan_of(THREE, ("c", 0, 10), ("b", 10, 20), ("a", 20, 30)).placed) == 2


def test_drying_history_and_equal_priorities_have_no_chosen_order():
    bench = problem(
        by_hand("a", priority=0),
        waiting("dry", priority=1),
        by_hand("past", priority=2, fixed_start_min=-10, fixed_end_min=0),
        by_hand("b", priority=3),
        by_hand("c", priority=3),
    )
    assert order_pairs(bench) == (("a", "b"),)


def test_each_build_has_a_chosen_order_of_its_own():
    bench = problem(*(by_hand(n, priority=at) for at, n in enumerate("axbycz")))
    jobs = tuple(Job(id=name, activities=tuple(name)) for name in ("ab", "xy"))
    bench = replace(bench, jobs=jobs)
    assert order_pairs(bench) == (("a", "b"), ("x", "y"), ("c", "z"))
    plan = plan_of(bench, *((n, 10 * at, 10 * at + 10) for at, n in enumerate("xyabcz")))
    assert jumps(bench, plan.placed) == 0


def test_idle_gaps_are_closed():
    bench = problem(
        by_hand("dye"), waiting("dry", 20), by_hand("rivet"), lags=(Lag(first="dye", then="dry"),)
    )
    late = plan_of(bench, ("dye", 20, 30), ("dry", 40, 60), ("rivet", 110, 120))
    pulled = pulled_earlier(bench, late.placed)
    assert [(p.id, p.start_min) for p in pulled] == [("dye", 0), ("dry", 10), ("rivet", 10)]


def test_a_maximum_lag_limits_how_far():
    bench = problem(
        by_hand("case", 5),
        by_hand("form", 10),
        by_hand("cut", 50),
        lags=(Lag(first="case", then="form", max_lag=10),),
    )
    late = plan_of(bench, ("cut", 0, 50), ("case", 100, 105), ("form", 110, 120))
    pulled = {p.id: p.start_min for p in pulled_earlier(bench, late.placed)}
    assert pulled == {"cut": 0, "case": 100, "form": 105}
    assert kinds(bench, plan_of(bench, *((i, s, s + m) for i, s, m in _sizes(pulled)))) == set()


def _sizes(starts):
    minutes = {"cut": 50, "case": 5, "form": 10}
    return [(name, start, minutes[name]) for name, start in starts.items()]


@settings(max_examples=100, deadline=None)
@given(problems(most=10, horizon_min=80, windows=((0, 9), (12, 30), (35, 60), (61, 80))))
def test_pulled_plans_hold_and_nothing_is_later(bench):
    if lag_cycle(bench):
        return
    placing = serial_placing(bench, {a.id: (-a.priority,) for a in bench.activities})
    if isinstance(placing, Stuck):
        return
    pulled = pulled_earlier(bench, placing)
    assert violations(bench, Plan(status=Status.GOOD, placed=pulled)) == ()
    assert all(p.start_min <= q.start_min for p, q in zip(pulled, placing, strict=True))
    assert jumps(bench, pulled) <= jumps(bench, placing)


@pytest.mark.long
@settings(max_examples=1000, deadline=None)
@given(problems(most=10, horizon_min=80, windows=((0, 9), (12, 30), (35, 60), (61, 80))))
def test_pulled_plans_hold_and_nothing_is_later_in_many_drawings(bench):
    test_pulled_plans_hold_and_nothing_is_later.hypothesis.inner_test(bench)


def test_a_wardrobe_laid_late_is_pulled_earlier():
    bench = wardrobe(60)
    placing = serial_placing(bench, {a.id: (-a.priority,) for a in bench.activities})
    pulled = pulled_earlier(bench, placing)
    assert violations(bench, Plan(status=Status.GOOD, placed=pulled)) == ()
    assert max(p.end_min for p in pulled) <= max(p.end_min for p in placing)
