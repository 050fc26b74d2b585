"""'Dry now', 'still damp' and weighings at the bench: the build goes on with what they teach."""

from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from store.shelf_of_builds import ELBOW

from armorplan.app.in_room import in_room
from armorplan.app.learned_shop import learned_shop, shop_today
from armorplan.app.opening import resume_build
from armorplan.app.rows import BenchState
from armorplan.app.session import Session
from armorplan.drying.spans import Stage
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger import acting
from armorplan.ledger.acting import press_now
from armorplan.ledger.events import EventKind
from armorplan.ledger.looks import LookTaken
from armorplan.ledger.state import LedgerState
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Pace, Room

MINUTE_S = 60


@pytest.fixture
def drying(bench):
    """Return the first drying of a dye, just begun."""
    bench.do_until(StepKind.DYE)
    dye = bench.steps(StepKind.DYE)[0]
    bench.session.done((dye.id,))
    return bench.session.derived.work.drying_of(dye.id)


@pytest.fixture
def to_handle(bench):
    """Return the first drying after which the leather is handled, just begun."""
    work = bench.session.derived.work
    for step_id in bench.session.derived.order:
        dry = work.drying_of(step_id)
        bench.session.done((step_id,))
        if dry and dry.drying and dry.drying.stage is Stage.HANDLE:
            return dry
        pass_min(bench, work.step(step_id).minutes)
    return None


def timer(bench, step):
    return next(row for row in bench.session.timers() if row.step == step.id)


def pass_min(bench, minutes):
    bench.clock.advance(minutes * MINUTE_S)
    bench.session.read_along()


def pace(bench, step):
    return bench.session.derived.shop.room.pace(step.treatment)


def test_dry_now_ticks_the_drying_and_teaches_the_room_at_once(bench, drying):
    pass_min(bench, drying.minutes * 0.6)
    said = bench.session.drying.look(drying.id, dry=True)
    assert said.startswith(f"Dry: {drying.title}. ")
    assert "Learned from 1 drying." in said
    assert bench.state(drying.id) is BenchState.DONE
    learned = pace(bench, drying)
    assert learned.factor < 0.97
    assert learned.observations == 1


def test_one_undo_takes_back_the_tick_and_what_it_taught(bench, drying):
    due_at = timer(bench, drying).due_at
    pass_min(bench, drying.minutes * 0.6)
    bench.session.drying.look(drying.id, dry=True)
    assert bench.session.can_undo() == f"check of {drying.title}"
    bench.session.undo()
    assert bench.state(drying.id) is BenchState.DRYING
    assert pace(bench, drying) is None
    assert timer(bench, drying).due_at == due_at
    bench.session.redo()
    assert pace(bench, drying).observations == 1


def test_a_look_at_the_wet_step_means_its_drying(bench, drying):
    pass_min(bench, 60)
    assert bench.session.drying.may_look(drying.after)
    bench.session.drying.look(drying.after, dry=False)
    assert bench.session.moment().ledger.record(drying.id).damp_at == bench.clock.now()


def test_still_damp_when_its_time_is_up_lets_what_waits_wait_again(bench, drying):
    index = bench.session.derived.index
    waiting = [
        step.id
        for step in bench.session.derived.work.steps
        if step.attended
        for at in index.by_member[index.number[step.id]]
        if index.steps[index.firsts[at]] == drying.id
    ]
    pass_min(bench, drying.minutes + 1)
    ready = [step for step in waiting if bench.state(step) is BenchState.READY]
    assert ready
    said = bench.session.drying.look(drying.id, dry=False)
    assert said.startswith(f"Still damp: {drying.title}. It goes on until about ")
    assert all(bench.state(step) is BenchState.WAITING for step in ready)
    assert bench.state(drying.id) is BenchState.DRYING
    row = timer(bench, drying)
    assert row.due_at > bench.clock.now() + timedelta(minutes=0.1 * drying.minutes)
    pass_min(bench, (row.due_at - bench.clock.now()).total_seconds() / MINUTE_S + 1)
    assert all(bench.state(step) is BenchState.READY for step in ready)


