"""Facts of the trade that the arm harness has to show. All of them common practice, no source."""

from itertools import pairwise

import pytest
from shapely import Polygon

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.gathering import measures
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.joining import Motion
from armorplan.workshop.fastening import choose_length

SHELF = read_shelf()
PATTERN = read_pattern(read_folder(samples_folder() / "arm_harness"), SHELF).pattern


def middle_x(hole):
    return PATTERN.hole(hole).centre[0]


def test_larger_lames_lie_nearest_the_cop_and_smaller_ones_beneath():
    upward = ["cop", "third_lame", "second_lame", "top_lame", "upper_plate"]
    over = {
        tuple(PATTERN.stack_parts(joint.id))
        for joint in PATTERN.joints
        if joint.motion is Motion.TURNING
    }
    assert set(pairwise(upward)) | {("cop", "lower_lame"), ("lower_lame", "lower_plate")} == over
    widths = [Polygon(PATTERN.part(part).outline).bounds for part in upward[1:4]]
    assert [right - left for left, _, right, _ in widths] == sorted(
        (right - left for left, _, right, _ in widths), reverse=True
    )


def test_the_tall_side_and_the_wing_face_outward():
    """Drawn is the left arm, seen from behind the wearer: outward is to the left of the page."""
    plate = Polygon(PATTERN.part("upper_plate").outline)
    axis = next(f.axis for f in PATTERN.forms if f.id == "upper_round")
    middle = axis[0][0]
    corners = plate.exterior.coords
    far, near = (
        min(y for x, y in corners if (x < middle - 80) is left and abs(x - middle) > 80)
        for left in (True, False)
    )
    assert near - far > 15
    left, _, right, _ = Polygon(PATTERN.part("cop").outline).bounds
    pivots = [middle_x("cop_upper_far"), middle_x("cop_upper_near")]
    assert pivots[0] < pivots[1]
    assert (pivots[0] - left) - (right - pivots[1]) > 30


def test_the_forearm_opens_on_the_inside_as_a_lower_leg_plate_does():
    """The hinges sit at the far side, the buckles and straps at the side of the body."""
    outer_middle = next(f.axis for f in PATTERN.forms if f.id == "outer_round")[0][0]
    inner_middle = next(f.axis for f in PATTERN.forms if f.id == "inner_round")[0][0]
    for hinge in ("wrist_hinge", "fore_hinge"):
        assert middle_x(f"outer_{hinge}_2") < outer_middle - 40
        assert middle_x(f"inner_{hinge}_2") > inner_middle + 25
    for closing in ("fore", "wrist"):
        assert middle_x(f"{closing}_on_outer") > outer_middle
        assert middle_x(f"{closing}_from_outer") < inner_middle


@pytest.mark.parametrize("row", ["lower_far_rib", "lower_near_rib"])
def test_ribs_along_the_limb_meet_without_being_wider(row):
    (measure,) = [m for m in measures(PATTERN, SHELF) if m.id == f"rows:{row}"]
    assert measure.verdict == "meet"


@pytest.mark.parametrize("row", ["upper_trim_row", "wrist_trim_row"])
def test_trims_round_the_limb_meet_once_bent(row):
    (measure,) = [m for m in measures(PATTERN, SHELF) if m.id == f"rows:{row}"]
    assert measure.verdict.startswith("punch flat, bend both, then rivet")


def test_two_layers_take_the_middle_post_and_three_the_long_one():
    """Of double caps with posts of 6, 8 and 10 mm, in leather of 2.8 mm."""
    cap = SHELF.fastener("double_cap_9")
    assert cap.lengths_mm[:3] == (6, 8, 10)
    pinch_pct = SHELF.constants.pinch.value
    assert choose_length(2 * 2.8, cap, pinch_pct=pinch_pct) == 8
    assert choose_length(3 * 2.8, cap, pinch_pct=pinch_pct) == 10


def test_weight_hangs_on_copper_and_light_things_on_caps():
    held = {joint.id: joint.fastener for joint in PATTERN.joints}
    assert {held[f"hang_{n}"] for n in (1, 2, 3)} == {"copper_burr_3_4"}
    for joint, fastener in held.items():
        if fastener and fastener.startswith("double_cap"):
            kinds = {PATTERN.part(part).kind.value for part in PATTERN.stack_parts(joint)}
            assert kinds & {"trim", "keeper"}
