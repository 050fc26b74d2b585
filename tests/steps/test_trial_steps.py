"""Hardware, rows, laces; checks, hanging, marks; a harness; own steps; packing."""

from dataclasses import replace
from math import ceil

import pytest
from steps.made_steps import only, square, work_of

from armorplan.assembly.model import Side
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.own_work import OwnStep
from armorplan.pattern.parts import Harness, MadeOn, PartKind, Piece
from armorplan.pattern.wearing import (
    CheckTime,
    FitCheck,
    HardwareUse,
    StrapPlace,
    Suspension,
)
from armorplan.rules.sketches import sketch, sketch_rivet
from armorplan.steps.model import StepKind

PLATE = square("plate", holes={"p1": (10.0, 10.0), "p2": (60.0, 10.0)})
STRAP = square("strap", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (70.0, 20.0)})
COP = replace(square("cop", holes={"c1": (10.0, 10.0)}), piece="knee")
BELT = replace(square("belt", kind=PartKind.STRAP, holes={"b1": (10.0, 10.0)}), piece="hip")


def pieces(*, mirrored=False):
    first = sketch(PLATE, mirrored=mirrored).pieces
    return (*first, Piece(id="knee", name="Knee", mirrored=mirrored), Piece(id="hip", name="Hip"))


def leg(*members):
    return (Harness(id="leg", name="Leg", pieces=members),)


def test_a_buckle_is_put_on_before_its_fold_is_shut():
    use = HardwareUse(id="ring", use="buckle", part="strap", held_by=("fold",), count=2)
    work = work_of(STRAP, joints=(sketch_rivet("fold", "s1", "s2"),), hardware=(use,))
    step = only(work, StepKind.MOUNT)
    assert (step.id, step.parts) == ("b/piece/single/put-on/ring", ("strap",))
    assert step.title == "Put 2 × buckle on the Strap"
    assert step.minutes == 1 + 20


def test_a_lace_takes_a_minute_for_each_hole_and_for_its_length():
    lace = Joint(id="l", kind=JointKind.LACE, stack=("p1", "p2"), fastener="lace", length_mm=100.0)
    step = only(work_of(PLATE, joints=(lace,)), StepKind.LACE)
    assert step.id == "b/piece/single/lace/l"
    assert step.minutes == 1 + 10 + 2 + 5
    assert step.detail == "Through 2 holes of Plate, Flat lace, a row of 100 mm."


@pytest.mark.parametrize(("length_mm", "row_mm"), [(None, 240.0), (150.0, 150.0)])
def test_a_stitched_row_is_as_long_as_it_says_or_the_edge_of_the_smaller_layer(length_mm, row_mm):
    wide = square("wide", outline=((0.0, 0.0), (200.0, 0.0), (200.0, 90.0), (0.0, 90.0)))
    row = Joint(id="r", kind=JointKind.STITCH, layers=("wide", "plate"), length_mm=length_mm)
    step = only(work_of(PLATE, wide, joints=(row,)), StepKind.STITCH)
    assert f"a row of {row_mm:.0f} mm" in step.detail
    assert step.minutes == ceil(1 + 20 + 1 + row_mm / 10 / 2)


def test_washers_count_in_the_stack():
    joint = replace(sketch_rivet("r", "s1", "p1"), washer_mm=1.2)
    step = only(work_of(PLATE, STRAP, joints=(joint,)), StepKind.RIVET)
    assert "stack 8.4 mm" in step.detail


@pytest.mark.parametrize(
    ("when", "after"),
    [
        (CheckTime.MOCK_UP, StepKind.MOCK_UP),
        (CheckTime.DRY_FIT, StepKind.DRY_FIT),
        (CheckTime.FIT, StepKind.FIT),
    ],
)
def test_a_check_stands_behind_its_trial(when, after):
    check = FitCheck(id="bends", name="It bends.", piece="piece", when=when, parts=("plate",))
    work = work_of(PLATE, STRAP, joints=(sketch_rivet("r", "s1", "p1"),), fit_checks=(check,))
    step = only(work, StepKind.CHECK)
    assert step.id == "b/piece/single/check/bends"
    assert step.parts == ("plate",)
    assert step.title.endswith("of Piece: It bends")
    assert work.steps[work.steps.index(step) - 1].kind is after


def test_a_check_of_a_part_of_one_side_is_made_on_that_side():
    check = FitCheck(id="bends", name="B", piece="piece", when=CheckTime.FIT, parts=("strap",))
    left = replace(STRAP, made_on=MadeOn.LEFT)
    work = work_of(PLATE, left, mirrored=True, fit_checks=(check,))
    assert only(work, StepKind.CHECK).id == "b/piece/left/check/bends.left"