@pytest.mark.parametrize("set_by_h", [1, -1, 72])
def test_a_look_after_the_clock_was_set_moves_the_end_as_one_before(bench, drying, set_by_h):
    def left_min():
        return (timer(bench, drying).due_at - bench.clock.now()).total_seconds() / MINUTE_S

    pass_min(bench, drying.minutes)
    bench.session.drying.look(drying.id, dry=False)
    plainly_min = left_min()
    bench.session.undo()
    bench.clock.set_now(bench.clock.now() + timedelta(hours=set_by_h))
    bench.session.read_along()
    bench.session.drying.look(drying.id, dry=False)
    assert left_min() == pytest.approx(plainly_min, abs=0.1)


def test_a_look_counts_once_in_its_own_drying(bench, to_handle):
    drying = to_handle
    pass_min(bench, drying.minutes)
    for _ in range(2):
        bench.session.drying.look(drying.id, dry=False)
        assert bench.session.moment().ledger.record(drying.id).damp.look.expected == (1.0, 0.3)
        assert pace(bench, drying).factor > 1.05
    # Of dryings that take longer than likely, half take exp(0.3 * 0.6745) = 1.224 times as long.
    left_min = (timer(bench, drying).due_at - bench.clock.now()).total_seconds() / MINUTE_S
    assert left_min == pytest.approx(0.224 * drying.minutes, rel=0.01)


def test_what_other_dryings_told_counts_in_one_found_damp(bench, drying):
    pass_min(bench, 0.5 * drying.minutes)
    bench.session.drying.look(drying.id, dry=True)
    learned = pace(bench, drying)
    assert learned.factor < 1
    bench.session.start((drying.after,))
    bench.session.done((drying.after,))
    pass_min(bench, 0.9 * drying.minutes)
    bench.session.drying.look(drying.id, dry=False)
    record = bench.session.moment().ledger.record(drying.id)
    assert record.damp.look.expected == (learned.factor, learned.spread)


def test_looks_before_and_after_the_clock_was_set_are_at_one_drying(bench, drying):
    def look_later(hours):
        pass_min(bench, 0.2 * drying.minutes)
        bench.clock.set_now(bench.clock.now() + timedelta(hours=hours, microseconds=137))
        bench.session.read_along()
        return bench.session.drying.look(drying.id, dry=False)

    pass_min(bench, drying.minutes)
    said = [look_later(hours) for hours in (0, 1, -2, 0)]
    assert all("Learned from 1 drying." in each for each in said)


def test_the_plan_goes_by_the_new_end(bench, drying):
    def planned_end():
        activities = {a.id: a for a in bench.session.problem().activities}
        problem = bench.session.problem()
        return problem.origin_at + timedelta(minutes=activities[drying.id].fixed_end_min)

    pass_min(bench, drying.minutes * 0.9)
    before_at, mark = planned_end(), bench.session.problem_mark()
    bench.session.drying.look(drying.id, dry=False)
    assert bench.session.problem_mark() is not mark
    assert planned_end() > before_at
    assert abs(planned_end() - timer(bench, drying).due_at) < timedelta(minutes=2)


def test_other_dryings_of_the_treatment_move_too(bench, drying):
    others = [
        step
        for step in bench.session.derived.work.steps
        if step.kind is StepKind.DRY and step.treatment == drying.treatment and step != drying
    ]
    assert others
    pass_min(bench, drying.minutes * 0.6)
    bench.session.drying.look(drying.id, dry=True)
    for step in others:
        assert bench.session.derived.work.step(step.id).minutes < step.minutes


def test_five_dry_taps_move_the_estimate_visibly_and_sensibly(bench):
    bench.do_until(StepKind.DYE)
    work = bench.session.derived.work
    first_min = {step.id: step.minutes for step in work.of_kind(StepKind.DRY)}
    factors = [1.0]
    for step in bench.steps(StepKind.DYE):
        for _ in range(3):
            bench.session.done((step.id,))
            dry = bench.session.derived.work.drying_of(step.id)
            pass_min(bench, 0.65 * first_min[dry.id])
            bench.session.drying.look(dry.id, dry=True)
            factors.append(bench.session.drying.estimate(dry.treatment).factor)
            bench.session.start((step.id,))
    assert len(factors) > 5
    falls = [before - after for before, after in pairwise(factors[:6])]
    assert min(falls) > -1e-9
    assert factors[1] < 0.9
    assert factors[5] == pytest.approx(0.65, rel=0.06)


