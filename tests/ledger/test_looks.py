"""Looks at a drying: what they do to it, and that they can be taken back."""

from dataclasses import replace

import pytest
from ledger.sitting import Sitting

from armorplan.ledger import acting
from armorplan.ledger.batches import standing_presses
from armorplan.ledger.events import EventKind
from armorplan.ledger.hands import Reckoned, reckoned_from, reckoned_text, worked
from armorplan.ledger.looks import LookTaken, look_from, look_text
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive

MINUTE_S = 60
DRY = LookTaken(
    treatment="water_dye",
    stage="dry to handle",
    dry=True,
    begun_at="2026-11-30T09:00:00+00:00",
    dose_min=700.0,
    reference_min=1000.0,
)
DAMP = replace(DRY, dry=False)


class Looking(Sitting):
    def look(self, step, seen):
        return self._press(lambda press: acting.look(self.state, step, seen, press))

    def tick(self, told, *steps):
        return self._press(lambda press: acting.done(self.state, steps, press, told=told))


@pytest.fixture
def looking():
    sitting = Looking()
    sitting.start("dry")
    sitting.clock.advance(600 * MINUTE_S)
    return sitting


def test_dry_ticks_the_drying_in_the_same_press_and_undo_takes_back_both(looking):
    looking.look("dry", DRY)
    assert [event.kind for event in looking.events[1:]] == [EventKind.LOOKED, EventKind.DONE]
    assert looking.state.record("dry").status is StepStatus.DONE
    looking.undo()
    assert looking.state.record("dry").status is StepStatus.RUNNING
    kinds = [event.kind for event in standing_presses(looking.events).events]
    assert EventKind.LOOKED not in kinds


def test_still_damp_is_kept_with_its_dose_until_it_is_dry(looking):
    looking.look("dry", DAMP)
    record = looking.state.record("dry")
    assert (record.status, record.damp_at) == (StepStatus.RUNNING, looking.clock.now())
    assert record.damp.look.factor == pytest.approx(0.7)
    looking.clock.advance(60 * MINUTE_S)
    looking.look("dry", replace(DRY, dose_min=800.0))
    record = looking.state.record("dry")
    assert record.status is StepStatus.DONE


def test_damp_after_it_was_ticked_lets_it_dry_on_from_where_it_began(looking):
    began = looking.state.record("dry").counted[0].start
    looking.look("dry", DRY)
    looking.clock.advance(120 * MINUTE_S)
    looking.look("dry", DAMP)
    record = looking.state.record("dry")
    assert record.status is StepStatus.RUNNING
    assert record.done_at is None
    assert (record.counted[0].start, record.counted[0].end) == (began, None)
    assert looking.state.done_order == ()


def test_a_new_coat_forgets_that_the_last_was_damp(looking):
    looking.look("dry", replace(DAMP, expected_factor=0.9, expected_spread=0.2))
    assert looking.state.record("dry").damp.look.expected == (0.9, 0.2)
    press = looking.press()
    events = (*looking.events, *acting.start_anew(looking.state, ("dry",), press))
    record = derive(events).record("dry")
    assert (record.status, record.damp) == (StepStatus.RUNNING, None)


def test_a_weighing_is_an_entry_of_its_own_kind(looking):
    looking.look("dry", replace(DAMP, before_g=100.0, wet_g=140.0, now_g=110.0))
    assert looking.events[-1].kind is EventKind.WEIGHED
    seen = look_from(looking.events[-1].text)
    assert seen is not None
    assert seen.weights_g == (100.0, 140.0, 110.0)


@pytest.mark.parametrize("seen", [DRY, replace(DAMP, before_g=1.0, wet_g=2.0, now_g=1.5, faces=1)])
def test_a_look_comes_back_from_its_text(seen):
    assert look_from(look_text(seen)) == seen


@pytest.mark.parametrize(
    "text",
    [
        "",
        "dry",
        "[1]",
        '{"dry": true}',
        look_text(replace(DRY, reference_min=0.0)),
        look_text(replace(DRY, dose_min=float("nan"))),
        look_text(replace(DRY, dose_min=-1.0)),
        look_text(replace(DRY, expected_factor=0.0)),
        look_text(replace(DRY, expected_factor=1.0, expected_spread=float("nan"))),
        look_text(DRY).replace("true", '"yes"'),
        look_text(replace(DRY, begun_at="this morning")),
        look_text(replace(DRY, begun_at="2026-11-30T09:00:00")),
        look_text(DRY).replace("700.0", '"700"'),
        look_text(DRY).replace('"run": ""', '"run": 7'),
    ],
)
def test_a_damaged_look_is_none_and_changes_nothing(text, looking):
    assert look_from(text) is None
    entry = replace(looking.events[-1], kind=EventKind.LOOKED, text=text, batch="other")
    assert derive((*looking.events, entry)).record("dry") == looking.state.record("dry")


