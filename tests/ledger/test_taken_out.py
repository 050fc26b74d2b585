"""What was taken out does not stand; what was said of a build; fits left out for a reason."""

from clocks import FakeClock
from hypothesis import given, settings
from hypothesis import strategies as st
from ledger.sitting import Sitting

from armorplan.ledger import acting
from armorplan.ledger.events import EventKind
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import derive


def take_out(sitting, *steps):
    return sitting._press(lambda press: acting.take_out(sitting.state, steps, press))


def tell(sitting, kind, about, text):
    return sitting._press(lambda press: acting.tell(kind, about, text, press))


def waive(sitting, step, why):
    return sitting._press(lambda press: acting.waive(sitting.state, (step,), why, press))


def test_what_was_taken_out_is_as_if_it_had_never_been_done():
    sitting = Sitting()
    sitting.done("a")
    sitting.start("b")
    sitting.done("b")
    sitting.note("b", "tight")
    take_out(sitting, "b")
    state = sitting.state
    assert (state.done_order, state.first_ticks) == (("a",), ("a",))
    assert state.record("b").status is StepStatus.UNTOUCHED
    assert state.record("b").counted == ()
    assert [note.text for note in state.record("b").notes] == ["tight"]


def test_done_again_after_it_was_taken_out_it_comes_last():
    sitting = Sitting()
    for step in "abc":
        sitting.done(step)
    take_out(sitting, "b")
    sitting.done("b")
    assert sitting.state.first_ticks == ("a", "c", "b")


def test_taking_out_what_runs_ends_its_stretch():
    clock = FakeClock()
    sitting = Sitting(clock)
    sitting.start("dry")
    clock.advance(60)
    take_out(sitting, "dry")
    record = sitting.state.record("dry")
    assert (record.status, record.counted) == (StepStatus.UNTOUCHED, ())
    assert record.stretches[0].end is not None


def test_what_never_stood_cannot_be_taken_out():
    sitting = Sitting()
    take_out(sitting, "a")
    assert sitting.events == ()


def test_undo_of_taking_out_puts_it_back_where_it_was():
    sitting = Sitting()
    for step in "abc":
        sitting.done(step)
    before = sitting.state
    take_out(sitting, "b")
    sitting.undo()
    after = sitting.state
    assert (after.done_order, after.records) == (before.done_order, before.records)


def test_a_press_is_taken_back_from_under_later_ones():
    sitting = Sitting()
    sitting.done("a")
    under = sitting.done("b")
    sitting.done("c")
    batch = next(one for one in sitting.state.undo_side if one.id == under)
    sitting._press(lambda press: acting.undo_press(batch, press))
    assert sitting.state.done_order == ("a", "c")
    sitting.redo()
    assert set(sitting.state.done_order) == {"a", "b", "c"}


def test_a_waived_fit_counts_as_done_and_signed_off_with_its_reason():
    sitting = Sitting()
    waive(sitting, "fit", "  ")
    assert sitting.events == ()
    waive(sitting, "fit", "worn by Ines in spring")
    record = sitting.state.record("fit")
    assert (record.status, record.signed_off) == (StepStatus.DONE, True)
    assert record.waived == "worn by Ines in spring"
    sitting.start("fit")
    assert sitting.state.record("fit").waived == ""
    assert not sitting.state.record("fit").signed_off


def test_what_is_said_changes_no_step_and_is_undone_as_any_press():
    sitting = Sitting()
    sitting.done("a")
    tell(sitting, EventKind.MISTAKE, "a", "one")
    way = tell(sitting, EventKind.MEND, "way/1", "two")
    state = sitting.state
    assert [record.step for record in state.records] == ["a"]
    assert [one.text for one in state.said(EventKind.MISTAKE)] == ["one"]
    assert [one.id for one in state.said(EventKind.MEND)] == [way]
    sitting.undo()
    assert sitting.state.said(EventKind.MEND) == ()


def test_a_way_back_that_is_given_up_stays_told():
    sitting = Sitting()
    tell(sitting, EventKind.MEND, "way/1", "one")
    tell(sitting, EventKind.MEND, "way/2", "two")
    sitting._press(lambda press: acting.give_up("way/1", press))
    given_up = [one.given_up for one in sitting.state.said(EventKind.MEND)]
    assert given_up == [True, False]
    sitting.undo()
    assert not any(one.given_up for one in sitting.state.said(EventKind.MEND))


_KINDS = st.sampled_from(["done", "start", "take_out", "waive", "undo", "redo", "tell"])


@settings(max_examples=40)
@given(st.lists(st.tuples(_KINDS, st.sampled_from("abc")), max_size=12))
def test_every_beginning_of_a_ledger_derives(presses):
    """An end of power between any two entries leaves a state that can be read."""
    sitting = Sitting()
    for kind, step in presses:
        if kind in {"undo", "redo"}:
            getattr(sitting, kind)()
        elif kind == "take_out":
            take_out(sitting, "a", step)
        elif kind == "waive":
            waive(sitting, step, "why")
        elif kind == "tell":
            tell(sitting, EventKind.MISTAKE, step, "{}")
        else:
            getattr(sitting, kind)(step, "c")
    for end in range(len(sitting.events) + 1):
        state = derive(sitting.events[:end])
        done = {r.step for r in state.records if r.status is StepStatus.DONE}
        assert done == set(state.done_order) <= set(state.first_ticks)
