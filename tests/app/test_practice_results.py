"""What is kept of an answer: its piece, and every reason it kept or missed."""

from dataclasses import replace

import pytest

from armorplan.app.practice_results import piece_of, reasons_met
from armorplan.practice.drill import (
    AnswerForm,
    Asked,
    Because,
    Choice,
    Drill,
    DrillKind,
    Judged,
    Met,
)

DRILL = Drill(
    asked=Asked(kind=DrillKind.ORDER, seed=1, focus="cut-before-use"),
    title="",
    question="",
    choices=(),
    form=AnswerForm.ORDER,
    rules=("cut-before-use", "dye-oil-finish"),
)
CUT = Because(rule="cut-before-use", name="Cut before use", text="It is cut first.")
DYE = Because(rule="dye-oil-finish", name="Dye, oil, finish", text="It is dyed first.")


def told(judged, drill=DRILL):
    return {one.rule: (one.kept, one.decided) for one in reasons_met(drill, judged)}


def test_a_right_answer_keeps_every_reason_the_exercise_needs():
    met = (Met(rule="dye-oil-finish", kept=True),)
    right = Judged(right=True, sentence="", because=(DYE, CUT), met=met)
    # The one that was to be taught is asked about, wherever it is told.
    assert told(right) == {"cut-before-use": (True, True), "dye-oil-finish": (True, False)}


def test_a_wrong_answer_misses_what_it_breaks():
    met = (Met(rule="cut-before-use", kept=True), Met(rule="dye-oil-finish", kept=False))
    wrong = Judged(right=False, sentence="", because=(DYE,), met=met)
    assert told(wrong) == {"cut-before-use": (True, False), "dye-oil-finish": (False, True)}


def test_where_nothing_else_is_told_the_reasons_given_are_those_met():
    wrong = Judged(right=False, sentence="", because=(CUT,))
    assert told(wrong) == {"cut-before-use": (False, True)}
    assert told(Judged(right=False, sentence="")) == {}


def test_names_are_those_that_were_told_else_those_of_the_rules():
    right = Judged(right=True, sentence="", because=(replace(CUT, name="As told"),))
    assert [one.name for one in reasons_met(DRILL, right)] == [
        "As told",
        "Shape, dye, oil, finish",
    ]


def by_steps(pairs, kind):
    steps = [step.id for step in pairs.work.steps if step.kind == kind]
    return tuple(Choice(id=step, title="", steps=(step,)) for step in steps)


@pytest.mark.parametrize("told_by", ["what was asked for", "its steps", "its parts", "nothing"])
def test_the_piece_is_told_by_the_best_there_is(pairs, told_by):
    piece = pairs.pattern.pieces[0].id
    drill, expected = {
        "what was asked for": (
            replace(DRILL, asked=replace(DRILL.asked, piece="another")),
            "another",
        ),
        "its steps": (replace(DRILL, choices=by_steps(pairs, "cut")), piece),
        "its parts": (replace(DRILL, parts=(pairs.assembly.parts[0].id, "unknown")), piece),
        "nothing": (DRILL, ""),
    }[told_by]
    assert piece_of(pairs, drill) == expected
