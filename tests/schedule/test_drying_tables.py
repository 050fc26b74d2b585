"""Dryings and damp windows of a build go by the air of the hour they begin at."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from schedule.night_rooms import HOT_NOONS, MONDAY_AT, NIGHTS, STEADY, derived_in, problem_in

from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.schedule.bench_history import NOTHING_DONE, History
from armorplan.schedule.checker import violations
from armorplan.schedule.drying_tables import Drier
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.steps.windows import step_windows
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier


def planned(derived, **more):
    """Return a plan that holds, and its steps by id."""
    problem = problem_in(derived, **more)
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return problem, {p.id: p for p in plan.placed}


def at(problem, minute):
    return problem.origin_at + timedelta(minutes=minute)


def test_steady_air_needs_no_tables():
    problem = problem_in(derived_in(STEADY))
    assert all(a.table is None for a in problem.activities)
    assert all(lag.opens is None and lag.closes is None for lag in problem.lags)


def test_every_drying_and_cure_lasts_as_the_room_says_from_its_own_start():
    derived = derived_in(NIGHTS)
    problem, lies = planned(derived)
    room = drying_room(NIGHTS)
    dryings = derived.work.of_kind(StepKind.DRY, StepKind.CURE)
    assert len(dryings) >= 5
    for step in dryings:
        entry = derived.shelf.treatment(step.drying.treatment)
        placed = lies[step.id]
        likely = room.minutes(
            entry, step.drying.body, step.drying.stage, at(problem, placed.start_min)
        )
        assert likely <= placed.end_min - placed.start_min <= likely + 15 * 3
        # It may be told later by what the rest of its quarter of an hour adds, not sooner.


def test_equal_dryings_share_one_table():
    derived = derived_in(NIGHTS)
    drier = Drier(derived.shelf, NIGHTS, MONDAY_AT)
    dry = derived.work.of_kind(StepKind.DRY)[0]
    alike = replace(dry, id="another", parts=())
    assert drier.drying(dry, 96) is not None
    assert drier.drying(alike, 96) is drier.drying(dry, 96)


_DAYS = (
    datetime(2026, 10, 23, 8, tzinfo=UTC),  # Clocks go back on Sunday.
    datetime(2027, 3, 26, 9, tzinfo=UTC),  # Clocks go on on Sunday.
    datetime(2026, 11, 30, 10, 47, tzinfo=UTC),
)


@pytest.mark.parametrize("room", [NIGHTS, HOT_NOONS], ids=["nights", "hot noons"])
@pytest.mark.parametrize("origin_at", _DAYS, ids=["autumn", "spring", "odd minute"])
def test_nothing_is_shaped_outside_its_real_window(room, origin_at):
    """Over noons, closing hours and changes of the clock; judged by the room, not by the tables."""
    derived = derived_in(room, every_day=True)
    problem, lies = planned(derived, origin_at=origin_at)
    reckoned = drying_room(room)
    windows = [w for w in step_windows(derived.work, derived.shelf) if w.opens is not None]
    assert windows
    for window in windows:
        entry = derived.shelf.treatment(window.treatment)
        end_min = lies[window.first].end_min
        gap = lies[window.then].start_min - end_min
        opens = reckoned.minutes(entry, window.body, Stage.OPENS, at(problem, end_min))
        closes = reckoned.minutes(entry, window.body, Stage.CLOSES, at(problem, end_min))
        assert opens - 2 <= gap <= closes + 2


def test_hot_noons_move_a_casing_that_steady_air_would_let_wait():
    """The usual minutes of a day would not do: the window at hand is the one of its hour."""
    derived = derived_in(HOT_NOONS)
    problem = problem_in(derived)
    lags = [lag for lag in problem.lags if lag.opens is not None and lag.closes is not None]
    assert lags
    for lag in lags:
        spans = {lag.closes.open_till(m) - lag.opens.ready_at(m) for m in range(0, 540, 15)}
        assert max(spans) > 2 * min(spans)


def test_what_runs_ends_when_the_room_says_and_what_follows_counts_from_a_real_end():
    derived = derived_in(NIGHTS)
    case = derived.work.of_kind(StepKind.CASE)[0]
    begun_at = MONDAY_AT - timedelta(minutes=20)
    ended_at = MONDAY_AT - timedelta(minutes=8)
    prior = _behind(derived, case.id, begun_at)
    history = History(done={**prior, case.id: (begun_at, ended_at)}, running={}, worked_min={})
    problem = problem_in(derived, history=history)
    lag = next(g for g in problem.lags if (g.first, g.then) == (case.id, case.serves))
    entry = derived.shelf.treatment(case.treatment)
    room = drying_room(NIGHTS)
    opens = room.minutes(entry, case.drying.body, Stage.OPENS, ended_at)
    closes = room.minutes(entry, case.drying.body, Stage.CLOSES, ended_at)
    assert (lag.min_lag, lag.max_lag, lag.opens, lag.closes) == (opens, closes, None, None)


def _behind(derived, step, at_):
    """Return everything that comes before a step in the order, as done long ago."""
    order = derived.order[: derived.order.index(step)]
    return {name: (at_ - timedelta(days=3), at_ - timedelta(days=3)) for name in order}


def test_a_running_drying_ends_when_history_says_it_is_ready():
    derived = derived_in(NIGHTS)
    dry = derived.work.of_kind(StepKind.DRY)[0]
    begun_at = MONDAY_AT - timedelta(hours=2)
    ready_at = MONDAY_AT + timedelta(hours=31, minutes=20)
    history = History(
        done=_behind(derived, dry.id, begun_at),
        running={dry.id: begun_at},
        worked_min={},
        ready={dry.id: ready_at},
    )
    activity = next(a for a in problem_in(derived, history=history).activities if a.id == dry.id)
    assert (activity.fixed_start_min, activity.fixed_end_min) == (-120, 31 * 60 + 20)
    assert NOTHING_DONE.ends(derived.work) == {}
    assert history.ends(derived.work)[dry.id] == ready_at


def _entry(derived, step):
    return derived.shelf.treatment(step.drying.treatment)


def test_what_never_dries_here_keeps_the_time_of_its_step():
    soaked = Climate(temperature_c=4, humidity_pct=100)
    room = Room(usual=soaked, by_hour=(soaked,) * 24, zone="UTC")
    derived = derived_in(NIGHTS)
    drier = Drier(derived.shelf, room, MONDAY_AT)
    dries = derived.work.of_kind(StepKind.DRY)
    dry = next(s for s in dries if _entry(derived, s).carrier is Carrier.WATER)
    assert drier.drying(dry, 96) is None
    assert drier.most_waiting_min((dry,), 96) == dry.minutes


def test_the_horizon_allows_for_the_nights():
    waits = [problem_in(derived_in(room)).horizon_min for room in (STEADY, NIGHTS)]
    assert waits[0] < waits[1]
