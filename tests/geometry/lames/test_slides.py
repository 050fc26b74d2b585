"""Slots and inner leathers between lames: travel needed, where the post stands, where they stop."""

from dataclasses import replace
from math import degrees, radians

import pytest
from geometry.lame_sketches import (
    RADIUS_MM,
    codes,
    figure,
    findings,
    measures,
    pivot,
    two_lames,
)
from geometry.leather_sketches import box

from armorplan.geometry.marks import MarkKind
from armorplan.pattern.joining import Joint, JointKind, Motion
from armorplan.pattern.parts import Hole, Part, PartKind

SLIDE_MM = RADIUS_MM * radians(40)


def slotted(*, travel_mm, start_mm=0.0, travel_deg=90.0, angle_deg=40.0, right_mm=0.0):
    """The post sits 20 mm above the pivots in the inner lame and slides in a slot of the outer one.

    ``start_mm`` is how far the post stands above the lower end of the slot at rest.
    """
    pattern = two_lames(angle_deg=angle_deg)
    upper, lower = pattern.parts
    post = Hole(id="post", part="upper", centre=(0.0, -20.0), diameter_mm=5.5)
    middle = 180.0 + start_mm - travel_mm / 2
    slot = Hole(
        id="slot", part="lower", centre=(right_mm, middle), diameter_mm=5.5,
        travel_mm=travel_mm, travel_deg=travel_deg,
    )  # fmt: skip
    parts = (
        replace(upper, holes=(*upper.holes, post)),
        replace(lower, holes=(*lower.holes, slot)),
    )
    slide = pivot("slide", "slot", "post", motion=Motion.SLIDING)
    return replace(pattern, parts=parts, joints=(*pattern.joints, slide))


SLOT = "lames:bend:slot:slide"


def test_a_slot_of_the_slide_and_a_little_is_long_enough():
    told = measures(slotted(travel_mm=SLIDE_MM + 1, start_mm=0.5))[SLOT]
    assert told.severity is None
    assert figure(told, "travel needed") == pytest.approx(SLIDE_MM)
    assert figure(told, "travel from rest") == pytest.approx(SLIDE_MM + 0.5)
    assert figure(told, "lets the lames turn") == pytest.approx(degrees((SLIDE_MM + 0.5) / 50))


def test_a_short_slot_is_told_with_the_mm_and_where_it_stops():
    (found,) = findings(slotted(travel_mm=20.0))
    assert found.code == "slot-too-short"
    assert "slide 20.0 mm" in found.text
    assert "it slides 34.9 mm" in found.text
    assert "after 23°" in found.text
    assert found.remedy == (
        "Lengthen it by 14.9 mm at its upper end, in leather already cut as well."
    )


def test_lengthened_as_told_it_is_sound():
    assert codes(slotted(travel_mm=20.0 + 14.9)) == []


def test_a_long_slot_whose_post_stands_at_the_wrong_end_can_be_moved():
    (found,) = findings(slotted(travel_mm=50.0, start_mm=30.0))
    assert found.remedy.startswith("Lengthen it by 14.9 mm at its upper end")
    assert "or move the whole slot 14.9 mm up" in found.remedy
    assert codes(slotted(travel_mm=50.0, start_mm=30.0 - 14.9)) == []


def test_which_way_the_slot_was_drawn_does_not_matter():
    for turned in (90.0, 270.0):
        assert codes(slotted(travel_mm=SLIDE_MM + 1, start_mm=0.5, travel_deg=turned)) == []


def test_a_slot_across_the_way_is_told():
    (found,) = findings(slotted(travel_mm=60.0, start_mm=30.0, travel_deg=0.0))
    assert "lies across" in found.text


@pytest.mark.parametrize(("start_mm", "right_mm"), [(-9.0, 0.0), (5.0, 12.0)])
def test_a_post_outside_its_slot_is_told(start_mm, right_mm):
    pattern = slotted(travel_mm=60.0, start_mm=start_mm, right_mm=right_mm)
    assert codes(pattern) == ["slot-off-its-post"]


def test_a_post_past_an_end_is_mended_at_that_end():
    (found,) = findings(slotted(travel_mm=SLIDE_MM, start_mm=-9.0))
    assert found.remedy.startswith("Lengthen it by 9.0 mm at its lower end")
    assert "or move the whole slot 9.0 mm down the limb" in found.remedy
    assert codes(slotted(travel_mm=SLIDE_MM + 9.0)) == []


