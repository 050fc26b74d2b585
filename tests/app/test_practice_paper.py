"""Exercises on paper: what stands on the sheet of answers is right when it is handed in."""

from dataclasses import replace

import pytest
from orders.recovery.build_scenes import derived_sample

from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import answer_from, drill_for, judged
from armorplan.app.drills.source import DrillSource
from armorplan.app.practice_asked import SheetAsked
from armorplan.app.practice_paper import save_worksheet, worksheet
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import NUMBERED, Asked, DrillKind, Level
from armorplan.sheets.worksheet_model import Box


@pytest.fixture(scope="module")
def source():
    return DrillSource(derived=derived_sample("elbow_cop"))


def test_a_sheet_holds_each_kind_in_turn_and_no_exercise_twice(source):
    sheet = worksheet(source, SheetAsked(count=2 * len(KINDS), seed=3))
    kinds = [one.kind for one in sheet.exercises]
    assert kinds[: len(KINDS)] == kinds[len(KINDS) :]
    assert len(set(kinds)) == len(KINDS)
    asked = [(one.kind, one.question, one.given, one.choices) for one in sheet.exercises]
    assert len(set(asked)) == len(asked)


def test_each_answer_on_the_sheet_is_right_when_it_is_handed_in(source):
    sheet = worksheet(source, SheetAsked(count=len(KINDS), seed=5, level=Level.PIECE))
    for at, (kind, one) in enumerate(zip(KINDS, sheet.exercises, strict=True)):
        drill = drill_for(source, Asked(kind=kind, seed=5 + at, level=Level.PIECE))
        letters = one.answer[0].split("  ")[0]
        assert judged(source, drill, answer_from(drill, letters)).right
        assert one.because


def test_an_order_that_is_shown_stands_on_paper_in_its_order(source):
    sheet = worksheet(source, SheetAsked(kinds=(DrillKind.MISTAKE,), count=1))
    (one,) = sheet.exercises
    assert [row.place for row in one.choices] == [str(n) for n in range(1, len(one.choices) + 1)]


def test_what_a_way_back_takes_stands_with_it_and_not_with_the_answer_again(source):
    sheet = worksheet(source, SheetAsked(kinds=(DrillKind.WAY_BACK,), count=1))
    (one,) = sheet.exercises
    assert all(" min at the bench" in row.detail for row in one.choices)
    assert not any(" min at the bench" in line for line in one.answer)
    assert " min in all" in one.because[0].text


def test_joints_to_choose_from_carry_their_letters_in_the_picture(source):
    sheet = worksheet(source, SheetAsked(kinds=(DrillKind.FIRST,), count=1))
    (one,) = sheet.exercises
    assert one.box is Box.RING
    assert one.asks_why
    marks = {hole.mark for part in one.scene.parts for hole in part.holes} - {""}
    assert marks == {row.letter for row in one.choices}


def test_a_sheet_is_a_pdf_and_needs_a_place(source, tmp_path):
    sheet = worksheet(source, SheetAsked(count=1))
    with pytest.raises(ArmorplanError, match="is a PDF"):
        save_worksheet(tmp_path / "sheet.txt", sheet)
    with pytest.raises(ArmorplanError, match="cannot be written"):
        save_worksheet(tmp_path / "none" / "sheet.pdf", sheet)
    save_worksheet(tmp_path / "sheet.pdf", sheet)
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")


def test_where_a_build_holds_none_it_says_so(source):
    with pytest.raises(ArmorplanError, match="holds no exercise of these: order"):
        worksheet(source, SheetAsked(kinds=(DrillKind.ORDER,), part="no_such_part"))


def test_numbers_stay_those_that_can_be_asked_for(source):
    sheet = worksheet(source, SheetAsked(kinds=(DrillKind.FASTENER,), count=3, seed=NUMBERED - 1))
    assert [one.name.split(",")[0] for one in sheet.exercises] == [
        f"exercise {NUMBERED - 1}",
        "exercise 0",
        "exercise 1",
    ]


def test_a_build_without_an_order_says_so(source):
    none = replace(source.derived, sequence=replace(source.derived.sequence, order=()))
    with pytest.raises(ArmorplanError, match="contradict each other"):
        worksheet(DrillSource(derived=none), SheetAsked())
