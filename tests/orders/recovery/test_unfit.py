"""Why a salvage will not do, told with numbers that are reckoned from the drawing here."""

import re

import pytest
from orders.recovery.build_scenes import derived_sample, named, sample_scene

from armorplan.orders.recovery.amiss import amiss_of
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.unfit import unfit


def why(salvage, mistake, done=frozenset(), name="elbow_cop"):
    scene = sample_scene(name)
    (amiss,) = amiss_of(scene, (mistake,))
    entry = next(one for one in scene.salvages if one.id == salvage)
    return unfit(scene, amiss, entry, done)


def row_off(mm, way):
    return Mistake(kind=MistakeKind.ROW_OFF, about=("left_row",), mm=mm, way=way)


def test_a_head_that_does_not_cover_the_slot_is_told_by_both_lengths():
    told = why("oval_hole", row_off(6.0, "along"))
    holes = derived_sample("elbow_cop").assembly.part("petal_left").part.holes
    (wide,) = {hole.diameter_mm for hole in holes if hole.id.startswith("left_")}
    slot, head = map(float, re.findall(r"([\d.]+) mm", told))
    assert slot == wide + 2 * 6.0
    assert head < slot


def test_what_it_is_good_for_stands_beside_what_is_here():
    assert why("row_as_it_is", row_off(3.0, "in")) == "It is good up to 1 mm, and here it is 3 mm."
    assert why("join_and_trim", row_off(3.0, "edge")) == (
        "It is good only for what is out away from the edge, and this is towards the edge."
    )
    assert "hole diameters on, and 3 mm are" in why("plug_and_punch_beside", row_off(3.0, "in"))


def test_what_was_done_already_is_named():
    mistake = Mistake(kind=MistakeKind.SPOILT, about=("petal_left",), way="shape")
    assert why("form_again", mistake) == "Left petal is not formed yet."
    formed = named("elbow_cop", "form/petal_dish")
    assert why("form_again", mistake, formed) == ""
    dyed = formed | named("elbow_cop", "dye/colour.coat-1")
    assert why("form_again", mistake, dyed) == (
        "Left petal is dyed already: it is too late for that."
    )


@pytest.mark.parametrize("is_cut", [True, False], ids=["cut", "uncut"])
def test_the_other_side_takes_it_only_while_it_is_not_cut(is_cut):
    mistake = Mistake(kind=MistakeKind.TWO_ALIKE, about=("top_lame.right",))
    done = named("three_lames", "cut/top_lame.left") if is_cut else frozenset()
    told = why("give_to_other_side", mistake, done, "three_lames")
    assert told == ("Top lame (left) is cut already: it needs no other." if is_cut else "")
