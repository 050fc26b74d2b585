"""No plan beats the bound: on small problems all plans are tried."""

import pytest
from hypothesis import given, settings
from schedule.bench_problems import wardrobe
from schedule.small_problems import by_hand, problem, problems, soonest_by_trying, waiting

from armorplan.schedule.bounds import earliest_starts, finish_bound
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import Lag
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


@settings(max_examples=60, deadline=None)
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