def test_what_carries_the_weight_is_hung_first():
    up = Suspension(id="up", piece="piece", part="strap", hangs_from="the belt")
    work = work_of(PLATE, STRAP, joints=(sketch_rivet("r", "s1", "p1"),), suspensions=(up,))
    for kind in (StepKind.DRY_FIT, StepKind.FIT):
        assert only(work, kind).detail.startswith("Hang it from the belt by the Strap first.")


def test_a_suspension_of_one_side_is_told_on_that_side():
    up = Suspension(
        id="up", piece="piece", part="strap", hangs_from="the belt", made_on=MadeOn.RIGHT
    )
    left, right = work_of(PLATE, STRAP, mirrored=True, suspensions=(up,)).of_kind(StepKind.FIT)
    assert "Hang it" not in left.detail
    assert "Hang it" in right.detail


def test_marks_on_the_wearer_tell_the_girth():
    place = StrapPlace(id="s", name="Wrist", strap="strap", meets="plate", girth_mm=(380.0, 440.0))
    joint = sketch_rivet("r", "s1", "p1", placed_on_wearer=True)
    work = work_of(PLATE, STRAP, joints=(joint,), strap_places=(place,))
    detail = only(work, StepKind.MARK).detail
    assert detail == "Wrist: closes 380–440 mm over the padding."


def test_a_harness_is_tried_joined_fitted_and_packed_as_a_whole():
    hang = sketch_rivet("hang", "p1", "c1")
    work = work_of(
        PLATE, COP, mirrored=True, pieces=pieces(mirrored=True)[:2], joints=(hang,),
        harnesses=leg("piece", "knee"),
    )  # fmt: skip
    mine = [step for step in work.steps if step.piece == "leg"]
    assert [(s.kind, s.side) for s in mine] == [
        (kind, side)
        for side in (Side.LEFT, Side.RIGHT)
        for kind in (
            StepKind.DRY_FIT, StepKind.RIVET, StepKind.FIT, StepKind.INSPECT, StepKind.PACK,
        )
    ]  # fmt: skip
    fit = next(step for step in mine if step.kind is StepKind.FIT)
    assert fit.id == "b/leg/left/fit/leg"
    assert fit.title == "Fit Leg (left) on the wearer"
    assert fit.parts == ("plate.left", "cop.left")
    assert {s.piece for s in work.of_kind(StepKind.PACK)} == {"leg"}
    assert {s.piece for s in work.of_kind(StepKind.FIT)} == {"piece", "knee", "leg"}


def test_a_harness_with_a_piece_made_once_is_joined_by_sides_and_worn_once():
    joints = (
        replace(sketch_rivet("one", "b1", "p1"), made_on=MadeOn.LEFT),
        replace(sketch_rivet("two", "b1", "p1"), made_on=MadeOn.RIGHT),
    )
    work = work_of(
        PLATE, BELT, mirrored=True, pieces=(*sketch(mirrored=True).pieces, pieces()[2]),
        joints=joints, harnesses=leg("piece", "hip"),
    )  # fmt: skip
    mine = [(s.kind, s.side) for s in work.steps if s.piece == "leg"]
    assert mine == [
        (StepKind.DRY_FIT, Side.LEFT),
        (StepKind.RIVET, Side.LEFT),
        (StepKind.DRY_FIT, Side.RIGHT),
        (StepKind.RIVET, Side.RIGHT),
        (StepKind.FIT, Side.SINGLE),
        (StepKind.INSPECT, Side.SINGLE),
        (StepKind.PACK, Side.SINGLE),
    ]
    fit = work.step("b/leg/single/fit/leg")
    assert set(fit.parts) == {"plate.left", "plate.right", "belt"}


def test_an_own_step_has_its_minutes_tool_cautions_and_wait():
    own = OwnStep(
        id="gild", name="Gild the rim", piece="piece", parts=("plate",), minutes=20, wait_min=90,
        tool="brush", cautions=("Gloves on.",), notes="Thin.",
    )  # fmt: skip
    work = work_of(PLATE, STRAP, own_steps=(own,))
    step = only(work, StepKind.OWN)
    assert (step.id, step.title) == ("b/piece/single/own/gild", "Gild the rim")
    assert (step.minutes, step.tool, step.parts) == (20, "brush", ("plate",))
    assert step.cautions == ("Mind the own.", "Gloves on.")
    wait = work.drying_of(step.id)
    assert wait
    assert (wait.id, wait.minutes) == ("b/piece/single/dry/gild.own", 90)
    assert not wait.attended


def test_an_own_step_is_done_on_each_side_its_parts_are_made_on():
    own = OwnStep(id="gild", name="Gild", piece="piece", parts=("strap",))
    both = work_of(PLATE, STRAP, mirrored=True, own_steps=(own,)).of_kind(StepKind.OWN)
    assert [s.title for s in both] == ["Gild (left)", "Gild (right)"]
    left = replace(STRAP, made_on=MadeOn.LEFT)
    assert (
        only(work_of(PLATE, left, mirrored=True, own_steps=(own,)), StepKind.OWN).side is Side.LEFT
    )
