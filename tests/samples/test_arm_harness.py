"""The arm harness: counts, pivots, overlaps, slots and straps, from the drawing.

Checked against circle geometry: n joints share a bend, and an edge at radius r slides by r × angle.
"""

from itertools import pairwise
from math import dist, pi, radians

import pytest
from samples.arm_harness_bends import bends, girths
from samples.arm_harness_measures import PLATE_MM, WATCHMAN
from shapely import LineString, Polygon

from armorplan.app.opening import check_folder
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import JointKind, Motion
from armorplan.pattern.sides import paired_parts
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
SHOP = one_maker("UTC")
FOLDER = samples_folder() / "arm_harness"
PATTERN = read_pattern(read_folder(FOLDER), SHELF).pattern
KEPT_MM = 10.0
"""What an overlap keeps at the end of the bend (common practice, no source)."""


def centre(hole):
    return PATTERN.hole(hole).centre


def both_sides(things):
    """Count what is made left and right: all pieces of the arm are mirrored."""
    assert paired_parts(PATTERN) == {part.id for part in PATTERN.parts}
    return 2 * len(things)


def test_it_is_a_harness_of_many_parts_and_joints():
    assert both_sides(PATTERN.parts) >= 44
    assert both_sides(PATTERN.joints) >= 170
    (harness,) = PATTERN.harnesses
    assert harness.pieces == ("upper_arm", "elbow", "lower_arm")
    kinds = [part.kind.value for part in PATTERN.parts]
    assert kinds.count("lame") == 4
    assert kinds.count("cop") == 1
    assert {joint.kind for joint in PATTERN.joints} == set(JointKind) - {JointKind.LACE}
    used = {joint.fastener.rsplit("_", 1)[0] for joint in PATTERN.joints if joint.fastener}
    assert used >= {"double_cap", "tubular", "copper_burr_2", "copper_burr_3", "screw_post"}


@pytest.mark.parametrize("look", ["decorated", "plain"])
def test_both_looks_are_sound(look):
    assert check_folder(FOLDER, SHELF, SHOP, chosen={"look": look}).findings == ()


def test_dipped_it_has_one_note_that_its_notes_explain():
    (found,) = check_folder(FOLDER, SHELF, SHOP, chosen={"bath": "dipped"}).findings
    assert (found.code, found.severity.value) == ("dip-without-figures", "note")
    (bath,) = [option for option in PATTERN.options if option.id == "bath"]
    assert "litres are not known" in bath.notes


PIVOTS = sorted(
    {
        hole.removesuffix("_near")
        for joint in PATTERN.joints
        if joint.motion is Motion.TURNING
        for hole in joint.stack
        if hole.endswith("_near")
    }
)


@pytest.mark.parametrize("pivot", PIVOTS)
def test_both_pivots_lie_on_one_axis_square_to_the_limb(pivot):
    assert centre(f"{pivot}_near")[1] == pytest.approx(centre(f"{pivot}_far")[1], abs=0.01)


BOWS_MM = {
    "upper_plate": WATCHMAN.upper_cone.bow_mm(0.0),
    "lower_plate": WATCHMAN.lower_cone.bow_mm(WATCHMAN.lower_cone.slant_mm),
}


def back_edges(part, pivot):
    """Return how far up and down a plate reaches at the middle of the back, from its pivots, in mm.

    A plate that is a piece of a cone bows in the flat; bent, what lay level is level again.
    """
    bow_mm = BOWS_MM.get(part, 0.0)
    near, far = centre(f"{pivot}_near"), centre(f"{pivot}_far")
    middle = (near[0] + far[0]) / 2
    cut = Polygon(PATTERN.part(part).outline).intersection(
        LineString([(middle, -999), (middle, 999)])
    )
    _, top, _, low = cut.bounds
    return near[1] - bow_mm - top, low - near[1] + bow_mm


ABOVE = [
    ("top_lame", "top_lame_in", "upper_plate", "upper_pivot"),
    ("second_lame", "second_lame_in", "top_lame", "top_lame_out"),
    ("third_lame", "third_lame_in", "second_lame", "second_lame_out"),
    ("cop", "cop_upper", "third_lame", "third_lame_out"),
]
BELOW = [
    ("cop", "cop_lower", "lower_lame", "lower_lame_out"),
    ("lower_lame", "lower_lame_in", "lower_plate", "lower_pivot"),
]


