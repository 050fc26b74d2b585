"""Pulling a plan earlier without breaking anything."""

from itertools import islice

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.bench_problems import wardrobe
from schedule.random_shops import all_plans, shops
from schedule.small_problems import by_hand, kinds, plan_of, problem, problems, waiting

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.keeping import jumps
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import Bath, Hold, Lag, Placed, Plan, Resource, Status
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.serial import Stuck, serial_placing


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


@settings(max_examples=24, deadline=None)
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


def dip(name, family="blue", minutes=10):
    """A dip by the maker in the vat."""
    way = Mode(who="m", minutes=minutes, name="vat", bath="vat")
    return Activity(id=name, minutes=0, modes=(way,), dip=Dip(family=family, set_up_min=5))


def pulled_starts(bench, *places):
    """Where a plan's activities start when it is pulled earlier; it has to hold before and after."""
    late = tuple(
        Placed(id=name, start_min=start, end_min=end, who=who, mode=mode)
        for name, start, end, who, mode in places
    )
    assert violations(bench, Plan(status=Status.GOOD, placed=late)) == ()
    pulled = pulled_earlier(bench, late)
    assert violations(bench, Plan(status=Status.GOOD, placed=pulled)) == ()
    return {p.id: p.start_min for p in pulled}


def test_a_batch_stays_a_batch_and_baths_keep_their_change():
    vat = Bath(id="vat", capacity=2, change_min=15, holds="blue")
    bench = problem(dip("a"), dip("b"), dip("c", "red"), baths=(vat,))
    places = (("a", 10, 35, "m", "vat"), ("b", 10, 35, "m", "vat"), ("c", 100, 115, "m", "vat"))
    assert pulled_starts(bench, *places) == {"a": 0, "b": 0, "c": 40}


def test_what_hangs_on_the_rack_keeps_it_until_it_is_taken_down():
    hold = Hold(resource="rack", amount=1, first="dye", until=("rivet",))
    on_rack = (Demand(resource="rack", amount=1),)
    bench = problem(
        by_hand("dye"),
        by_hand("rivet"),
        waiting("other", 20, demands=on_rack),
        lags=(Lag(first="dye", then="rivet", min_lag=15),),
        resources=(Resource(id="rack", capacity=1),),
        holds=(hold,),
    )
    places = (
        ("dye", 20, 30, "m", ""),
        ("rivet", 110, 120, "m", ""),
        ("other", 120, 140, None, ""),
    )
    assert pulled_starts(bench, *places) == {"dye": 0, "rivet": 25, "other": 25}


def any_of_many(problem, turn):
    """Some plan of all there are, not the soonest; ``None`` where there is none."""
    plans = tuple(islice(all_plans(problem), 400))
    return plans[turn % len(plans)] if plans else None


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=3), st.integers(0, 10**6))
def test_a_shops_plan_pulled_holds_and_nothing_is_later(shop, turn):
    placed = any_of_many(shop, turn)
    if placed is None:
        return
    pulled = pulled_earlier(shop, placed)
    assert violations(shop, Plan(status=Status.GOOD, placed=pulled)) == ()
    assert all(p.start_min <= q.start_min for p, q in zip(pulled, placed, strict=True))
    assert jumps(shop, pulled) <= jumps(shop, placed)


@pytest.mark.long
@settings(max_examples=1500, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=4), st.integers(0, 10**6))
def test_many_shops_plans_pulled_hold(shop, turn):
    test_a_shops_plan_pulled_holds_and_nothing_is_later.hypothesis.inner_test(shop, turn)
