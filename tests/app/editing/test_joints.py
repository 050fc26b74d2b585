"""Joints and rows: joined, put in order, taken apart, with every name of them kept right."""

from dataclasses import replace

from app.editing.edited import sample, taken, why

from armorplan.app.draft import Draft
from armorplan.app.editing.holes import add_hole
from armorplan.app.editing.joints import (
    Holding,
    add_layer,
    drop_joints,
    join,
    join_row,
    joints_from_match,
    make_row,
    set_layers_order,
    set_row_order,
    set_stack_order,
)
from armorplan.app.editing.parts import put_to_piece
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.pattern.joining import JointKind, Motion
from armorplan.pattern.pattern import Pattern


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


def test_a_row_taken_apart_and_suggested_again_is_the_same_row():
    cop = sample("elbow_cop")
    joints = [joint.id for joint in pattern(cop).joints if joint.id.startswith("left_row")]
    pairs = tuple(pattern(cop).joint(joint).stack for joint in joints)
    apart = taken(drop_joints(cop, joints))
    assert {seam.id for seam in pattern(apart).seams} == {"right_row"}
    assert next(f for f in pattern(apart).forms if f.id == "cup").seams == ("right_row",)
    match = RowMatch(
        first="petal_left",
        second="petal_middle",
        pairs=tuple((b, a) for a, b in pairs),
        meeting=Meeting.DRAWN,
        residual_mm=0.0,
    )
    tubular = Holding(fastener="tubular_9")
    made = taken(joints_from_match(apart, match, is_first_outside=False, how=tubular))
    seam = next(s for s in pattern(made).seams if s.id != "right_row")
    assert seam.name == "left petal to middle petal"
    assert tuple(pattern(made).joint(joint).stack for joint in seam.joints) == pairs
    assert {pattern(made).joint(joint).fastener for joint in seam.joints} == {"tubular_9"}
    one = RowMatch(
        first="petal_left",
        second="petal_middle",
        pairs=(pairs[0][::-1],),
        meeting=Meeting.HOLE,
        residual_mm=0.0,
    )
    single = taken(joints_from_match(apart, one, is_first_outside=True))
    assert len(pattern(single).seams) == 1
    joint = pattern(single).joint("left_1")
    assert (joint.stack, joint.fastener) == (("left_1", "middle_left_1"), "tubular_9")


def test_a_hole_already_joined_is_told_and_can_be_a_further_layer():
    cop = sample("elbow_cop")
    assert 'left_2 is in the joint "left_row_2" already' in why(
        join(cop, ["left_2", "strap_set_1"])
    )
    assert "two holes or more" in why(join(cop, ["left_2"]))
    bored = taken(add_hole(cop, "closing_strap", _spot(cop), diameter_mm=4.0, hole="extra"))
    made = taken(add_layer(bored, "strap_rim", "extra", at=2))
    assert pattern(made).joint("strap_rim").stack == ("right_strap", "strap_rim", "extra")
    bored = taken(add_hole(bored, "petal_left", (85.0, 60.0), diameter_mm=5.0, hole="pivot"))
    made = taken(
        join(
            bored,
            ["extra", "pivot"],
            how=Holding(
                kind=JointKind.SCREW, fastener="screw_post_turning", motion=Motion.TURNING
            ),
        )
    )
    joint = pattern(made).joint("extra")
    assert (joint.kind, joint.motion, joint.fastener) == (
        JointKind.SCREW,
        Motion.TURNING,
        "screw_post_turning",
    )


def _spot(draft: Draft) -> tuple[float, float]:
    x, y = pattern(draft).hole("strap_rim").centre
    row = pattern(draft).hole("strap_row").centre
    return (x + row[0]) / 2, (y + row[1]) / 2


