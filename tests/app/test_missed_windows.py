"""Windows at the bench: begun too soon, missed, opened again; told by the air of the hour."""

from dataclasses import replace
from datetime import timedelta

import pytest
from clocks import FakeClock
from drying.sample_rooms import nights

from armorplan.app.bench_states import states_now
from armorplan.app.derived import derive_build
from armorplan.app.rows import BenchState, Grouping
from armorplan.app.start_windows import LOST
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.ledger import acting
from armorplan.ledger.state import derive
from armorplan.pattern.own_work import Overruling
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_bath,
    sketch_form,
    sketch_part,
    sketch_treatment,
)
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Room
from armorplan.workshop.shop import one_maker

SHELF = sketch_shelf()


def row_of(bench, step):
    rows = bench.session.checklist(Grouping.PIECE)
    return next(row for row in rows if row.id == step)


def cased(bench):
    """The first casing done; its id and that of what it serves."""
    bench.do_until(StepKind.TOOL)
    (tool,) = bench.ids(StepKind.TOOL)
    return bench.session.derived.work.casing_for(tool).id, tool


def later(bench, minutes):
    bench.clock.advance(60 * minutes)
    bench.session.read_along()


def test_what_is_shaped_before_its_window_opens_is_early_and_says_by_how_much(bench):
    _, tool = cased(bench)
    assert bench.session.start((tool,)).startswith("Started early")
    later(bench, 60)
    bench.session.done((tool,))
    row = row_of(bench, tool)
    assert row.state is BenchState.EARLY
    assert row.waits_for == "begun 11 min before its window opened"
    assert "begun 11 min before its window opened" in bench.session.why(tool).detail


def test_what_is_shaped_in_its_window_is_done(bench):
    _, tool = cased(bench)
    later(bench, 20)
    assert "early" not in bench.session.start((tool,))
    later(bench, 60)
    bench.session.done((tool,))
    assert row_of(bench, tool).state is BenchState.DONE


@pytest.mark.parametrize("started", [True, False])
def test_a_missed_window_is_told_and_opens_again_once_it_is_cased_again(bench, started):
    case, tool = cased(bench)
    later(bench, 20)
    assert (bench.state(case), bench.state(tool)) == (BenchState.DONE, BenchState.READY)
    assert "It may begin from" in bench.session.why(tool).detail
    later(bench, 120)
    assert (bench.state(case), bench.state(tool)) == (BenchState.READY, BenchState.MISSED)
    assert "Case it again" in row_of(bench, tool).waits_for
    assert "Its window closed at" in bench.session.why(tool).detail
    assert row_of(bench, case).waits_for.startswith("again, for 'Tool")
    assert {case, tool} <= set(bench.session.ready_steps())
    if started:
        bench.session.start((case,))
        assert bench.state(case) is BenchState.RUNNING
    bench.session.done((case,))
    assert (bench.state(case), bench.state(tool)) == (BenchState.DONE, BenchState.WAITING)
    later(bench, 20)
    assert bench.state(tool) is BenchState.READY
    bench.session.undo()
    expected = BenchState.RUNNING if started else BenchState.READY
    assert bench.state(case) is expected


def test_a_window_closes_by_itself_at_its_instant(bench):
    _, tool = cased(bench)
    later(bench, 20)
    by_at = bench.session.moment().states.windows[tool].by_at
    bench.clock.advance((by_at - bench.clock.now()).total_seconds())
    bench.session.read_along()
    assert bench.state(tool) is BenchState.READY
    bench.clock.advance(1)
    assert bench.session.read_along()
    assert bench.state(tool) is BenchState.MISSED


def test_the_plan_has_it_cased_again_in_time(bench):
    case, tool = cased(bench)
    later(bench, 300)
    problem = bench.session.problem()
    plan = first_plan(problem)
    assert bench.session.take_plan(CheckedPlan(problem=problem, plan=plan))
    lies = {p.id: p for p in plan.placed}
    assert lies[case].start_min >= 0
    window = next(lag for lag in problem.lags if (lag.first, lag.then) == (case, tool))
    assert window.max_lag is not None
    assert window.min_lag <= lies[tool].start_min - lies[case].end_min <= window.max_lag
    assert row_of(bench, case).start_at >= bench.clock.now() - timedelta(minutes=1)