def test_a_second_window_sees_it(bench, drying):
    other = bench.reopened()
    pass_min(bench, drying.minutes * 0.9)
    bench.session.drying.look(drying.id, dry=False)
    assert other.read_along()
    assert other.derived.shop.room == bench.session.derived.shop.room
    rows = {row.step: row.due_at for row in other.timers()}
    assert rows[drying.id] == timer(bench, drying).due_at


def test_a_look_at_another_build_and_a_fresh_start_are_read_along(bench, drying):
    pass_min(bench, 60)
    other = replace(ELBOW, id="collar-1", name="Collar")
    due_at = timer(bench, drying).due_at
    bench.workshop.add_build(other)
    press = press_now("collar-1", "elsewhere", bench.clock)
    seen = LookTaken(
        treatment=drying.treatment,
        stage="dry to handle",
        dry=False,
        begun_at=bench.clock.now().isoformat(),
        dose_min=2000.0,
        reference_min=1000.0,
    )
    bench.workshop.append(acting.look(LedgerState(), "collar-1/dry", seen, press))
    assert bench.session.read_along()
    assert timer(bench, drying).due_at > due_at
    bench.clock.advance(1)
    bench.workshop.fresh_starts.add("all")
    assert bench.session.read_along()
    assert timer(bench, drying).due_at == due_at
    assert not bench.session.read_along()


def test_the_next_opening_reckons_the_same(bench, drying):
    pass_min(bench, drying.minutes * 0.6)
    bench.session.drying.look(drying.id, dry=True)
    here = bench.session.derived
    shop = shop_today(here.shop, bench.workshop, here.shelf)
    again = resume_build(bench.session.build, shop)
    assert again.derived.shop.room == here.shop.room
    assert again.derived.work == here.work
    assert again.derived.flat_work == here.flat_work
    assert [(w.lag_min, w.max_lag_min) for w in again.derived.waits] == [
        (w.lag_min, w.max_lag_min) for w in here.waits
    ]


def test_a_build_in_another_room_is_the_one_derived_there(bench):
    here = bench.session.derived
    night = Climate(temperature_c=10.0, humidity_pct=70.0)
    treatments = {step.treatment for step in here.work.steps if step.drying}
    room = Room(
        by_hour=tuple(Climate() if 8 <= hour < 18 else night for hour in range(24)),
        paces=tuple(
            Pace(treatment=each, factor=1.4, spread=0.2, observations=3)
            for each in sorted(treatments)
        ),
    )
    moved = in_room(here, room)
    again = resume_build(bench.session.build, moved.shop).derived
    assert moved.work == again.work
    assert moved.work != here.work
    assert [(w.lag_min, w.max_lag_min) for w in moved.waits] == [
        (w.lag_min, w.max_lag_min) for w in again.waits
    ]


def test_what_was_learned_is_forgotten_and_remembered(bench, drying):
    minutes = drying.minutes
    pass_min(bench, drying.minutes * 0.6)
    desk = bench.session.drying
    desk.look(drying.id, dry=True)
    bench.clock.advance(1)
    assert "learned anew" in desk.forget(drying.treatment)
    assert pace(bench, drying) is None
    assert bench.session.derived.work.step(drying.id).minutes == minutes
    bench.clock.advance(1)
    assert "counts again" in desk.remember(drying.treatment)
    assert pace(bench, drying).observations == 1
    assert [row.treatment for row in desk.estimates()] == [drying.treatment]


def test_a_weighing_sets_the_timer_of_this_very_piece(bench, to_handle):
    drying = to_handle
    usual_at = timer(bench, drying).due_at
    pass_min(bench, 300)
    said = bench.session.drying.weigh(drying.id, before_g=100.0, wet_g=140.0, now_g=105.0)
    assert said.startswith("Still damp: ")
    due_at = timer(bench, drying).due_at
    # 40 g to 5 g in 300 min: 2 g are left after 300 * ln 20 / ln 8 = 432 min, air and body alike.
    assert due_at < usual_at
    left_min = (due_at - bench.clock.now()).total_seconds() / MINUTE_S
    assert left_min == pytest.approx(432.2 - 300, abs=3)
    assert bench.session.moment().ledger.undo_side[-1].kinds == (EventKind.WEIGHED,)


