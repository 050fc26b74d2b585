"""What an exercise about steps says of its state is true, enough, and in words of a bench."""

import pytest
from app.drills.drill_sources import NAMES, drills_of, source_of

from armorplan.app.drills.reasons import title_of
from armorplan.app.drills.setting import judged
from armorplan.app.drills.step_words import choices_of, state_words
from armorplan.practice.drill import AnswerForm, DrillKind
from armorplan.steps.model import StepKind
from armorplan.steps.naming import lowered, part_name

KINDS = (DrillKind.ORDER, DrillKind.NEXT, DrillKind.MISTAKE)


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    found = [drill for kind in KINDS for drill in drills_of(kind, request.param, seeds=2)]
    return source_of(request.param), found


def test_what_was_done_last_on_a_part_is_told(made):
    source, drills = made
    derived = source.derived
    for drill in drills:
        told = [line for line in drill.given if line.startswith("Done last on")]
        assert bool(told) <= bool(drill.done)
        for line in told:
            last = next(s for s in drill.done if line.endswith(f": '{title_of(derived, s)}'."))
            named = [
                part.id
                for part in derived.assembly.parts
                if lowered(part_name(derived.assembly, part.id)) in line.split(": '")[0]
            ]
            later = drill.done[drill.done.index(last) + 1 :]
            touched = {part for step in later for part in derived.work.step(step).parts}
            assert touched.isdisjoint(
                part for part in named if part in derived.work.step(last).parts
            )


def test_that_none_of_the_choices_is_done_is_told_and_true(made):
    _, drills = made
    for drill in drills:
        assert {choice.id for choice in drill.choices}.isdisjoint(drill.done)
        assert drill.given[0] == "Nothing is done yet." or any(
            line.endswith("is done yet; all else that they wait for is done.")
            for line in drill.given
        )


def test_titles_hold_no_quotes_and_waits_are_let_happen(made):
    source, drills = made
    for drill in drills:
        for choice in drill.choices:
            assert "'" not in choice.title.replace("man's", "")
            if not source.derived.work.step(choice.id).attended:
                assert choice.title.startswith("Let ")


def test_no_sentence_says_a_thing_twice(made):
    source, drills = made
    for drill in drills:
        ids = tuple(choice.id for choice in drill.choices)
        told = judged(source, drill, ids[:1] if drill.form is AnswerForm.ONE else ids)
        assert told.sentence.startswith(("Right: ", "Not yet"))
        assert told.sentence.lower().count("not yet") <= 1
        assert "''" not in told.sentence
        assert not any(one.text in told.sentence for one in told.because)


def test_which_parts_a_bath_holds_is_told_where_its_title_does_not():
    derived = source_of("arm_harness").derived
    dye = derived.work.of_kind(StepKind.DYE)[0]
    inside = next(s for s in derived.work.of_kind(StepKind.BEVEL) if {*s.parts} <= {*dye.parts})
    outside = next(
        s for s in derived.work.of_kind(StepKind.BEVEL) if {*s.parts}.isdisjoint(dye.parts)
    )
    name = lowered(part_name(derived.assembly, inside.parts[0]))
    told = choices_of(derived, (dye.id, inside.id, outside.id))[0].detail
    assert told == f"Among them: {name}."
    told = choices_of(derived, (dye.id, inside.id))[0].detail
    assert told == "All the other parts asked about here are among them."
    told = choices_of(derived, (dye.id, outside.id))[0].detail
    assert told == "None of the other parts asked about here is among them."


def test_before_anything_is_done_no_part_is_told_of():
    derived = source_of("elbow_cop").derived
    assert list(state_words(derived, (), derived.order[:3])) == ["Nothing is done yet."]


def test_what_is_prepared_at_a_strap_is_told():
    derived = source_of("elbow_cop").derived
    strap = derived.work.of_kind(StepKind.PREPARE_STRAP)[0]
    assert choices_of(derived, (strap.id,))[0].detail == strap.detail
