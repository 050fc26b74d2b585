"""Holes moved, drawn and taken out: drawing and tables together, and nothing besides."""

from dataclasses import replace
from math import dist

import pytest
from app.editing.edited import sample, taken, why
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.draft import Draft
from armorplan.app.editing.holes import (
    add_hole,
    drop_holes,
    free_hole,
    move_holes,
    put_holes,
    rename_hole,
    set_hole,
)
from armorplan.pattern.pattern import Pattern


def pattern(draft: Draft) -> Pattern:
    assert draft.pattern is not None
    return draft.pattern


def all_but(read: Pattern, *holes: str) -> Pattern:
    """Return a pattern without some holes and without what counts its bytes."""
    parts = tuple(
        replace(part, holes=tuple(hole for hole in part.holes if hole.id not in holes))
        for part in read.parts
    )
    return replace(read, parts=parts, content_hash="")


@settings(max_examples=12)
@given(
    holes=st.sets(st.sampled_from(["left_1", "middle_left_4", "keeper_end_a"]), min_size=1),
    by=st.tuples(st.floats(-1.5, 1.5), st.floats(-1.5, 1.5)),
)
def test_moved_holes_lie_where_they_were_moved_to_and_nothing_else_moves(holes, by):
    cop = sample("elbow_cop")
    made = taken(move_holes(cop, holes, by))
    for hole in holes:
        (x, y), now = pattern(cop).hole(hole).centre, pattern(made).hole(hole)
        assert dist(now.centre, (x + by[0], y + by[1])) < 0.002
        assert now.diameter_mm == pattern(cop).hole(hole).diameter_mm
    assert all_but(pattern(made), *holes) == all_but(pattern(cop), *holes)
    assert made.text == cop.text


def test_a_slot_that_a_joint_slides_in_is_moved_as_a_whole():
    arm = sample("arm_harness")
    made = taken(move_holes(arm, ["lame_slide"], (0.0, 1.5)))
    before, after = pattern(arm).hole("lame_slide"), pattern(made).hole("lame_slide")
    assert dist(after.centre, (before.centre[0], before.centre[1] + 1.5)) < 0.002
    assert after.travel_mm == pytest.approx(before.travel_mm)
    assert "its size is that of its outline" in why(set_hole(arm, "lame_slide", diameter_mm=6))


def test_a_corrected_hole_is_put_where_it_is_wanted():
    cop = sample("elbow_cop")
    told = {"name": "drawn low", "holes": ["left_2"], "move_mm": [0.0, -1.5]}
    corrected = taken(cop.add_entry("corrections", "low", told))
    made = taken(set_hole(corrected, "left_2", centre=(113.0, 75.0), diameter_mm=4.5))
    assert dist(pattern(made).hole("left_2").centre, (113.0, 75.0)) < 0.002
    assert pattern(made).hole("left_2").diameter_mm == pytest.approx(4.5)


def test_holes_are_put_each_at_its_own_place():
    cop = sample("elbow_cop")
    made = taken(put_holes(cop, {"left_1": (106.0, 55.0), "left_2": (113.0, 76.0)}))
    assert pattern(made).hole("left_1").centre == pytest.approx((106.0, 55.0))
    assert pattern(made).hole("left_2").centre == pytest.approx((113.0, 76.0))


def test_a_hole_is_not_lost_outside_its_part():
    cop = sample("elbow_cop")
    words = why(move_holes(cop, ["left_1"], (400.0, 0.0)))
    assert "left_1" in words
    assert 'no hole "left_99"' in why(move_holes(cop, ["left_99"], (1, 1)))
    assert "no hole for a fastener" in why(set_hole(cop, "left_1", diameter_mm=0.1))
    words = why(add_hole(cop, "boss", pattern(cop).hole("left_4").centre, diameter_mm=4))
    assert "would not lie in the boss" in words


def test_a_new_hole_gets_an_id_and_looks_like_its_neighbours():
    cop = sample("elbow_cop")
    name = free_hole(cop, "petal_left")
    assert name == "petal_left_1"
    made = taken(add_hole(cop, "petal_left", (85.0, 60.0), diameter_mm=3.5))
    hole = pattern(made).hole(name)
    assert (hole.part, hole.centre, hole.diameter_mm) == ("petal_left", (85.0, 60.0), 3.5)
    assert all_but(pattern(made), name) == all_but(pattern(cop), name)
    assert free_hole(made, "petal_left") == "petal_left_2"
    assert dict(taken(drop_holes(made, [name])).texts) == dict(cop.texts)


def test_with_a_hole_goes_its_joint_where_only_one_layer_is_left():
    cop = sample("elbow_cop")
    made = taken(drop_holes(cop, ["strap_row", "left_2"]))
    read = pattern(made)
    assert read.joint("right_row_4").stack == ("middle_right_4", "right_4")
    assert "left_row_2" not in {joint.id for joint in read.joints}
    assert "left_row_2" not in next(s for s in read.seams if s.id == "left_row").joints
    assert "middle_left_2" in {hole.id for part in read.parts for hole in part.holes}
    assert made.told == ('The joint "left_row_2" went with it.',)


def test_reasons_about_a_joint_go_with_it():
    arm = sample("arm_harness")
    made = taken(drop_holes(arm, [pattern(arm).joint("top_near").stack[0]]))
    assert "both_top_pivots" not in made.entry("relations", "")
    assert 'The reason "both_top_pivots" went with it.' in made.told


def test_a_hole_called_anew_is_called_so_everywhere():
    cop = sample("elbow_cop")
    made = taken(rename_hole(cop, "left_2", "left_second"))
    assert pattern(made).joint("left_row_2").stack == ("middle_left_2", "left_second")
    assert dist(pattern(made).hole("left_second").centre, pattern(cop).hole("left_2").centre) == 0
    assert "already" in why(rename_hole(cop, "left_2", "left_3"))
    assert "cannot be an id" in why(rename_hole(cop, "left_2", "left 3"))
    assert dict(taken(rename_hole(made, "left_second", "left_2")).texts) == dict(cop.texts)


def test_an_edit_in_haste_is_reckoned_through_when_asked():
    made = taken(move_holes(sample("elbow_cop"), ["left_2"], (0.0, 4.0)))
    assert made.is_hasty
    assert not made.findings
    whole = made.checked()
    assert not whole.is_hasty
    assert any("left_row_2" in f.about or "left_2" in f.about for f in whole.findings), (
        whole.findings
    )
