"""Stacks that hold two holes of a row exchanged: it is the writing that is wrong, not the leather."""

from dataclasses import replace
from pathlib import Path

import pytest
from geometry.leather_sketches import shelf
from geometry.row_sketches import layers, measured, straight, told

from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.checking import shape_findings
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.rows.crossed import CROSSED, uncrossed
from armorplan.workshop.shop import one_maker

GAUNTLET = Path(__file__).parents[2] / "patterns" / "gauntlet"
EVEN = (25.0,) * 9


def restacked(sketch, holes):
    """Return a sketch with other holes of its second layer in some stacks; ``holes``: by joint."""
    joints = tuple(
        replace(each, stack=(each.stack[0], holes[each.id])) if each.id in holes else each
        for each in sketch.joints
    )
    return replace(sketch, joints=joints)


def right():
    return layers(straight(*EVEN), straight(*EVEN))


@pytest.mark.parametrize(("at", "until"), [(2, 7), (3, 4), (0, 5), (4, 9), (0, 9)])
def test_two_holes_exchanged_are_told_as_exchanged(at, until):
    sketch = restacked(right(), {f"j{at}": f"b_{until}", f"j{until}": f"b_{at}"})
    (found,) = told(sketch)
    assert found.code == CROSSED
    assert f"crosses itself between 'j{at}' and 'j{until}'" in found.text
    assert f"'b_{until}' and 'b_{at}' of layer b look exchanged in their stacks" in found.text
    assert f"'b_{at}' into 'j{at}' and 'b_{until}' into 'j{until}'" in found.remedy
    assert "plug" not in found.remedy
    assert {"row", f"j{at}", f"j{until}", "layer_b"} <= set(found.about)


def test_a_stretch_written_backwards_is_told_with_each_hole():
    sketch = restacked(right(), {f"j{2 + at}": f"b_{6 - at}" for at in range(5)})
    (found,) = told(sketch)
    assert found.code == CROSSED
    assert "'b_6' to 'b_2' of layer b look written backwards" in found.text
    assert "'b_3' into 'j3'" in found.remedy
    assert "'b_4'" not in found.remedy


def test_no_arrow_tells_to_move_a_hole():
    sketch = restacked(right(), {"j2": "b_7", "j7": "b_2"})
    (measure,) = measured(sketch)
    assert measure.verdict == "crosses itself"
    assert not measure.marks


def test_a_hole_that_is_drawn_wrong_is_still_a_hole_that_is_drawn_wrong():
    spans = (25.0, 25.0, 45.0, 5.0, 25.0, 25.0)
    found = told(layers(straight(*(25.0,) * 6), straight(*spans)))
    assert found
    assert CROSSED not in {each.code for each in found}


def test_as_reach_takes_it_the_holes_are_where_they_fit():
    sketch = restacked(right(), {"j2": "b_7", "j7": "b_2"})
    assert uncrossed(sketch, shelf().constants) == right()
    assert uncrossed(right(), shelf().constants) is not None


def test_reach_of_a_cuff_whose_stacks_are_exchanged_is_that_of_the_cuff():
    pattern = derive_folder(GAUNTLET, read_shelf(), one_maker("UTC")).pattern
    stacks = {"close_3": ("l_3", "r_9"), "close_9": ("l_9", "r_3")}
    joints = tuple(replace(each, stack=stacks.get(each.id, each.stack)) for each in pattern.joints)
    crossed = replace(pattern, joints=joints)
    assert reach_of(crossed, read_shelf()).drawn == reach_of(pattern, read_shelf()).drawn
    (found,) = [f for f in shape_findings(crossed, read_shelf()) if f.code == CROSSED]
    assert "'r_9' and 'r_3' of cuff look exchanged" in found.text
