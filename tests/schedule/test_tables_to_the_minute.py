"""Tables and what is planned by them, against the room itself, asked minute by minute."""

from datetime import timedelta
from functools import partial
from random import Random

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry, read_hourly
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.small_problems import by_hand, kinds, waiting

from armorplan.app.past_air import going_over
from armorplan.drying.along import MOST_MIN
from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.schedule.drying_tables import Drier
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Lag, Problem, Worker
from armorplan.steps.windows import StepWindow
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf

CASING = entry(id="casing", window_min=(20, 90), handle_min=150, reference_mm=3.5)
SHELF = Shelf(leathers=(), fasteners=(), treatments=(CASING,), durations=())
THICK, THIN = Body(thickness_mm=3.5), Body(thickness_mm=2.5)
CELLS = 96
HOURS = ((0, 240), (300, 540), (1440, 1680))


def window(first="case", then="form", thin=None):
    return StepWindow(
        first=first,
        then=then,
        treatment="casing",
        body=THICK,
        thin=thin,
        opens=Stage.OPENS,
        closes=Stage.CLOSES,
    )


def minutes(room, body, stage, minute):
    at = MORNING + timedelta(minutes=minute)
    return drying_room(room).minutes(CASING, body, stage, at)


def changing(drawn):
    """Return air that is another at every hour, and read as still another on some of them."""

    def climate():
        return air(drawn.uniform(8, 34), drawn.uniform(20, 90), drawn.choice([0.1, 0.5, 1.5]))

    read = [climate() for _ in range(drawn.randint(0, 8))]
    return Room(
        by_hour=tuple(climate() for _ in range(24)),
        readings=read_hourly(MORNING + timedelta(minutes=37), read),
        zone=drawn.choice(["UTC", "Asia/Kathmandu"]),
    )


rooms = st.builds(changing, st.integers(0, 2**32).map(Random))


@settings(max_examples=12)
@given(room=rooms)
def test_no_minute_of_a_cell_opens_too_soon_or_closes_too_late(room):
    found = Drier(SHELF, room, MORNING).window(window(), CELLS)
    for end in range(0, 9 * 60, 2):
        assert opens_at(found, end) >= end + minutes(room, THICK, Stage.OPENS, end)
        assert closes_at(found, end) <= end + minutes(room, THICK, Stage.CLOSES, end)


def bench(room, thin):
    """Two casings with their shaping and drying, one maker, and work between them."""
    drier = Drier(SHELF, room, MORNING)
    table = drier.table(("casing", THICK, Stage.HANDLE), CELLS)
    names = ("1", "2")
    activities = [by_hand("other", 50, priority=2)]
    lags = []
    for at, name in enumerate(names):
        activities += [
            by_hand(f"case{name}", 10, priority=3 * at),
            by_hand(f"form{name}", 25, priority=3 * at + 1),
            waiting(f"dry{name}", 150, table=table, priority=3 * at + 2),
            by_hand(f"close{name}", 15, priority=3 * at + 2),
        ]
        lags += [
            drier.window(window(f"case{name}", f"form{name}", thin), CELLS),
            Lag(first=f"form{name}", then=f"dry{name}", max_lag=0),
            Lag(first=f"dry{name}", then=f"close{name}"),
        ]
    return Problem(
        origin_at=MORNING,
        horizon_min=2880,
        activities=tuple(activities),
        lags=tuple(lags),
        workers=(Worker(id="m", windows=HOURS),),
    )


def told_by_the_room(room, thin, plan):
    """Return what is wrong with a plan by the room alone, which knows of no tables."""
    lies = {placed.id: placed for placed in plan.placed}
    wrong = []
    for name in ("1", "2"):
        case, form, dry = (lies[f"{kind}{name}"] for kind in ("case", "form", "dry"))
        gap = form.start_min - case.end_min
        opens = minutes(room, THICK, Stage.OPENS, case.end_min)
        closes = minutes(room, thin or THICK, Stage.CLOSES, case.end_min)
        if not opens <= gap <= closes:
            wrong.append((form.id, gap, opens, closes))
        dries = minutes(room, THICK, Stage.HANDLE, dry.start_min)
        if dry.end_min - dry.start_min < dries:
            wrong.append((dry.id, dry.end_min - dry.start_min, dries))
        if dry.start_min != form.end_min or lies[f"close{name}"].start_min < dry.end_min:
            wrong.append((dry.id, "is not where it has to be"))
    return wrong


@settings(max_examples=10, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(room=rooms, thin=st.sampled_from([None, THIN]))
def test_what_is_planned_by_tables_holds_by_the_room_too(solver, room, thin):
    problem = bench(room, thin)
    first = first_plan(problem)
    for plan in (first, best_plan(problem, solver, seconds=1)):
        if plan.placed:
            assert kinds(problem, plan) == set()
            assert told_by_the_room(room, thin, plan) == []


def test_a_usual_night_has_such_plans(solver):
    """The law above is not an empty one."""
    for plan_by in (first_plan, partial(best_plan, solver=solver, seconds=1)):
        plan = plan_by(bench(cold_nights(), THIN))
        assert plan.placed
        assert told_by_the_room(cold_nights(), THIN, plan) == []


def test_a_start_that_never_dries_leaves_the_others_their_table():
    """Weeks of soaked air were read ahead, and after them it dries: from the first days never."""
    soaked = read_hourly(MORNING, [air(4.0, 100.0)] * (24 * 33))
    room = Room(by_hour=(air(),) * 24, readings=soaked)
    drier = Drier(SHELF, room, MORNING)
    cells = 40 * 96
    assert minutes(room, THICK, Stage.HANDLE, 0) is None
    for asked in (Stage.HANDLE, Stage.OPENS):
        table = drier.table(("casing", THICK, asked), cells)
        assert table.ready_at(0) >= MOST_MIN
        late = 39 * 24 * 60
        assert table.ready_at(late) <= late + minutes(room, THICK, asked, late) + 15
    found = drier.window(window(), cells)
    assert opens_at(found, 0) <= closes_at(found, 0)
    late = 38 * 24 * 60 + 5
    assert opens_at(found, late) == late + minutes(room, THICK, Stage.OPENS, late)


@pytest.mark.parametrize("hours", [0, 30])
def test_air_that_was_changed_gives_plain_minutes_once_it_no_longer_changes(hours):
    """What was cased before counts by the air of then; what is planned has no tables."""
    changed_at = MORNING - timedelta(hours=hours)
    room = going_over(Room(usual=air(10.0, 80.0)), Room(usual=air()), changed_at)
    drier = Drier(SHELF, room, MORNING)
    end_at = changed_at - timedelta(minutes=10)
    assert drier.is_steady
    assert not drier.is_always_steady
    assert drier.window(window(), CELLS) is None
    assert drier.table(("casing", THICK, Stage.HANDLE), CELLS) is None
    found = drier.window_from(window(), end_at)
    assert found.min_lag == drying_room(room).minutes(CASING, THICK, Stage.OPENS, end_at)
    assert found.min_lag > drying_room(Room(usual=air())).minutes(
        CASING, THICK, Stage.OPENS, end_at
    )
