"""The elbow of three lames bends: overlaps, pivots, nested girths and the slot, from the drawing.

Checked against plane geometry: n joints that share a bend turn by its n-th part; an edge at radius
r from the pivot slides by r × angle (r 70 mm, 120° in two joints: 73.3 mm; r 60, 140° in three:
48.87 mm); layers nested round a half turn differ by π × thickness; and against C. ffoulkes, Armour
& Weapons (1909), p. 52: a sliding rivet travels half an inch or more.
"""

from math import atan2, degrees, pi, radians

import pytest
from samples import three_lames_sample as sample
from shapely import LineString, Polygon

from armorplan.app.derived import derive_build
from armorplan.app.opening import check_folder
from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled
from armorplan.pattern.joining import Motion
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
SHOP = one_maker("UTC")
FOLDER = samples_folder() / "three_lames"
PATTERN = read_pattern(read_folder(FOLDER), SHELF).pattern
ANGLE = radians(140 / 3)
NEXT_MM = sample.ARM_MM + sample.LEATHER_MM
"""From the axis to the middle of the lames next to the innermost one."""
KEPT_MM = 10.0
"""What an overlap keeps at the end of the bend (common practice, no source)."""


def centre(hole):
    return PATTERN.hole(hole).centre


def back_edges(part, pivot):
    """Return how far up and down a lame reaches at the middle of the back, from its pivot, in mm."""
    near, far = centre(f"{pivot}_near"), centre(f"{pivot}_far")
    x = (near[0] + far[0]) / 2
    cut = Polygon(PATTERN.part(part).outline).intersection(LineString([(x, -999), (x, 999)]))
    _, top, _, low = cut.bounds
    return near[1] - top, low - near[1]


@pytest.mark.parametrize(
    ("radius", "bend", "joints", "slide"), [(70, 120, 2, 73.3), (60, 140, 3, 48.87)]
)
def test_the_slide_is_radius_times_angle(radius, bend, joints, slide):
    assert radius * radians(bend / joints) == pytest.approx(slide, abs=0.05)


@pytest.mark.parametrize(
    ("outer", "inner", "radius_mm"),
    [
        (("middle_lame", "middle_top"), ("top_lame", "top_pivot"), sample.ARM_MM),
        (("cop", "cop_upper"), ("middle_lame", "middle_cop"), NEXT_MM),
    ],
)
def test_no_gap_opens_at_the_back_of_the_bent_arm(outer, inner, radius_mm):
    up, _ = back_edges(*outer)
    _, below = back_edges(*inner)
    overlap_mm = up + below
    assert overlap_mm - radius_mm * ANGLE >= KEPT_MM


def test_the_lower_lame_stays_under_the_cop_too():
    _, down = back_edges("cop", "cop_lower")
    above, _ = back_edges("lower_lame", "lower_pivot")
    assert down + above - NEXT_MM * ANGLE >= KEPT_MM


PIVOTS = ("cop_upper", "cop_lower", "middle_cop", "middle_top", "top_pivot", "lower_pivot")


@pytest.mark.parametrize("pivot", PIVOTS)
def test_the_two_pivots_of_a_lame_lie_on_one_axis_square_to_the_limb(pivot):
    (x0, y0), (x1, y1) = centre(f"{pivot}_near"), centre(f"{pivot}_far")
    assert abs(degrees(atan2(y1 - y0, x1 - x0))) < 0.1


@pytest.mark.parametrize(
    ("outer", "inner"),
    [("cop_upper", "middle_cop"), ("cop_lower", "lower_pivot"), ("middle_top", "top_pivot")],
)
def test_each_layer_is_longer_by_its_half_turn(outer, inner):
    spans = [centre(f"{p}_far")[0] - centre(f"{p}_near")[0] for p in (outer, inner)]
    assert spans[0] - spans[1] == pytest.approx(pi * PATTERN.part("cop").thickness_mm, abs=0.2)


def test_the_slot_lets_the_post_travel_as_far_as_the_lame_slides():
    travel_mm = PATTERN.hole("lower_slide").travel_mm
    assert travel_mm >= 12.7
    assert NEXT_MM * ANGLE <= travel_mm <= NEXT_MM * ANGLE + 2
    up_or_down = PATTERN.hole("lower_slide").travel_deg % 180
    assert up_or_down == pytest.approx(90, abs=1)


def test_the_words_of_the_notes_are_those_of_the_drawing():
    notes = PATTERN.notes.replace("\n", " ")
    assert f"travels {sample.SLIDE_MM:.0f} mm, those of the next lames" in notes
    assert f"next lames {sample.OUTER_SLIDE_MM:.0f}." in notes
    assert f"the overlap at a straight arm is {sample.OVERLAP_MM:.0f} mm" in notes
    assert f"and {sample.OUTER_SLIDE_MM + sample.COVER_MM:.0f} under the cop" in notes
    assert 2 * pi * sample.ARM_MM == pytest.approx(330, abs=5)


def test_the_inner_leather_is_straight_when_the_arm_is_bent():
    """Its rivets lie as far apart as those of the lames, and by the slide farther."""
    gaps = []
    for outer, inner, pivots, slide_mm in (
        ("cop_inner", "middle_inner", ("cop_upper_near", "middle_cop_near"), NEXT_MM * ANGLE),
        ("middle_inner", "top_inner", ("middle_top_near", "top_pivot_near"), sample.SLIDE_MM),
    ):
        above = [
            centre(pivot)[1] - centre(hole)[1]
            for pivot, hole in zip(pivots, (outer, inner), strict=True)
        ]
        gaps.append(above[1] - above[0] + slide_mm)
    xs = [centre(f"inner_{name}")[0] for name in ("cop", "middle", "top")]
    assert [xs[1] - xs[0], xs[2] - xs[1]] == pytest.approx(gaps, abs=0.1)


@pytest.mark.parametrize("look", ["decorated", "plain"])
def test_both_ways_to_build_it_load_clean(look):
    assert check_folder(FOLDER, SHELF, SHOP, chosen={"look": look}).findings == ()


def test_a_plain_elbow_has_no_boss_and_no_holes_for_it():
    plain = settled(PATTERN, {"look": "plain"})
    derived = derive_build(plain, SHELF, SHOP, build="x")
    words = [step.title for step in derived.work.steps]
    assert not [title for title in words if "boss" in title or "waves" in title]
    assert "Punch 6 holes in cop (left)" in words


def test_pivots_come_after_what_they_cover_and_both_of_a_lame_together():
    derived = derive_build(PATTERN, SHELF, SHOP, build="x")
    place = derived.place
    setting = {
        j: derived.work.setting(f"{j}.left").id for j in (joint.id for joint in PATTERN.joints)
    }
    turning = [j.id for j in PATTERN.joints if j.motion is not Motion.FIXED]
    for pivot in turning:
        assert place[setting["inner_to_middle"]] < place[setting[pivot]]
    for lame in ("top", "upper", "lower"):
        assert abs(place[setting[f"{lame}_near"]] - place[setting[f"{lame}_far"]]) == 1
    dry_fit = [s.id for s in derived.work.of_kind(StepKind.DRY_FIT) if s.side.value == "left"]
    assert all(place[dry_fit[0]] < place[step] for step in setting.values())
