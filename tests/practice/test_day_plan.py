"""One person's day, against trying out every plan of a small one."""

from dataclasses import replace
from datetime import UTC, datetime
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.practice.day_plan import (
    MOST_DAY_STEPS,
    best_day,
    can_be_done,
    nearest_day,
    one_after_another,
    placed_at,
)
from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem, Worker

GRID_MIN = 15
HOURS = ((30, 120), (150, 240))
SLOTS = range(30, 240, GRID_MIN)
NAMES = ("a", "b", "c")


def day(minutes, lags=(), before_last=(), *, hours=HOURS, ends_by=240):
    return Problem(
        origin_at=datetime(2026, 1, 12, tzinfo=UTC),
        horizon_min=ends_by,
        activities=tuple(
            Activity(id=name, minutes=long, people=("maker",)) for name, long in minutes.items()
        ),
        lags=tuple(Lag(first=f, then=t, min_lag=a, max_lag=b) for f, t, a, b in lags),
        before_last=tuple(EndsBeforeLast(first=f, of=frozenset(of)) for f, of in before_last),
        workers=(Worker(id="maker", windows=hours),),
    )


@st.composite
def days(draw):
    minutes = {name: draw(st.sampled_from((5, 10, 15, 20, 35, 50))) for name in NAMES}
    lags = []
    for first, then in (("a", "b"), ("a", "c"), ("b", "c")):
        least = draw(st.sampled_from((None, 0, 0, 10, 25, 60)))
        if least is not None:
            most = draw(st.sampled_from((None, least, least + 20, least + 45)))
            lags.append((first, then, least, most))
    before_last = draw(st.sampled_from(((), (("c", ("a", "b")),))))
    ends_by = draw(st.sampled_from((90, 120, 180, 240)))
    if any(lag[1] == "c" for lag in lags):
        before_last = ()
    return day(minutes, lags, before_last, ends_by=ends_by)


def holds(problem, starts):
    """Say for itself whether a plan keeps everything; nothing here is the program's."""
    ends = {a.id: starts[a.id] + a.minutes for a in problem.activities}
    in_hours = all(
        any(opens <= starts[name] and end <= closes for opens, closes in HOURS)
        and end <= problem.horizon_min
        for name, end in ends.items()
    )
    names = sorted(starts, key=starts.__getitem__)
    one_by_one = all(ends[x] <= starts[y] for x, y in pairwise(names))
    waits = all(
        lag.min_lag <= starts[lag.then] - ends[lag.first]
        and (lag.max_lag is None or starts[lag.then] - ends[lag.first] <= lag.max_lag)
        for lag in problem.lags
    )
    return (
        in_hours
        and one_by_one
        and waits
        and all(ends[b.first] <= max(starts[of] for of in b.of) for b in problem.before_last)
    )


def every_plan(problem, times=SLOTS):
    for starts in product(times, repeat=len(NAMES)):
        plan = dict(zip(NAMES, starts, strict=True))
        if holds(problem, plan):
            yield plan


def end_of(problem, starts):
    return max(starts[a.id] + a.minutes for a in problem.activities)


@given(days())
def test_the_best_is_that_of_every_plan_on_the_grid(problem):
    found = best_day(problem, grid_min=GRID_MIN)
    ends = [end_of(problem, plan) for plan in every_plan(problem)]
    assert (found is None) == (not ends)
    if found is not None:
        assert end_of(problem, found) == min(ends)
        assert holds(problem, found)
        assert not violations(problem, placed_at(problem, found))


@given(days(), st.tuples(*[st.integers(20, 230)] * 3))
def test_no_right_plan_changes_fewer_steps_than_the_nearest(problem, times):
    asked = dict(zip(NAMES, times, strict=True))
    found = nearest_day(problem, asked, grid_min=GRID_MIN)
    free = [plan for name in NAMES for plan in _near(problem, asked, name)]
    fewest = min((sum(plan[n] != asked[n] for n in NAMES) for plan in free), default=None)
    if fewest is None:
        whole = best_day(problem, grid_min=GRID_MIN)
        assert (found is None) == (whole is None)
        return
    assert found is not None
    assert len(found.changed) == min(fewest, 3)
    assert set(found.changed) == {n for n in NAMES if found.starts[n] != asked[n]}
    assert not violations(problem, placed_at(problem, found.starts))


