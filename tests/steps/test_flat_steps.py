"""Lay out, cut, number, skive, burnish; counts, ranges, slots to slide in, a machine."""

from dataclasses import replace

import pytest
from steps.made_steps import full_shelf, only, square, work_of

from armorplan.pattern.joining import Joint, JointKind, Motion
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.parts import Hole, MadeOn, PartKind
from armorplan.pattern.wearing import StrapPlace
from armorplan.rules.sketches import sketch_rivet
from armorplan.steps.model import StepKind


def test_a_piece_is_laid_out_once_a_side_and_the_right_is_told_to_be_turned():
    plate = square("plate")
    badge = square("badge", copied=True, kind=PartKind.TRIM)
    lining = square("lining", kind=PartKind.LINING, drawn_from_inside=True)
    left, right = work_of(plate, badge, lining, mirrored=True).of_kind(StepKind.LAY_OUT)
    assert (left.id, right.id) == ("b/piece/left/lay-out/piece", "b/piece/right/lay-out/piece")
    assert "Turn the prints over" not in left.detail
    assert "Turn the prints over" in right.detail
    assert "Not so Badge" in right.detail
    assert "seen from inside: Lining" in left.detail
    assert left.parts == ("plate.left", "badge.left", "lining.left")


def test_a_part_cut_four_times_takes_four_times_the_edge():
    one, four = work_of(square("washer")), work_of(square("washer", count=4))
    assert only(one, StepKind.CUT).minutes == 1 + 10 + 12
    assert only(four, StepKind.CUT).minutes == 1 + 40 + 48
    assert only(four, StepKind.CUT).title == "Cut Washer, 4 times"
    holes = {"h1": (20.0, 20.0), "h2": (60.0, 20.0)}
    assert only(work_of(square("w", holes=holes, count=4)), StepKind.PUNCH).minutes == 1 + 8


def test_leather_sold_as_a_range_is_told_as_one():
    cut = only(work_of(square("plate", thickness_mm=3.6, least_mm=3.2)), StepKind.CUT)
    assert cut.detail.startswith("3.2–3.6 mm leather")


def test_skiving_and_burnishing_only_where_asked_for():
    plain = work_of(square("plate"))
    assert not plain.of_kind(StepKind.SKIVE, StepKind.BURNISH)
    work = work_of(square("plate", skived=True, burnished=True))
    assert only(work, StepKind.SKIVE).id == "b/piece/single/skive/plate"
    burnish = only(work, StepKind.BURNISH)
    assert (burnish.id, burnish.minutes) == ("b/piece/single/burnish/plate", 1 + 10 + 12)
    assert burnish.cautions == ("Mind the burnish.",)


def test_a_slot_to_slide_in_is_punched_as_a_slot():
    slide = Hole(id="s", part="plate", centre=(40.0, 20.0), diameter_mm=5.5, travel_mm=12.5)
    round_hole = Hole(id="r", part="lame", centre=(40.0, 20.0), diameter_mm=5.5)
    work = work_of(
        square("plate", holes={}),
        square("lame"),
        parts=(
            replace(square("plate"), holes=(slide,)),
            replace(square("lame"), holes=(round_hole,)),
        ),
        joints=(Joint(id="j", kind=JointKind.SCREW, stack=("s", "r"), motion=Motion.SLIDING),),
    )
    first, second = work.of_kind(StepKind.PUNCH)
    assert first.title == "Punch 1 slot in Plate"
    assert first.detail == "a slot of 18 × 5.5 mm to slide in."
    assert second.title == "Punch 1 hole in Lame"


def test_a_hole_is_punched_on_the_side_its_joint_is_made_on():
    plate = square("plate", holes={"p": (20.0, 20.0), "free": (60.0, 20.0)})
    loop = square("loop", holes={"l": (20.0, 20.0)}, made_on=MadeOn.LEFT)
    work = work_of(plate, loop, mirrored=True, joints=(sketch_rivet("r", "l", "p"),))
    counted = {step.id: step.title for step in work.of_kind(StepKind.PUNCH)}
    assert counted["b/piece/left/punch/plate.left"] == "Punch 2 holes in Plate (left)"
    assert counted["b/piece/right/punch/plate.right"] == "Punch 1 hole in Plate (right)"


def test_look_alikes_are_numbered_and_told_apart():
    wide = ((0.0, 0.0), (81.2, 0.0), (81.2, 40.0), (0.0, 40.0))
    work = work_of(square("first"), square("second", outline=wide), square("far", outline=(
        (0.0, 0.0), (300.0, 0.0), (300.0, 90.0), (0.0, 90.0))))  # fmt: skip
    number = only(work, StepKind.NUMBER)
    assert number.id == "b/piece/single/number/piece"
    assert number.parts == ("first", "second")
    assert "First and Second differ by 0.6 mm" in number.detail


def test_twins_may_be_mixed_up():
    assert not work_of(square("first"), square("second")).of_kind(StepKind.NUMBER)


CUTTING = Option(
    id="cutting",
    name="Cutting",
    choices=(
        Choice(id="by_hand", name="By hand"),
        Choice(id="machine", name="By machine", by_machine=True, times=(("lay out", 0.5),)),
    ),
    chosen="by_hand",
)


def test_a_machine_cuts_in_its_own_time_with_its_own_tool():
    by_hand = work_of(square("plate"), options=(CUTTING,))
    by_machine = work_of(square("plate"), options=(CUTTING,), chosen={"cutting": "machine"})
    slow, fast = only(by_hand, StepKind.CUT), only(by_machine, StepKind.CUT)
    assert slow.id == fast.id
    assert (slow.minutes, fast.minutes) == (23, 8)
    assert fast.tool == "cutting table"
    assert only(by_machine, StepKind.LAY_OUT).minutes == 6


def test_a_shelf_without_the_machine_keeps_to_the_knife():
    shelf = full_shelf()
    knives = tuple(d for d in shelf.durations if d.kind != "cut by machine")
    work = work_of(
        square("plate"),
        options=(CUTTING,),
        chosen={"cutting": "machine"},
        shelf=replace(shelf, durations=knives),
    )
    assert only(work, StepKind.CUT).minutes == 23


@pytest.mark.parametrize("kind", [StepKind.LAY_OUT, StepKind.PACK])
def test_a_build_started_before_a_kind_of_work_was_known_goes_on_without_it(kind):
    shelf = full_shelf()
    older = replace(shelf, durations=tuple(d for d in shelf.durations if d.kind != kind))
    before = {step.id for step in work_of(square("plate"), shelf=older).steps}
    after = {step.id: step.kind for step in work_of(square("plate"), shelf=shelf).steps}
    assert before < after.keys()
    assert {after[step] for step in after.keys() - before} == {kind}


def test_a_strap_is_prepared_for_the_girths_it_closes_round():
    place = StrapPlace(
        id="s", name="above the knee", strap="strap", meets="plate", girth_mm=(440.0, 500.0)
    )
    work = work_of(square("strap", kind=PartKind.STRAP), square("plate"), strap_places=(place,))
    detail = only(work, StepKind.PREPARE_STRAP).detail
    assert "Above the knee: closes 440–500 mm over the padding." in detail
