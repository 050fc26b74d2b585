"""What judging leaves at each choice, and where an answer comes apart."""

from dataclasses import replace

import pytest
from desktop.drill_scene import IDS, MISTAKE, ORDER, PLAN, PLAY, RIGHT, SOME, wrong

from armorplan.desktop.drill_form_words import (
    broken_at,
    choice_of_letter,
    chosen_notes,
    day_notes,
    letters,
    order_notes,
    spoken,
)
from armorplan.desktop.drill_marks import Mark
from armorplan.practice.drill import Judged

A, B, C, D, E = IDS


def marks(notes):
    return {name: note.mark for name, note in notes.items()}


def test_letters_go_by_the_order_in_which_choices_are_shown():
    assert letters(ORDER) == dict(zip(IDS, "ABCDE", strict=True))
    assert choice_of_letter(ORDER, "b").id == B
    assert choice_of_letter(ORDER, "F") is None
    assert choice_of_letter(ORDER, "") is None


def test_a_choice_is_spoken_with_its_second_line():
    assert spoken("A", ORDER.choices[0]) == "A, Rivet the upper row. two-part rivet, 3 mm"


@pytest.mark.parametrize(
    ("judged", "found"),
    [
        pytest.param(RIGHT, "", id="right"),
        pytest.param(wrong(play=PLAY), D, id="played up to the break"),
        pytest.param(wrong(steps=(A, C), play=PLAY[:2]), C, id="nothing amiss in the pictures"),
        pytest.param(wrong(steps=(A, C)), C, id="named by the reason"),
        pytest.param(wrong(steps=("elsewhere",)), "", id="of other steps"),
        pytest.param(Judged(right=False, sentence="No."), "", id="nothing told"),
    ],
)
def test_an_order_comes_apart_where_the_pictures_or_the_reason_say(judged, found):
    assert broken_at(ORDER, (D, C, B, A, E), judged) == found


def test_a_wrong_order_tells_what_moves_and_leaves_where_to_for_another_try():
    judged = wrong(nearest=(C, B, A, E, D), moved=(D, E), play=PLAY)
    notes = order_notes(ORDER, (D, C, B, A, E), judged)
    assert marks(notes) == {
        D: Mark.BREAK,
        C: Mark.STAYS,
        B: Mark.STAYS,
        A: Mark.STAYS,
        E: Mark.MOVED,
    }
    assert notes[E].words == "to be moved"
    assert notes[D].words == "here it goes wrong; to be moved"


def test_a_right_order_is_right_at_every_step():
    assert set(marks(order_notes(ORDER, IDS, RIGHT)).values()) == {Mark.RIGHT}


def test_of_some_it_is_told_what_was_right_what_not_and_what_was_left_out():
    judged = wrong(nearest=(A, C), moved=(B, C))
    assert marks(chosen_notes(SOME, (A, B), judged)) == {
        A: Mark.RIGHT,
        B: Mark.WRONG,
        C: Mark.MISSED,
    }
    assert chosen_notes(SOME, (A, B), judged)[C].words == "this one as well"


def test_of_one_it_is_told_which_it_was():
    notes = chosen_notes(MISTAKE, (A,), wrong(nearest=(D,)))
    assert {name: (note.mark, note.words) for name, note in notes.items()} == {
        A: (Mark.WRONG, "not this one"),
        D: (Mark.MISSED, "this one"),
    }
    assert marks(chosen_notes(MISTAKE, (A,), RIGHT)) == {A: Mark.RIGHT}


def test_of_a_day_it_is_told_which_bar_is_at_fault_and_when_it_would_do():
    given = (f"{A}=08:00", f"{B}=09:00", f"{C}=12:45")
    judged = wrong(nearest=(f"{A}=08:00", f"{B}=09:45", f"{C}=13:15"), moved=(B, C), steps=(B,))
    notes = day_notes(PLAN, given, judged)
    assert marks(notes) == {A: Mark.STAYS, B: Mark.BREAK, C: Mark.MOVED}
    assert notes[B].words == "here it goes wrong; at 09:45 it would do"
    assert notes[C].words == "to be moved; at 13:15 it would do"
    with_times = replace(judged, moved=(f"{B}=09:45", f"{C}=13:15"))
    assert day_notes(PLAN, given, with_times) == notes
    assert set(marks(day_notes(PLAN, given, RIGHT)).values()) == {Mark.RIGHT}