def test_a_weighing_between_coats_teaches_without_putting_off_what_is_only_to_be_touched(
    bench, drying
):
    pass_min(bench, 5)
    due_at = timer(bench, drying).due_at
    said = bench.session.drying.weigh(drying.id, before_g=100.0, wet_g=140.0, now_g=130.0)
    assert said.startswith("Weighed: ")
    assert pace(bench, drying).observations == 1
    row = timer(bench, drying)
    assert bench.session.moment().ledger.record(drying.id).damp_at is None
    assert (row.due_at > due_at) == (pace(bench, drying).factor > 1)


def test_a_piece_back_at_its_weight_is_ticked(bench, drying):
    pass_min(bench, 300)
    said = bench.session.drying.weigh(drying.id, before_g=100.0, wet_g=140.0, now_g=101.0)
    assert said.startswith("Dry: ")
    assert bench.state(drying.id) is BenchState.DONE


def test_weights_that_cannot_be_are_not_recorded(bench, drying):
    pass_min(bench, 300)
    said = bench.session.drying.weigh(drying.id, before_g=100.0, wet_g=140.0, now_g=150.0)
    assert said.startswith("Not recorded. It cannot weigh more now")
    assert EventKind.WEIGHED not in bench.session.moment().ledger.undo_side[-1].kinds


def test_what_does_not_dry_or_has_not_begun_is_told(bench):
    desk = bench.session.drying
    cut = bench.ids(StepKind.CUT)[0]
    dry = bench.steps(StepKind.DRY)[0]
    assert desk.look(cut, dry=True).startswith("That is nothing that dries")
    assert desk.look("no such step", dry=True).startswith("That is nothing that dries")
    assert desk.look(dry.id, dry=True).startswith("It has not begun to dry")
    assert not desk.may_look(dry.id)
    assert not desk.may_look(cut)


def test_dry_twice_says_so_and_damp_after_dry_dries_on(bench, drying):
    pass_min(bench, 600)
    desk = bench.session.drying
    desk.look(drying.id, dry=True)
    assert desk.look(drying.id, dry=True).startswith("It was found dry already")
    pass_min(bench, 60)
    desk.look(drying.id, dry=False)
    assert bench.state(drying.id) is BenchState.DRYING
    assert pace(bench, drying).observations == 1


def test_a_file_that_cannot_be_written_leaves_all_as_it_was(bench, drying, monkeypatch):
    pass_min(bench, 600)
    before = bench.session.derived, timer(bench, drying).due_at

    def refuse(*_):
        raise WorkshopError("The disk is full.")

    monkeypatch.setattr(bench.workshop, "append", refuse)
    said = bench.session.drying.look(drying.id, dry=False)
    assert said == "Not recorded. The disk is full."
    bench.session.read_along()
    assert bench.session.derived.shop.room == before[0].shop.room
    assert timer(bench, drying).due_at == before[1]


def test_ticks_tell_what_was_reckoned_so_that_hands_are_learned(bench):
    for step in bench.steps(StepKind.CUT):
        bench.session.start((step.id,))
        bench.clock.advance(2 * step.minutes * MINUTE_S)
        bench.session.done((step.id,))
    here = bench.session.derived
    shop = shop_today(here.shop, bench.workshop, here.shelf)
    (cut,) = [each for each in shop.hands if each.kind == "cut"]
    assert 1.4 < cut.factor < 2.1
    again = resume_build(bench.session.build, shop).derived
    punch = bench.steps(StepKind.PUNCH)[0]
    for step in bench.steps(StepKind.CUT):
        assert again.work.step(step.id).minutes == pytest.approx(cut.factor * step.minutes, abs=2)
    assert again.work.step(punch.id).minutes == punch.minutes
    clock, workshop = bench.clock, bench.workshop
    session = Session(bench.session.build, again, workshop, clock, bench.new_id, who="Maud")
    assert session.derived.shop.hands == shop.hands
    # What is reckoned from learned minutes is held against the catalogue's all the same.
    session.start((punch.id,))
    clock.advance(3 * punch.minutes * MINUTE_S)
    session.done((punch.id,))
    hands = {(each.kind, each.who): each for each in learned_shop(workshop, here.shelf).hands}
    assert set(hands) == {("cut", ""), ("punch", ""), ("punch", "Maud")}
    assert hands["cut", ""].factor == cut.factor