def test_layers_change_places_in_one_joint_or_in_all_of_a_row():
    cop = sample("elbow_cop")
    one = taken(set_stack_order(cop, "right_row_4", ["strap_row", "middle_right_4", "right_4"]))
    assert pattern(one).joint("right_row_4").stack[0] == "strap_row"
    assert "in another order" in why(set_stack_order(cop, "right_row_4", ["strap_row"]))
    row = taken(set_row_order(cop, "right_row", ["petal_right", "petal_middle"]))
    read = pattern(row)
    assert read.joint("right_row_1").stack == ("right_1", "middle_right_1")
    assert read.joint("right_row_4").stack == ("right_4", "middle_right_4", "strap_row")
    back = taken(set_row_order(row, "right_row", ["petal_middle", "petal_right"]))
    assert back.text == cop.text
    arm = sample("arm_harness")
    layers = pattern(arm).joint("inner_suede").layers
    turned = taken(set_layers_order(arm, "inner_suede", layers[::-1]))
    assert pattern(turned).joint("inner_suede").layers == layers[::-1]


def test_joints_that_are_there_become_a_row_and_leave_the_one_they_were_in():
    cop = sample("elbow_cop")
    made = taken(make_row(cop, ["left_row_1", "left_row_2", "boss_left"], name="upper corner"))
    rows = {seam.id: seam.joints for seam in pattern(made).seams}
    assert rows["upper_corner"] == ("left_row_1", "left_row_2", "boss_left")
    assert rows["left_row"][0] == "left_row_3"
    whole = taken(make_row(cop, rows["left_row"] + ("left_row_1", "left_row_2"), name="all"))
    assert "left_row" not in {seam.id for seam in pattern(whole).seams}
    assert whole.told[0] == 'The row "left row" is now part of it.'


def test_a_row_is_joined_with_a_name_of_its_own():
    cop = taken(drop_joints(sample("elbow_cop"), ["boss_left", "boss_right"]))
    stacks = [["boss_left", "middle_boss_left"], ["boss_right", "middle_boss_right"]]
    capped = Holding(fastener="double_cap_9")
    made = taken(join_row(cop, stacks, name="Boss row", how=capped))
    assert pattern(made).seams[-1].joints == ("boss_row_1", "boss_row_2")


def test_pivots_are_joints_by_themselves_and_what_else_they_want_is_told():
    cop = taken(drop_joints(sample("elbow_cop"), ["boss_left", "boss_right"]))
    stacks = [["boss_left", "middle_boss_left"], ["boss_right", "middle_boss_right"]]
    turning = Holding(motion=Motion.TURNING)
    made = taken(join_row(cop, stacks, name="Boss", how=turning))
    assert {pattern(made).joint(f"boss_{at}").motion for at in (1, 2)} == {Motion.TURNING}
    assert len(pattern(made).seams) == len(pattern(cop).seams)
    assert "said in a movement" in made.told[0]
    held = taken(join_row(cop, stacks, name="Boss"))
    assert not held.told


def test_parts_of_two_pieces_that_are_joined_are_told():
    lames = taken(put_to_piece(sample("three_lames"), ["top_lame"], "", name="Upper"))
    joint = next(
        j for j in pattern(lames).joints if "top_lame" in pattern(lames).stack_parts(j.id)
    )
    apart = taken(drop_joints(lames, [joint.id]))
    made = taken(join(apart, joint.stack, how=Holding(kind=joint.kind, motion=joint.motion)))
    assert any("of 2 pieces, which are dyed and tried on one by one" in one for one in made.told)


def test_a_joint_slides_in_a_slot_that_is_in_none_yet():
    lames = sample("three_lames")
    apart = taken(drop_joints(lames, ["back_slide"]))
    assert pattern(apart).has_slot("lower_slide")
    slides = Holding(kind=JointKind.SCREW, motion=Motion.SLIDING)
    made = taken(join(apart, ["cop_back", "lower_slide"], how=slides, joint="back_slide"))
    assert pattern(made).hole("lower_slide").travel_mm > 0
    was = pattern(lames).joint("back_slide")
    assert replace(pattern(made).joint("back_slide"), washer_mm=was.washer_mm) == was
    fixed = join(apart, ["cop_back", "lower_slide"])
    assert 'no hole "lower_slide"' in why(fixed)