def told(kind, minutes, *steps):
    return {step: reckoned_text(Reckoned(kind=kind, minutes=minutes)) for step in steps}


def took(sitting):
    return worked(sitting.state, standing_presses(sitting.events).events)


def test_work_is_measured_without_its_pauses():
    sitting = Looking()
    sitting.start("cut")
    sitting.clock.advance(6 * MINUTE_S)
    sitting.pause("cut")
    sitting.clock.advance(600 * MINUTE_S)
    sitting.start("cut")
    sitting.clock.advance(3 * MINUTE_S)
    sitting.tick(told("cut", 12.0, "cut"), "cut")
    (found,) = took(sitting)
    assert (found.kind, found.who, found.factor, found.share) == ("cut", "Maud", 0.75, 1.0)


def test_a_tray_begun_at_once_shares_its_minutes_however_it_was_ticked():
    rows = told("rivet", 1.0, "r/1", "r/2") | told("screw", 2.0, "s/1")
    sitting = Looking()
    sitting.start("r/1", "r/2", "s/1")
    sitting.clock.advance(2 * MINUTE_S)
    sitting.tick(rows, "r/1")
    sitting.clock.advance(6 * MINUTE_S)
    sitting.tick(rows, "r/2", "s/1")
    found = {each.kind: each for each in took(sitting)}
    assert {kind: each.factor for kind, each in found.items()} == {"rivet": 2.0, "screw": 2.0}
    assert {kind: each.share for kind, each in found.items()} == {"rivet": 0.5, "screw": 0.5}


def test_what_was_ticked_without_a_start_or_taken_back_tells_nothing():
    sitting = Looking()
    sitting.tick(told("cut", 12.0, "cut"), "cut")
    assert took(sitting) == ()
    sitting.start("punch")
    sitting.clock.advance(3 * MINUTE_S)
    sitting.tick(told("punch", 4.0, "punch"), "punch")
    assert len(took(sitting)) == 1
    sitting.undo()
    assert took(sitting) == ()


def test_what_was_ticked_at_once_keeps_a_factor_above_nothing():
    sitting = Looking()
    sitting.start("cut")
    sitting.tick(told("cut", 12.0, "cut"), "cut")
    assert took(sitting)[0].factor == 0.01


@pytest.mark.parametrize("text", ["", "early", '{"kind": "cut"}', '{"kind": "cut", "minutes": 0}'])
def test_a_tick_that_tells_nothing_of_use_is_none(text):
    assert reckoned_from(text) is None


def worked_through(*happens, minutes=12.0):
    """Work with something that happens after each third minute; what it took, if that is known."""
    sitting = Looking()
    sitting.start("cut")
    for each in happens:
        sitting.clock.advance(3 * MINUTE_S)
        each(sitting)
    sitting.clock.advance(3 * MINUTE_S)
    sitting.tick(told("cut", minutes, "cut"), "cut")
    return [each.factor for each in took(sitting)]


def set_by(hours):
    return lambda sitting: sitting.clock.set_back(-3600 * hours)


def restart(sitting):
    sitting.clock.reboot(off_s=3 * MINUTE_S)


def rest(sitting):
    sitting.pause("cut")
    sitting.clock.advance(3600)
    sitting.start("cut")


@pytest.mark.parametrize("hours", [1, -1, 72])
def test_work_takes_as_long_as_it_takes_whatever_the_clock_is_set_to(hours):
    assert worked_through(set_by(hours)) == [pytest.approx(0.5)]
    assert worked_through(rest, set_by(hours)) == [pytest.approx(0.75)]
    assert worked_through(set_by(hours), rest) == [pytest.approx(0.75)]


def test_across_a_restart_the_wall_clock_counts_and_one_that_lost_time_teaches_nothing():
    assert worked_through(restart) == [pytest.approx(0.75)]
    assert worked_through(restart, set_by(-1)) == []