def standing(pattern, shelf, done, *, minutes, room=None):
    """How a build stands so many minutes after these steps were ticked one after another."""
    shop = one_maker("UTC")
    shop = replace(shop, room=room or shop.room)
    derived = derive_build(pattern, shelf, shop, build="b")
    clock, events = FakeClock(), []
    for number, kind in enumerate(done):
        press = acting.press_now("b", f"press-{number}", clock)
        step = derived.work.of_kind(kind)[0]
        made = acting.done(derive(tuple(events)), (step.id,), press)
        events += [replace(e, seq=len(events) + at + 1) for at, e in enumerate(made)]
    ended_at = clock.now()
    now_at = ended_at + timedelta(minutes=minutes)
    return derived, states_now(derived, derive(tuple(events)), now_at), ended_at


FORMED = sketch(sketch_part("plate"), forms=(sketch_form("bow", "plate"),))
TO_CASE = (StepKind.LAY_OUT, StepKind.CUT, StepKind.CASE)


def with_entry(name, **fields):
    entries = (replace(e, **fields) if e.id == name else e for e in SHELF.treatments)
    return replace(SHELF, treatments=tuple(entries))


def test_a_window_counts_from_the_real_end_in_the_air_of_that_hour():
    room = Room(by_hour=nights(6.0, 22.0, 50.0))
    derived, states, ended_at = standing(FORMED, SHELF, TO_CASE, minutes=1, room=room)
    (form,) = derived.work.of_kind(StepKind.FORM)
    case = derived.work.casing_for(form.id)
    window, entry = states.windows[form.id], SHELF.treatment("casing")
    for at, stage in ((window.opens_at, Stage.OPENS), (window.by_at, Stage.CLOSES)):
        minutes = drying_room(room).minutes(entry, case.drying.body, stage, ended_at)
        assert at == ended_at + timedelta(minutes=minutes)
    assert window.by_at != ended_at + timedelta(minutes=90)


def test_a_window_that_the_maker_set_aside_is_never_missed():
    mine = Overruling(id="mine", rule="damp-window", note="It stays wrapped.")
    derived, states, _ = standing(
        replace(FORMED, overrulings=(mine,)), SHELF, TO_CASE, minutes=200
    )
    (form,) = derived.work.of_kind(StepKind.FORM)
    assert states.of(form.id) is BenchState.READY
    assert form.id not in states.windows


def test_a_loss_is_called_a_loss_and_nothing_is_done_again():
    shelf = with_entry("casing", missed_is_loss=True)
    derived, states, _ = standing(FORMED, shelf, TO_CASE, minutes=200)
    (form,) = derived.work.of_kind(StepKind.FORM)
    (case,) = derived.work.of_kind(StepKind.CASE)
    assert states.of(form.id) is BenchState.MISSED
    assert states.windows[form.id].remedy == LOST
    assert states.of(case.id) is BenchState.DONE


def test_a_coat_too_late_says_to_scuff_and_may_go_on():
    coats = sketch(
        sketch_part("plate"), treatments=(sketch_treatment("lacquer", "plate", coats=2),)
    )
    done = (StepKind.LAY_OUT, StepKind.CUT, StepKind.FINISH, StepKind.DRY)
    derived, states, _ = standing(coats, SHELF, done, minutes=1500)
    second = derived.work.of_kind(StepKind.FINISH)[1]
    assert states.of(second.id) is BenchState.MISSED
    assert states.windows[second.id].remedy == "Scuff it lightly before the next coat."
    assert not states.again


@pytest.mark.parametrize(
    ("minutes", "state"),
    [(0, BenchState.READY), (5, BenchState.READY), (6, BenchState.MISSED)],
)
def test_a_watch_begins_as_soon_as_it_has_dripped(minutes, state):
    dipped = sketch(sketch_part("plate"), treatments=(sketch_bath("lacquer", "plate"),))
    done = (StepKind.LAY_OUT, StepKind.CUT, StepKind.FINISH, StepKind.DRIP)
    derived, states, _ = standing(dipped, SHELF, done, minutes=minutes)
    (watch,) = derived.work.of_kind(StepKind.WATCH)
    assert states.of(watch.id) is state
    assert states.windows[watch.id].remedy.startswith("Wipe what is still wet")
