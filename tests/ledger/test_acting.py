"""Which entries a key press makes."""

import pytest
from ledger.sitting import BUILD, Sitting

from armorplan.ledger import acting
from armorplan.ledger.events import EventKind
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState


def kinds_of_last(sitting, count):
    return [(event.step, event.kind) for event in sitting.events[-count:]]


def test_a_press_stamps_every_entry_with_both_clocks_its_batch_and_who_pressed():
    sitting = Sitting()
    batch = sitting.start("cut/petal_left", "cut/petal_mid")
    assert [event.step for event in sitting.events] == ["cut/petal_left", "cut/petal_mid"]
    for event in sitting.events:
        assert event.build == BUILD
        assert event.batch == batch
        assert event.who == "Maud"
        assert event.at == sitting.clock.now()
        assert (event.boot_id, event.boot_s) == ("boot-1", 1000.0)


def test_starting_what_runs_makes_no_entry():
    sitting = Sitting()
    sitting.start("cut")
    sitting.start("cut")
    assert len(sitting.events) == 1


def test_starting_a_tray_of_which_one_runs_starts_the_others():
    sitting = Sitting()
    sitting.start("cut/a")
    sitting.start("cut/a", "cut/b", "cut/b")
    assert kinds_of_last(sitting, 1) == [("cut/b", EventKind.STARTED)]
    assert len(sitting.events) == 2


@pytest.mark.parametrize("before", [(), ("done",), ("start", "pause")])
def test_pausing_what_does_not_run_makes_no_entry(before):
    sitting = Sitting()
    for action in before:
        getattr(sitting, action)("cut")
    count = len(sitting.events)
    sitting.pause("cut")
    assert len(sitting.events) == count


def test_a_step_never_started_can_be_ticked():
    sitting = Sitting()
    sitting.done("rivet")
    assert kinds_of_last(sitting, 1) == [("rivet", EventKind.DONE)]
    assert sitting.state.record("rivet").status is StepStatus.DONE


def test_ticking_what_is_done_makes_no_entry():
    sitting = Sitting()
    sitting.done("rivet")
    sitting.done("rivet")
    assert len(sitting.events) == 1


def test_a_blank_note_makes_no_entry_and_a_written_one_keeps_its_text():
    sitting = Sitting()
    sitting.note("dye", "  \n")
    sitting.note("dye", " second coat thinner ")
    assert [event.text for event in sitting.events] == [" second coat thinner "]


def test_signing_off_twice_makes_one_entry():
    sitting = Sitting()
    sitting.sign_off("dry-fit")
    sitting.sign_off("dry-fit")
    assert [event.kind for event in sitting.events] == [EventKind.SIGNED_OFF]


def test_undo_and_redo_name_the_batch_and_write_one_entry_for_each_step():
    sitting = Sitting()
    tray = sitting.done("cut/a", "cut/b")
    sitting.undo("the wrong tray")
    sitting.redo()
    turns = sitting.events[2:]
    assert [event.kind for event in turns] == [EventKind.UNDONE] * 2 + [EventKind.REDONE] * 2
    assert [event.step for event in turns] == ["cut/a", "cut/b"] * 2
    assert {event.undoes for event in turns} == {tray}
    assert [event.text for event in turns] == ["the wrong tray"] * 2 + [""] * 2


def test_with_nothing_recorded_undo_and_redo_make_no_entry():
    press = Sitting().press()
    assert acting.undo(LedgerState(), press) == ()
    assert acting.redo(LedgerState(), press) == ()
