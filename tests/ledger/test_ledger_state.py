"""The state derived from the entries."""

from dataclasses import replace

from ledger.sitting import Sitting

from armorplan.ledger.records import Moment, StepRecord, StepStatus, Stretch
from armorplan.ledger.state import Deriver, LedgerState, _Deriving, derive


def test_no_entries_leave_everything_untouched():
    state = derive(())
    assert state == LedgerState()
    assert state.record("cut") == StepRecord(step="cut")


def test_a_step_worked_in_two_stretches_keeps_both_with_their_clocks():
    sitting = Sitting()
    begun_at = sitting.clock.now()
    sitting.start("stitch")
    sitting.clock.advance(600)
    sitting.pause("stitch")
    sitting.clock.advance(60)
    sitting.start("stitch")
    assert sitting.state.record("stitch").status is StepStatus.RUNNING
    sitting.clock.advance(300)
    sitting.done("stitch")
    record = sitting.state.record("stitch")
    assert record.status is StepStatus.DONE
    assert record.done_at == sitting.clock.now()
    assert record.stretches[0] == Stretch(
        start=Moment(at=begun_at, boot_id="boot-1", boot_s=1000.0),
        end=Moment(at=record.stretches[0].end.at, boot_id="boot-1", boot_s=1600.0),
    )
    assert [s.end.boot_s - s.start.boot_s for s in record.stretches] == [600.0, 300.0]


def test_done_order_is_the_order_of_ticking_not_of_names():
    sitting = Sitting()
    sitting.done("c")
    sitting.done("a", "b")
    assert sitting.state.done_order == ("c", "a", "b")


def test_a_step_started_again_after_it_was_done_is_under_way_and_no_longer_signed_off():
    sitting = Sitting()
    sitting.done("dry-fit", "mark")
    sitting.sign_off("dry-fit")
    assert sitting.state.record("dry-fit").signed_off
    assert sitting.state.record("dry-fit").signed_off_by == "Maud"
    sitting.start("dry-fit")
    record = sitting.state.record("dry-fit")
    assert (record.status, record.done_at) == (StepStatus.RUNNING, None)
    assert (record.signed_off, record.signed_off_by) == (False, "")
    assert sitting.state.done_order == ("mark",)
    sitting.done("dry-fit")
    assert sitting.state.done_order == ("mark", "dry-fit")


def test_a_sign_off_of_a_step_that_runs_survives_a_pause():
    sitting = Sitting()
    sitting.start("inspect")
    sitting.sign_off("inspect")
    sitting.pause("inspect")
    sitting.start("inspect")
    assert sitting.state.record("inspect").signed_off


def test_notes_keep_their_order_and_their_writer():
    sitting = Sitting()
    sitting.note("dye", "streaky")
    sitting.note("dye", "evened out")
    notes = sitting.state.record("dye").notes
    assert [(note.text, note.who) for note in notes] == [
        ("streaky", "Maud"),
        ("evened out", "Maud"),
    ]
    assert sitting.state.record("dye").status is StepStatus.UNTOUCHED


def test_entries_repeated_by_a_second_window_change_nothing():
    """Two windows may both record a start, a pause or a tick before they read each other's."""
    sitting = Sitting()
    sitting.start("cut")
    started = sitting.events[-1]
    sitting.clock.advance(60)
    sitting.pause("cut")
    paused = sitting.events[-1]
    sitting.done("cut")
    finished = sitting.events[-1]
    once = sitting.state.record("cut")
    again = [
        started,
        replace(started, batch="other-1", boot_s=1001.0),
        paused,
        replace(paused, batch="other-2", boot_s=1070.0),
        finished,
        replace(finished, batch="other-3", at=sitting.clock.now().replace(hour=23)),
    ]
    assert derive(again).record("cut") == once
    assert derive(again).done_order == ("cut",)


def test_the_state_knows_its_newest_entry_even_if_that_took_something_back():
    sitting = Sitting()
    sitting.start("cut")
    sitting.clock.advance(30)
    sitting.undo()
    assert sitting.state.latest == Moment(at=sitting.clock.now(), boot_id="boot-1", boot_s=1030.0)
    assert sitting.state.last_seq == 2
    assert sitting.state.records == ()


def test_the_first_tick_keeps_its_place_through_rework():
    sitting = Sitting()
    sitting.done("a", "b")
    sitting.start("a")
    assert sitting.state.done_order == ("b",)
    sitting.done("a")
    assert sitting.state.done_order == ("b", "a")
    assert sitting.state.first_ticks == ("a", "b")


def test_a_first_tick_during_the_rework_of_others_says_of_which():
    sitting = Sitting()
    sitting.done("a", "b")
    sitting.start("a")
    sitting.done("c")
    sitting.start("c")
    sitting.done("a")
    sitting.done("c")
    sitting.done("d")
    assert sitting.state.during_rework == (("c", frozenset({"a"})),)


def test_a_step_is_whose_hands_began_it_or_ticked_it_last():
    sitting = Sitting()
    sitting.start("cut")
    assert sitting.state.record("cut").who == "Maud"
    sitting.pause("cut")
    assert sitting.state.record("cut").who == "Maud"
    nobody = tuple(replace(event, who="") for event in sitting.events)
    assert derive(nobody).record("cut").who == ""
    sitting.done("mark")
    assert sitting.state.record("mark").who == "Maud"


def test_entries_added_one_by_one_derive_what_all_of_them_do_in_one_go():
    sitting = Sitting()
    sitting.start("cut")
    sitting.done("cut", "bevel")
    sitting.done("stitch")
    sitting.undo()
    sitting.done("glue")
    deriver, entries = Deriver(), sitting.events
    for count in (*range(1, len(entries) + 1), 2, len(entries), 0):
        stored = tuple(replace(e, seq=at) for at, e in enumerate(entries[:count], start=1))
        # The newest is shown before it is stored and has a number.
        fresh = (*stored[:-1], *(replace(e, seq=0) for e in stored[-1:]))
        assert deriver.derive(fresh) == derive(fresh)
        assert deriver.derive(stored) == derive(stored)


def test_of_entries_that_were_added_only_these_are_taken_in(monkeypatch):
    sitting = Sitting()
    sitting.done("cut", "bevel", "stitch")
    stored = tuple(replace(e, seq=at) for at, e in enumerate(sitting.events, start=1))
    deriver, taken = Deriver(), []
    deriver.derive(stored)
    sitting.done("glue")
    more = (*stored, *(replace(e, seq=9) for e in sitting.events[3:]))
    take = _Deriving.take
    monkeypatch.setattr(_Deriving, "take", lambda found, e: (taken.append(e.step), take(found, e)))
    assert deriver.derive(more).done_order == ("cut", "bevel", "stitch", "glue")
    assert taken == ["glue"]
