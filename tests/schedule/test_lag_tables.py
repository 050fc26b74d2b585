"""Waits that depend on when they begin: a night dries slower than a noon."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.small_problems import (
    by_hand,
    kinds,
    plan_of,
    problem,
    problems,
    tables,
    waiting,
)

from armorplan.schedule.bounds import earliest_starts, finish_bound
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.conflict import smallest_conflict
from armorplan.schedule.cp import Layout
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.lag_spans import (
    closes_at,
    first_end_open_till,
    last_end_open_by,
    least_wait,
    most_wait,
    opens_at,
)
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Lag, Plan, Status
from armorplan.schedule.stages import FINISH
from armorplan.schedule.table import Table
from armorplan.solving.model import Effort

_CLOSED_NOON = ((0, 60), (100, 160))


def _window(opens=(), closes=(), **parts):
    """A lag from ``a`` to ``b`` with tables on a grid of ten minutes."""
    return Lag(
        first="a",
        then="b",
        opens=Table(grid_min=10, ready=opens) if opens else None,
        closes=Table(grid_min=10, ready=closes) if closes else None,
        **parts,
    )


def _constant(minutes, cells=40):
    """A table on a grid of one minute that takes as long at all times."""
    return Table(grid_min=1, ready=tuple(at + minutes for at in range(cells)))


@given(
    opens=tables(),
    closes=tables(least=1, closes=True),
    end=st.integers(0, 40),
    start=st.integers(0, 60),
)
def test_looking_back_is_the_inverse_of_looking_on(opens, closes, end, start):
    lag = Lag(first="a", then="b", min_lag=2, max_lag=9, opens=opens, closes=closes)
    assert opens_at(lag, end) <= opens_at(lag, end + 1)
    assert closes_at(lag, end) <= closes_at(lag, end + 1)
    assert (opens_at(lag, end) <= start) == (end <= last_end_open_by(lag, start))
    assert (closes_at(lag, end) >= start) == (end >= first_end_open_till(lag, start))


@given(opens=tables(), closes=tables(closes=True), end=st.integers(0, 40))
def test_its_least_and_most_wait_hold_whenever_it_begins(opens, closes, end):
    lag = Lag(first="a", then="b", min_lag=-5, opens=opens, closes=closes)
    assert least_wait(lag) <= opens_at(lag, end) - end
    assert closes_at(lag, end) - end <= most_wait(lag)


def test_a_start_before_the_origin_counts_as_one_in_the_first_cell():
    assert Table(grid_min=10, ready=(25, 45, 70)).ready_at(-30) == 25


@settings(
    max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(bench=problems())
def test_serial_plan_and_solver_keep_the_tables_and_no_bound_is_false(solver, bench):
    first = first_plan(bench)
    best = best_plan(bench, solver, seconds=2)
    for plan in (first, best):
        if plan.placed:
            assert kinds(bench, plan) == set()
    if first.placed:
        assert best.placed
        assert best.finish_min <= first.finish_min
        assert finish_bound(bench) <= max(0, best.finish_min)
        starts = {p.id: p.start_min for p in best.placed}
        assert all(start <= starts[name] for name, start in earliest_starts(bench).items())


@pytest.mark.parametrize("wait", [0, 7, 30])
def test_a_table_that_is_the_same_at_all_times_is_a_plain_lag(solver, wait):
    def bench(lag):
        return problem(
            by_hand("a", 20),
            by_hand("c", 25, priority=1),
            by_hand("b", 10, priority=2),
            lags=(lag,),
        )

    plain = bench(Lag(first="a", then="b", min_lag=wait, max_lag=wait + 10))
    told = bench(Lag(first="a", then="b", opens=_constant(wait), closes=_constant(wait + 10)))
    assert first_plan(plain).placed == first_plan(told).placed
    one, other = best_plan(plain, solver, seconds=2), best_plan(told, solver, seconds=2)
    assert (one.placed, one.status, one.stages) == (other.placed, other.status, other.stages)


@pytest.mark.parametrize(
    ("end", "start", "expected"),
    [(10, 35, set()), (10, 34, {"too soon"}), (10, 50, set()), (10, 51, {"too long after"})],
)
def test_the_checker_looks_the_window_up_by_itself(end, start, expected):
    bench = problem(by_hand("a", 10), by_hand("b", 5), lags=(_window((20, 35), (40, 50)),))
    plan = plan_of(bench, ("a", end - 10, end), ("b", start, start + 5))
    assert kinds(bench, plan) - {"outside hours"} == expected


def test_what_opens_too_late_for_the_hours_is_begun_later(solver):
    """Cased at once its window falls into the closed noon: it is cased when it does not."""
    cells = 16
    opens = tuple(10 * c + 9 + 30 for c in range(cells))
    closes = tuple(10 * c + 45 for c in range(cells))
    bench = problem(
        by_hand("c", 20),
        by_hand("a", 10, priority=1),
        by_hand("b", 10, priority=2),
        windows=_CLOSED_NOON,
        lags=(Lag(first="c", then="a"), _window(opens, closes)),
    )
    for plan in (first_plan(bench), best_plan(bench, solver, seconds=2)):
        lies = {p.id: p for p in plan.placed}
        assert kinds(bench, plan) == set()
        assert lies["a"].start_min == 50  # Ended at 60 its window lasts till 105.


def test_an_impossible_window_is_found_before_anything_is_laid():
    bench = problem(
        by_hand("a", 10),
        waiting("dry", 90),
        by_hand("b", 10),
        lags=(
            _window((30, 40), (60, 70)),
            Lag(first="a", then="dry"),
            Lag(first="dry", then="b", reason="It is wet till then."),
        ),
    )
    ring = lag_cycle(bench)
    assert ring
    assert "in its window, which the air makes" in cycle_words(bench, ring)
    assert first_plan(bench).status is Status.NONE


def test_a_window_no_hours_hold_is_named(solver):
    """The lags allow it at some time of day, but never within the hours."""
    opens = (65, 65, 65, 65, 65, 65, 190, 190, 190, 190, 190, 190, 190, 190, 190, 190)
    closes = (95, 95, 95, 95, 95, 95, 195, 195, 195, 195, 195, 195, 195, 195, 195, 195)
    bench = problem(
        by_hand("a", 10), by_hand("b", 5), windows=_CLOSED_NOON, lags=(_window(opens, closes),)
    )
    assert not lag_cycle(bench)
    plan = best_plan(bench, solver, seconds=2)
    assert plan.status is Status.NONE
    assert (
        "“b” has to start within 2 h 15 min (as the air goes) of the end of “a”" in plan.conflict
    )
    clash = smallest_conflict(bench, lambda tried: bool(first_plan(tried).placed))
    assert Claim(kind=Kind.WINDOW, of="b", at=0) in clash


def test_lags_on_one_end_share_its_cell_and_the_solver_gets_a_whole_hint():
    table = Table(grid_min=10, ready=(15, 30, 60, 61))
    ready = Table(grid_min=10, ready=(25, 40, 70, 71))
    bench = problem(
        by_hand("a", 10),
        *(by_hand(n, 5) for n in "bcd"),
        lags=tuple(Lag(first="a", then=n, opens=table, closes=ready) for n in "bcd"),
    )
    plan = first_plan(bench)
    assert plan.placed
    layout = Layout(bench, 160)
    model = layout.model_for(FINISH, {}, effort=Effort(seconds=1), hint=plan.placed)
    variables = {n.name for n in model.numbers} | set(model.booleans)
    hints = dict(model.hints)
    assert hints.keys() == variables
    assert all(any(a <= hints[n.name] <= b for a, b in n.ranges) for n in model.numbers)
    assert sum(name.startswith("cell") for name in variables - set(model.booleans)) == 1


def test_only_cells_within_the_hours_are_laid():
    """A drying that begins as hands come off begins within their hours."""
    ready = tuple(10 * c + 60 for c in range(20))
    bench = problem(
        by_hand("a", 10),
        waiting("dry", table=Table(grid_min=10, ready=ready)),
        lags=(Lag(first="a", then="dry", max_lag=0),),
        windows=_CLOSED_NOON,
    )
    model = Layout(bench, 200).any_plan(effort=Effort(seconds=1))
    cells = next(n.ranges for n in model.numbers if n.name.startswith("cell"))
    assert cells == ((1, 6), (11, 14))


def test_an_empty_plan_breaks_no_window():
    bench = problem(by_hand("a"), by_hand("b"), lags=(_window((20,), (40,)),))
    assert kinds(bench, Plan(status=Status.GOOD)) == {"missing"}
