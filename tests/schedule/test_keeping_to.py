"""A plan that keeps to the one people go by: what is late moves, and little else."""

from dataclasses import replace

import pytest
from hypothesis import given
from schedule.full_week import full_week
from schedule.hand_shops import DAY, HOUR, racks
from schedule.random_shops import shops

from armorplan.schedule.checker import violations
from armorplan.schedule.comparing import moved_steps
from armorplan.schedule.displaced import mended_in_place
from armorplan.schedule.first import first_placing
from armorplan.schedule.keeping_to import (
    is_worth,
    kept_plan,
    nothing_to_gain,
    pulled_forward,
    stood_in,
)
from armorplan.schedule.measures import goals
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.rearranging import pushed_later, still_standing
from armorplan.schedule.serial import Stuck
from armorplan.schedule.stages import LATENESS, MOVED

TUESDAY_MIN = 27 * HOUR


def delayed(problem, plan, *, now_min, over_min):
    """The bench so many minutes after the origin: what one person is at takes longer than planned."""
    lies = {p.id: p for p in plan.placed}
    at_it = next(p.id for p in plan.placed if p.who and p.start_min <= now_min < p.end_min)

    def as_it_stands(activity):
        placed = lies[activity.id]
        if placed.start_min > now_min:
            return replace(activity, earliest_min=max(now_min, activity.earliest_min))
        end_min = placed.end_min + (over_min if activity.id == at_it else 0)
        return replace(
            activity,
            fixed_start_min=placed.start_min,
            fixed_end_min=end_min,
            fixed_who=placed.who,
            fixed_mode=placed.mode,
        )

    lags = tuple(g for g in problem.lags if at_it not in (g.first, g.then) or g.max_lag is None)
    activities = tuple(map(as_it_stands, problem.activities))
    return replace(problem, activities=activities, lags=lags)


@pytest.fixture(scope="module")
def week():
    """Five builds at two thirds of their hours, and a plan of them."""
    problem = full_week(scale=0.9)
    return problem, first_plan(problem)


def test_what_goes_as_planned_stays_to_the_minute():
    bench = racks()
    plan = first_plan(bench)
    now = stood_in(bench, plan)
    kept = kept_plan(now)
    assert sorted(kept.placed, key=lambda p: p.id) == sorted(plan.placed, key=lambda p: p.id)
    assert goals(now, kept.placed)[MOVED] == 0


def test_an_hour_late_moves_some_steps_where_pushing_on_moves_nearly_all(week):
    problem, plan = week
    now = stood_in(delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR), plan)
    kept = kept_plan(now)
    pushed = pushed_later(now, still_standing(now))
    assert violations(now, kept) == ()
    free = len(now.stood)
    assert 0 < goals(now, kept.placed)[MOVED] < free / 3
    assert goals(now, pushed)[MOVED] > 2 * free / 3
    assert goals(now, kept.placed)[LATENESS] <= goals(now, pushed)[LATENESS]


def test_what_moved_is_counted_as_the_steps_that_differ(week):
    problem, plan = week
    now = stood_in(delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR), plan)
    kept = kept_plan(now)
    free = {p.id for p in now.stood}
    moved = [i for i in moved_steps(plan, kept) if i in free]
    assert goals(now, kept.placed)[MOVED] == len(moved)


@given(shops(most=3))
def test_what_is_mended_holds(problem):
    standing = first_placing(replace(problem, stood=()))
    old = problem.stood if isinstance(standing, Stuck) else standing[:1]
    found = mended_in_place(problem, old, lambda: False)
    if found:
        assert violations(problem, Plan(status=Status.GOOD, placed=found)) == ()


def test_a_plan_that_moves_more_is_worth_it_from_an_hour_less_late_on(week):
    problem, plan = week
    now = stood_in(delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR), plan)
    kept = kept_plan(now)
    anew = first_plan(now)
    gained_min = goals(now, kept.placed)[LATENESS] - goals(now, anew.placed)[LATENESS]
    assert goals(now, anew.placed)[MOVED] > goals(now, kept.placed)[MOVED]
    assert is_worth(now, kept, anew) == (gained_min >= HOUR)
    assert is_worth(now, anew, kept)


def test_a_search_is_worth_it_only_where_something_is_late_or_was_moved(week):
    late = racks()
    undated = replace(late, jobs=tuple(replace(job, due_min=None) for job in late.jobs))
    plan = first_plan(undated)
    assert nothing_to_gain(stood_in(undated, plan), plan)
    assert not nothing_to_gain(stood_in(late, plan), plan)
    problem, plan = week
    now = stood_in(delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR), plan)
    assert not nothing_to_gain(now, kept_plan(now))


def test_what_has_no_reason_to_stay_late_is_pulled_forward(week):
    problem, plan = week
    undated = replace(problem, jobs=tuple(replace(j, due_min=None) for j in problem.jobs))
    pushed = tuple(
        replace(p, start_min=p.start_min + 7 * DAY, end_min=p.end_min + 7 * DAY)
        for p in plan.placed
    )
    late = Plan(status=Status.GOOD, placed=pushed)
    assert violations(undated, late) == ()
    asked = stood_in(undated, late)
    kept = kept_plan(asked)
    assert kept.finish_min == late.finish_min
    forward = pulled_forward(asked, kept)
    assert forward.finish_min <= plan.finish_min
    assert violations(undated, forward) == ()


def test_what_ends_as_soon_as_it_can_stays(week):
    problem, plan = week
    asked = stood_in(problem, plan)
    assert pulled_forward(asked, kept_plan(asked)) is None