@pytest.mark.parametrize(("outer", "outer_pivot", "inner", "inner_pivot"), ABOVE + BELOW)
def test_no_gap_opens_when_the_arm_is_bent_to_the_end(outer, outer_pivot, inner, inner_pivot):
    up, down = back_edges(outer, outer_pivot)
    inner_up, inner_down = back_edges(inner, inner_pivot)
    upward = (outer, outer_pivot, inner, inner_pivot) in ABOVE
    overlap_mm = up + inner_down if upward else down + inner_up
    slide_mm = WATCHMAN.layers_mm[outer] * radians(140 / 6)
    assert overlap_mm - slide_mm >= KEPT_MM


def test_the_words_of_the_notes_are_those_of_the_drawing():
    words = PATTERN.notes.replace("\n", " ")
    slides = [WATCHMAN.slide_mm(layer) for layer in WATCHMAN.layers_mm]
    assert f"each turns by {WATCHMAN.bend_deg / 6:.0f}," in words
    assert f"travels up to {max(slides):.0f} mm" in words
    assert (
        "340 mm girth at the upper arm, 290 mm above and 320 mm below the elbow and 225 mm"
        in words
    )


def test_the_forearm_plates_close_round_the_forearm():
    """The plates are nested from the elbow outward, so their own girth has to hold the forearm."""
    at_elbow_mm = 2 * pi * (WATCHMAN.layers_mm["lower_plate"] - PLATE_MM / 2)
    assert 0 <= at_elbow_mm - WATCHMAN.below_elbow_mm <= 25


def test_the_slots_let_their_posts_travel_as_far_as_the_edges_slide():
    sliding = [joint for joint in PATTERN.joints if joint.motion is Motion.SLIDING]
    assert [joint.id for joint in sliding] == ["lame_lead", "plate_lead"]
    for joint, outer in zip(sliding, ("cop", "lower_lame"), strict=True):
        (slot,) = [h for h in map(PATTERN.hole, joint.stack) if h.travel_mm]
        slide_mm = WATCHMAN.slide_mm(outer)
        assert slide_mm <= slot.travel_mm <= slide_mm + 2
        assert slot.travel_deg % 180 == pytest.approx(90, abs=1)


def test_the_back_leather_is_all_but_straight_when_the_arm_is_bent():
    """Its rivets lie as far apart as those of the lames on a straight arm, and by the slide farther."""
    gaps = []
    for outer, pivot, inner, inner_pivot in reversed(ABOVE):
        outer_hole = {"cop": "cop_leather"}.get(outer, f"{outer}_leather")
        inner_hole = {"upper_plate": "upper_leather"}.get(inner, f"{inner}_leather")
        below = centre(outer_hole)[1] - centre(f"{pivot}_near")[1]
        above = centre(f"{inner_pivot}_near")[1] - centre(inner_hole)[1]
        gaps.append(below + above - BOWS_MM.get(inner, 0.0) + WATCHMAN.slide_mm(outer))
    holes = [
        "leather_cop",
        *(f"leather_{n}_lame" for n in ("third", "second", "top")),
        "leather_plate",
    ]
    xs = [centre(hole)[0] for hole in holes]
    ease = [b - a - gap for (a, b), gap in zip(pairwise(xs), gaps, strict=True)]
    assert all(1 <= each <= 3 for each in ease), ease


@pytest.mark.parametrize("form", bends(WATCHMAN))
def test_bends_are_written_as_the_arm_asks_for_them(form):
    (found,) = [each for each in PATTERN.forms if each.id == form]
    radius_mm, angle_deg = bends(WATCHMAN)[form]
    assert found.radius_mm == pytest.approx(radius_mm, abs=0.06)
    assert found.angle_deg == angle_deg


def test_girths_are_written_as_the_arm_asks_for_them():
    assert {place.id: place.girth_mm for place in PATTERN.strap_places} == girths(WATCHMAN)


@pytest.mark.parametrize("place", PATTERN.strap_places, ids=lambda place: place.id)
def test_the_holes_of_a_strap_cover_its_girths(place):
    holes = [centre(hole) for hole in place.holes]
    least, most = place.girth_mm
    assert dist(holes[0], holes[-1]) == pytest.approx(most - least, abs=0.1)
