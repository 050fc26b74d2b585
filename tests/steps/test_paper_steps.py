"""The print and the card mock-up of a pair: the left is measured and tried, the right mirrors it."""

from dataclasses import replace

from steps.made_steps import only, square, work_of

from armorplan.assembly.model import Side
from armorplan.pattern.parts import MadeOn, PartKind
from armorplan.pattern.wearing import CheckTime, FitCheck
from armorplan.steps.model import StepKind

PLATE = square("plate")
BADGE = square("badge", copied=True, kind=PartKind.TRIM)
LOOP = square("loop", made_on=MadeOn.RIGHT, kind=PartKind.STRAP)
CHECK = FitCheck(id="bends", name="It bends.", piece="piece", when=CheckTime.MOCK_UP)


def test_a_pair_is_measured_and_tried_once():
    work = work_of(PLATE, mirrored=True)
    measure, card = only(work, StepKind.MEASURE), only(work, StepKind.MOCK_UP)
    assert measure.id == "b/piece/left/measure-print/piece"
    assert card.id == "b/piece/left/mock-up/piece"
    assert card.title == "Try a card mock-up of Piece (left); the right one is its mirror"
    assert card.parts == ("plate.left", "plate.right")
    assert card.minutes == only(work_of(PLATE), StepKind.MOCK_UP).minutes


def test_what_is_no_mirror_has_its_print_checked():
    work = work_of(PLATE, BADGE, LOOP, mirrored=True)
    _, right = work.of_kind(StepKind.MEASURE)
    assert (right.side, right.parts) == (Side.RIGHT, ("badge.right", "loop.right"))
    assert right.title == "Check the print of Badge (right) and Loop (right)"
    assert len(work.of_kind(StepKind.MOCK_UP)) == 1


def test_a_pair_with_nothing_in_common_is_tried_on_both_sides():
    left = replace(PLATE, made_on=MadeOn.LEFT)
    work = work_of(left, LOOP, mirrored=True)
    assert {s.side for s in work.of_kind(StepKind.MOCK_UP)} == {Side.LEFT, Side.RIGHT}
    assert not any("mirror" in s.title for s in work.of_kind(StepKind.MEASURE, StepKind.MOCK_UP))


def test_what_is_looked_for_in_card_is_looked_for_once():
    work = work_of(PLATE, LOOP, mirrored=True, fit_checks=(CHECK,))
    check = only(work, StepKind.CHECK)
    assert check.side is Side.LEFT
    assert set(check.parts) == {"plate.left", "plate.right", "loop.right"}


def test_a_check_of_a_part_of_the_right_is_made_on_the_one_card():
    work = work_of(PLATE, LOOP, mirrored=True, fit_checks=(replace(CHECK, parts=("loop",)),))
    assert only(work, StepKind.CHECK).parts == ("loop.right",)


def test_a_piece_made_once_says_nothing_of_a_mirror():
    work = work_of(PLATE)
    assert only(work, StepKind.MEASURE).title == "Measure the paper print of Piece"
    assert only(work, StepKind.MEASURE).parts == ("plate",)
