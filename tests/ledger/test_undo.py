"""Undo and redo as entries: against tables, and against a plain stack of whole states."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ledger.sitting import Sitting

from armorplan.ledger.batches import standing_presses
from armorplan.ledger.events import EventKind
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive


def last_undoable(events):
    side = standing_presses(events).undo_side
    return side[-1].id if side else None


def last_redoable(events):
    side = standing_presses(events).redo_side
    return side[-1].id if side else None


def done_after(presses: str) -> str:
    """Press: a letter ticks that step, '-' undoes, '+' redoes; return the steps done, in order."""
    sitting = Sitting()
    for press in presses:
        if press == "-":
            sitting.undo()
        elif press == "+":
            sitting.redo()
        else:
            sitting.done(press)
    return "".join(sitting.state.done_order)


@pytest.mark.parametrize(
    ("presses", "left"),
    [
        ("ab-", "a"),
        ("ab--", ""),
        ("ab---", ""),
        ("ab-+", "ab"),
        ("ab--+", "a"),
        ("ab--++", "ab"),
        ("ab--+++", "ab"),
        ("ab-+-+-", "a"),
        ("ab-+--", ""),
        ("abc--+-", "a"),
        ("ab-c", "ac"),
        ("ab-c+", "ac"),
        ("ab-c-", "a"),
        ("ab-c-+", "ac"),
        ("ab-c--+", "a"),
        ("ab-b", "ab"),
        ("-+", ""),
        ("ab--c+-", ""),
    ],
)
def test_undo_takes_the_last_press_that_stands_and_a_new_press_empties_the_redo_side(
    presses, left
):
    assert done_after(presses) == left


def test_undo_takes_a_whole_tray_back():
    sitting = Sitting()
    sitting.done("cut/a")
    sitting.done("cut/b", "cut/c")
    sitting.undo()
    assert sitting.state.done_order == ("cut/a",)


def test_undo_of_a_dye_step_also_stops_the_drying_it_started():
    sitting = Sitting()
    sitting.start("dye")
    sitting.done_then_drying("dye", "dry")
    assert sitting.state.record("dry").status is StepStatus.RUNNING
    sitting.undo()
    assert sitting.state.record("dye").status is StepStatus.RUNNING
    assert sitting.state.record("dry").status is StepStatus.UNTOUCHED


def test_redo_restores_the_instants_as_they_were():
    sitting = Sitting()
    sitting.start("glue")
    sitting.clock.advance(100)
    sitting.done("glue")
    before = sitting.state.record("glue")
    sitting.clock.advance(50)
    sitting.undo()
    sitting.clock.advance(50)
    sitting.redo()
    assert sitting.state.record("glue") == before


def test_the_sides_tell_what_undo_and_redo_would_move():
    sitting = Sitting()
    assert last_undoable(sitting.events) is None
    assert last_redoable(sitting.events) is None
    first = sitting.start("cut/a", "cut/b")
    second = sitting.done_then_drying("dye", "dry")
    assert last_undoable(sitting.events) == second
    sitting.undo()
    assert last_undoable(sitting.events) == first
    assert last_redoable(sitting.events) == second
    restorable = sitting.state.redo_side[-1]
    assert restorable.steps == ("dye", "dry")
    assert restorable.kinds == (EventKind.DONE, EventKind.STARTED)


def test_two_windows_undoing_the_same_press_take_back_that_press_only():
    sitting = Sitting()
    sitting.done("a")
    sitting.done("b")
    both = sitting.state
    other = Sitting(sitting.clock)
    other.events = sitting.events
    sitting.undo()
    other.undo()
    assert both.undo_side[-1].steps == ("b",)
    merged = sitting.events + other.events[-1:]
    assert derive(merged).done_order == ("a",)
    assert last_redoable(merged) == both.undo_side[-1].id


def test_an_undo_of_a_press_under_another_windows_newer_one_takes_back_what_it_names():
    sitting = Sitting()
    sitting.done("a")
    mine = Sitting(sitting.clock)
    mine.events = sitting.events
    mine.undo()
    sitting.done("c")
    merged = sitting.events + mine.events[-1:]
    assert derive(merged).done_order == ("c",)


def test_a_redo_that_comes_after_another_windows_press_is_too_late():
    sitting = Sitting()
    sitting.done("a")
    sitting.undo()
    mine = Sitting(sitting.clock)
    mine.events = sitting.events
    mine.redo()
    sitting.done("c")
    merged = sitting.events + mine.events[-1:]
    assert derive(merged).done_order == ("c",)


PRESSES = st.lists(
    st.one_of(
        st.tuples(
            st.sampled_from(["start", "pause", "done", "sign_off"]),
            st.lists(st.sampled_from("abcd"), min_size=1, max_size=3),
        ),
        st.tuples(st.sampled_from(["undo", "redo"]), st.just([])),
    ),
    max_size=40,
)


@given(PRESSES)
def test_replaying_agrees_with_a_stack_of_whole_states(presses):
    """The oracle keeps a copy of all records at each press, as an editor would."""
    sitting = Sitting()
    past, future = [sitting.state.records], []
    for action, steps in presses:
        sitting.clock.advance(10)
        count = len(sitting.events)
        getattr(sitting, action)(*steps)
        if action == "undo":
            if len(past) > 1:
                future.append(past.pop())
        elif action == "redo":
            if future:
                past.append(future.pop())
        elif len(sitting.events) > count:
            past.append(sitting.state.records)
            future.clear()
        assert sitting.state.records == past[-1]
        assert len(sitting.state.undo_side) == len(past) - 1
        assert len(sitting.state.redo_side) == len(future)


@given(PRESSES)
def test_the_entries_that_stand_are_those_of_the_presses_that_stand(presses):
    sitting = Sitting()
    for action, steps in presses:
        getattr(sitting, action)(*steps)
    stands = standing_presses(sitting.events)
    on_undo_side = [event.seq for batch in stands.undo_side for event in batch.events]
    assert sorted(on_undo_side) == [event.seq for event in stands.events]
    assert last_undoable(stands.events) == last_undoable(sitting.events)