def _near(problem, asked, kept):
    """Yield the right plans on the grid that keep at least this step where it is asked for."""
    choices = [(asked[n],) if n == kept else {*SLOTS, asked[n]} for n in NAMES]
    for starts in product(*choices):
        plan = dict(zip(NAMES, starts, strict=True))
        if holds(problem, plan):
            yield plan


@given(days(), st.tuples(*[st.integers(0, 46)] * 3))
def test_nothing_has_to_change_just_where_the_checker_is_silent(problem, times):
    asked = {name: 5 * at for name, at in zip(NAMES, times, strict=True)}
    found = nearest_day(problem, asked, grid_min=GRID_MIN)
    is_right = not violations(problem, placed_at(problem, asked))
    assert is_right == holds(problem, asked)
    assert (found is not None and not found.changed) == is_right


def test_what_is_pinned_stays_where_it_is_off_the_grid_too():
    problem = day({"a": 10, "b": 10, "c": 10}, [("a", "b", 20, 30)])
    found = can_be_done(problem, grid_min=GRID_MIN, pins={"a": 37})
    assert found is not None
    assert found["a"] == 37
    assert 67 <= found["b"] <= 77
    assert can_be_done(problem, grid_min=GRID_MIN, pins={"a": 37, "b": 60}) is None


def test_a_latest_time_pulls_its_first_step_over_noon():
    # Begun at once the first would be too old after noon: 30 min of work are in between.
    problem = day({"a": 15, "b": 60, "c": 30}, [("a", "b", 15, 45)])
    found = best_day(problem, grid_min=GRID_MIN)
    assert found is not None
    assert holds(problem, found)
    assert end_of(problem, found) == min(end_of(problem, p) for p in every_plan(problem))


def test_in_one_order_each_begins_as_soon_as_it_may():
    problem = day({"a": 10, "b": 10, "c": 10}, [("a", "b", 20, None)])
    assert one_after_another(problem, ("a", "c", "b"), grid_min=GRID_MIN) == {
        "a": 30,
        "c": 45,
        "b": 60,
    }
    assert one_after_another(problem, ("b", "a", "c"), grid_min=GRID_MIN) is None


def test_the_order_of_before_the_last_of_is_kept():
    problem = day({"a": 10, "b": 10, "c": 10}, before_last=[("c", ("a", "b"))])
    assert one_after_another(problem, ("a", "b", "c"), grid_min=GRID_MIN) is None
    assert one_after_another(problem, ("a", "c", "b"), grid_min=GRID_MIN) is not None


def test_no_plan_of_the_day_is_right_and_none_is_near():
    problem = day({"a": 50, "b": 50, "c": 50}, ends_by=100)
    assert best_day(problem, grid_min=GRID_MIN) is None
    assert nearest_day(problem, {"a": 30, "b": 90, "c": 150}, grid_min=GRID_MIN) is None


def test_more_steps_than_are_tried_are_refused():
    minutes = {f"s{at}": 5 for at in range(MOST_DAY_STEPS + 1)}
    with pytest.raises(ValueError, match="8 steps"):
        best_day(day(minutes), grid_min=GRID_MIN)


def test_eight_steps_that_know_no_order_are_proved_in_time():
    minutes = {f"s{at}": 5 + at for at in range(MOST_DAY_STEPS)}
    problem = day(minutes, [("s0", "s7", 20, 60), ("s1", "s6", 10, 40)])
    found = best_day(problem, grid_min=5)
    assert found is not None
    earlier = replace(problem, horizon_min=end_of(problem, found) - 1)
    assert best_day(earlier, grid_min=5) is None