def test_where_moving_the_slot_leaves_it_short_lengthening_alone_is_told():
    (found,) = findings(slotted(travel_mm=SLIDE_MM - 9.0, start_mm=-9.0))
    assert found.remedy.startswith("Lengthen it by 9.0 mm at its lower end")
    assert "Moved there instead, it would be 9.0 mm too short at its other end" in found.remedy


def test_a_post_past_the_far_end_needs_the_slide_too():
    (found,) = findings(slotted(travel_mm=20.0, start_mm=25.0))
    assert f"Lengthen it by {5 + SLIDE_MM:.1f} mm at its upper end" in found.remedy


def test_a_post_beside_its_slot_moves_aside():
    (found,) = findings(slotted(travel_mm=60.0, start_mm=5.0, right_mm=12.0))
    assert "9.2 mm aside" in found.remedy
    assert "Lengthen" not in found.remedy


def test_without_a_movement_the_slot_says_how_far_it_lets_them_turn():
    told = measures(slotted(travel_mm=20.0, angle_deg=None))["lames:upper-lower:slot:slide"]
    assert told.severity is None
    assert told.verdict == "long enough for 23°"


def test_the_way_of_the_post_is_drawn_in_the_slotted_plate():
    told = measures(slotted(travel_mm=SLIDE_MM + 1, start_mm=0.5))[SLOT]
    (mark,) = told.marks
    assert (mark.kind, mark.part) == (MarkKind.SPAN, "lower")
    assert mark.spots[0] == pytest.approx((0.0, 180.0))
    assert mark.spots[1] == pytest.approx((0.0, 180.0 - SLIDE_MM))


def held(*, length_mm, angle_deg=40.0):
    """An inner leather from 30 mm above the pivots in the upper lame to 10 mm above in the lower."""
    pattern = two_lames(angle_deg=angle_deg)
    upper, lower = pattern.parts
    high = Hole(id="high", part="upper", centre=(0.0, -30.0), diameter_mm=4.0)
    low = Hole(id="low", part="lower", centre=(0.0, 190.0), diameter_mm=4.0)
    leather = Part(
        id="leather", name="inner leather", piece="piece", kind=PartKind.INTERNAL_LEATHER,
        outline=box(26.0, 200.0, (300.0, 0.0)), material="hide", thickness_mm=2.4,
        holes=(
            Hole(id="l_high", part="leather", centre=(313.0, 20.0), diameter_mm=4.0),
            Hole(id="l_low", part="leather", centre=(313.0, 20.0 + length_mm), diameter_mm=4.0),
        ),
    )  # fmt: skip
    parts = (
        replace(upper, holes=(*upper.holes, high)),
        replace(lower, holes=(*lower.holes, low)),
        leather,
    )
    joints = tuple(
        Joint(id=f"{end}_rivet", kind=JointKind.RIVET, stack=(end, f"l_{end}"), fastener="cap")
        for end in ("high", "low")
    )
    return replace(pattern, parts=parts, joints=(*pattern.joints, *joints))


LEATHER = "lames:bend:inner:leather"


def test_a_leather_of_rest_and_slide_is_straight_at_the_end():
    told = measures(held(length_mm=20.0 + SLIDE_MM))[LEATHER]
    assert told.severity is None
    assert figure(told, "at rest, 'high_rivet' to 'low_rivet'") == pytest.approx(20.0)
    assert figure(told, "straight after, 'high_rivet' to 'low_rivet'") == pytest.approx(40.0)
    assert "34.9 mm slack at rest" in told.text


def test_a_short_leather_stops_the_lames():
    (found,) = findings(held(length_mm=40.0))
    assert found.code == "inner-leather-too-short"
    assert "54.9 mm lie between them" in found.text
    assert "after 23° of 40°" in found.text
    assert "14.9 mm further apart" in found.remedy
    assert "In leather already cut, cut a longer one" in found.remedy
    assert codes(held(length_mm=40.0 + 14.95)) == []


def test_without_a_movement_the_leather_says_when_it_is_straight():
    told = measures(held(length_mm=40.0, angle_deg=None))["lames:upper-lower:inner:leather"]
    assert told.severity is None
    assert told.verdict == "straight after 23°"
