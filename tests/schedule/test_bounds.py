"""No plan beats the bound: on small problems all plans are tried."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from schedule.bench_problems import wardrobe
from schedule.random_shops import all_plans, shops
from schedule.small_problems import by_hand, problem, problems, soonest_by_trying, waiting

from armorplan.schedule.activity import Activity, Dip, Mode
from armorplan.schedule.bounds import (
    earliest_starts,
    fewest_batches,
    fewest_colour_changes,
    fewest_times_at_bench,
    finish_bound,
    lateness_bound,
    stage_bounds,
)
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Bath, Hold, Job, Lag, Resource, Worker
from armorplan.schedule.serial import serial_placing


def test_the_load_has_to_fit_into_the_hours():
    bench = problem(*(by_hand(f"a{n}", 20) for n in range(4)))
    assert finish_bound(bench) == 120  # 60 minutes on the first day, 20 on the second.


def test_what_follows_the_load_is_added():
    bench = problem(
        by_hand("a", 20),
        by_hand("b", 20),
        *(waiting(f"dry {n}", 30) for n in "ab"),
        lags=tuple(Lag(first=n, then=f"dry {n}") for n in "ab"),
    )
    assert finish_bound(bench) == 70


def test_the_night_counts_in_a_chain():
    bench = problem(
        by_hand("a", 50), by_hand("b", 20), lags=(Lag(first="a", then="b", min_lag=5),)
    )
    assert earliest_starts(bench) == {"a": 0, "b": 100}
    assert finish_bound(bench) == 120


def test_a_window_across_the_night_moves_what_it_counts_from():
    bench = problem(
        by_hand("cut", 50),
        waiting("case", 5),
        by_hand("form", 10),
        lags=(Lag(first="cut", then="case"), Lag(first="case", then="form", max_lag=20)),
    )
    assert earliest_starts(bench) == {"cut": 0, "case": 75, "form": 100}


def test_what_fits_nowhere_gets_the_horizon():
    assert earliest_starts(problem(by_hand("carve", 90))) == {"carve": 200}


@settings(max_examples=18, deadline=None)
@given(problems(most=4, horizon_min=14, windows=((0, 5), (7, 14))))
def test_no_plan_beats_the_bound(bench):
    if lag_cycle(bench):
        assert soonest_by_trying(bench) is None
        return
    soonest = soonest_by_trying(bench)
    if soonest is not None:
        assert finish_bound(bench) <= max(0, soonest)  # Nothing is left to do before minute 0.


@pytest.mark.long
@settings(max_examples=600, deadline=None)
@given(problems(most=4, horizon_min=14, windows=((0, 5), (7, 14))))
def test_no_plan_beats_the_bound_in_many_drawings(bench):
    test_no_plan_beats_the_bound.hypothesis.inner_test(bench)


def test_no_serial_plan_of_a_wardrobe_starts_anything_sooner():
    bench = wardrobe(120, people=2)
    soonest = earliest_starts(bench)
    placing = serial_placing(bench, {a.id: (a.priority,) for a in bench.activities})
    assert all(soonest[p.id] <= p.start_min for p in placing)
    assert finish_bound(bench) <= max(p.end_min for p in placing)


def dip(name, minutes=10, family="blue", **parts):
    """A dip by the maker in the vat, five minutes to set up."""
    way = Mode(who="m", minutes=minutes, name="vat", bath="vat")
    dip = Dip(family=family, amount=1, set_up_min=5)
    return Activity(id=name, minutes=0, modes=(way,), dip=dip, **parts)


def test_a_rack_has_to_hold_all_that_hangs_there():
    """Four pieces hang 30 minutes each on two places."""
    names = [f"dye {n}" for n in range(4)]
    bench = problem(
        *(waiting(n, 1) for n in names),
        *(waiting(f"off {n}", 0) for n in names),
        lags=tuple(Lag(first=n, then=f"off {n}", min_lag=30) for n in names),
        resources=(Resource(id="rack", capacity=2),),
        holds=tuple(Hold(resource="rack", amount=1, first=n, until=(f"off {n}",)) for n in names),
    )
    assert finish_bound(bench) == 61


def test_baths_have_to_be_set_up_and_changed():
    """Three blue dips of ten minutes in two batches, one red: 40 + 3 · 5 + 30 for the change."""
    vat = Bath(id="vat", capacity=2, change_min=30)
    dips = (dip("a"), dip("b"), dip("c"), dip("d", family="red"))
    bench = problem(*dips, baths=(vat,), windows=((0, 200),))
    assert finish_bound(bench) == 85
    assert fewest_colour_changes(bench) == 1
    assert fewest_batches(bench) == 3


def test_what_only_one_can_do_has_to_fit_into_their_hours():
    workers = (Worker(id="m", windows=((0, 60),)), Worker(id="n", windows=((30, 90),)))
    only = Activity(id="a", minutes=20, people=("n",))
    fit = replace(only, id="b", people=("m",), also=("n",))
    assert finish_bound(problem(only, fit, workers=workers)) == 70


def test_each_build_is_late_by_itself_and_all_are_late_together():
    """Two builds of 40 minutes each, both due at 50: one of them is done at 120 at the soonest."""
    jobs = tuple(Job(id=n, activities=(n,), due_min=50, weight=2) for n in "ab")
    bench = replace(problem(by_hand("a", 40), by_hand("b", 40)), jobs=jobs)
    assert lateness_bound(bench) == 2 * 70
    sooner = replace(bench, jobs=(replace(jobs[0], due_min=10), jobs[1]))
    assert lateness_bound(sooner) == 2 * 100


def test_the_load_of_half_days_is_the_fewest_times_at_the_bench():
    bench = problem(*(by_hand(f"a{n}", 20) for n in range(4)))
    assert fewest_times_at_bench(bench) == 2


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=2))
def test_no_plan_of_a_shop_beats_the_bound_of_any_stage(shop):
    if lag_cycle(shop):
        return
    bounds = stage_bounds(shop)
    for placed in all_plans(shop):
        values = goals(shop, placed)
        assert bounds.keys() == values.keys()
        assert all(bounds[name] <= values[name] for name in values)


@pytest.mark.long
@settings(max_examples=400, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=3))
def test_no_plan_of_many_shops_beats_the_bound_of_any_stage(shop):
    test_no_plan_of_a_shop_beats_the_bound_of_any_stage.hypothesis.inner_test(shop)
