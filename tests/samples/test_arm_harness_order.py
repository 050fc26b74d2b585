"""The work of the arm harness: an order exists, and it is one that an armourer would follow."""

import pytest
from samples import arm_harness_sample as sample
from shapely import Point, Polygon

from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.needs.fasteners import post_needs
from armorplan.pattern.joining import JointKind, Motion
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
SIDES = ("left", "right")


@pytest.fixture(scope="module")
def derived():
    return derive_folder(samples_folder() / "arm_harness", SHELF, one_maker("UTC"))


@pytest.fixture(scope="module")
def place(derived):
    return {step: at for at, step in enumerate(derived.order)}


def setting(derived, joint, side):
    return derived.work.setting(f"{joint}.{side}").id


def shaping(derived, form, side):
    kinds = (StepKind.FORM, StepKind.FORM_DRY)
    (found,) = [
        step.id for step in derived.work.of_kind(*kinds) if step.id.endswith(f"/{form}.{side}")
    ]
    return found


def test_every_step_stands_once_in_the_order(derived):
    assert sorted(derived.order) == sorted(step.id for step in derived.work.steps)


def test_every_post_is_on_sale(derived):
    posted = [j for j in derived.pattern.joints if j.kind in (JointKind.RIVET, JointKind.SCREW)]
    rows = post_needs(derived.assembly, SHELF)
    assert sum(len(row.joints) for row in rows) == 2 * len(posted)
    assert all(row.length_mm for row in rows)


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize(
    ("form", "row"), [("upper_trim_round", "upper_trim"), ("wrist_trim_round", "wrist_trim")]
)
def test_a_trim_has_its_curve_before_its_rivets(derived, place, form, row, side):
    curved = place[shaping(derived, form, side)]
    joints = [j.id for j in derived.pattern.joints if j.id.startswith(f"{row}_")]
    assert len(joints) >= 6
    assert all(curved < place[setting(derived, joint, side)] for joint in joints)


@pytest.mark.parametrize("side", SIDES)
def test_rivets_of_the_back_leather_come_before_the_lames_that_hide_them(derived, place, side):
    for rivet, pivots in (
        ("leather_top", ("top_near", "top_far")),
        ("leather_second", ("second_near", "second_far")),
        ("leather_third", ("third_near", "third_far")),
        ("leather_cop", ("boss_near", "boss_far")),
    ):
        last = max(place[setting(derived, pivot, side)] for pivot in pivots)
        assert place[setting(derived, rivet, side)] < last


@pytest.mark.parametrize(
    ("felt", "plate"), [("upper_padding", "upper_plate"), ("lower_padding", "lower_plate")]
)
def test_the_felt_hides_what_lies_under_it_and_nothing_else(derived, felt, plate):
    """Felt and plate are drawn about the same point of their cone."""
    at = {shape.id: shape.at for shape in sample.shapes()}
    outline = derived.pattern.part(felt).outline
    covered = Polygon([(x - at[felt][0], y - at[felt][1]) for x, y in outline])
    found = set()
    for joint in derived.pattern.joints:
        for hole in map(derived.pattern.hole, joint.stack):
            spot = Point(hole.centre[0] - at[plate][0], hole.centre[1] - at[plate][1])
            if hole.part == plate and not hole.travel_mm and covered.contains(spot):
                found.add(joint.id)
    hidden = set(derived.pattern.part(felt).hides)
    assert {joint for joint in hidden if not joint.endswith("_loop")} == found


@pytest.mark.parametrize("side", SIDES)
def test_what_lies_under_the_felt_is_set_before_it_is_glued(derived, place, side):
    for felt, part in (("upper_felt", "upper_padding"), ("lower_felt", "lower_padding")):
        glued = place[setting(derived, felt, side)]
        hidden = derived.pattern.part(part).hides
        assert len(hidden) >= 8
        assert all(place[setting(derived, joint, side)] < glued for joint in hidden)


@pytest.mark.parametrize("side", SIDES)
def test_both_pivots_of_a_lame_are_set_one_after_the_other(derived, place, side):
    turning = [j.id for j in derived.pattern.joints if j.motion is Motion.TURNING]
    pairs = sorted({joint.removesuffix("_near").removesuffix("_far") for joint in turning})
    assert len(pairs) == 6
    for pair in pairs:
        near, far = (place[setting(derived, f"{pair}_{which}", side)] for which in ("near", "far"))
        assert abs(near - far) == 1


@pytest.mark.parametrize("side", SIDES)
def test_pieces_are_finished_before_they_are_hung(derived, place, side):
    hung = [
        joint.id
        for joint in derived.assembly.joints
        if joint.piece == "arm" and joint.side.value == side
    ]
    assert len(hung) == 6
    first = min(place[derived.work.setting(joint).id] for joint in hung)
    for piece in ("upper_arm", "elbow", "lower_arm"):
        assert place[f"arm_harness/{piece}/{side}/fit/{piece}"] < first


def test_left_and_right_share_the_mixing_of_their_dyes(derived):
    dyes = derived.work.of_kind(StepKind.DYE)
    assert {step.side.value for step in dyes} == set(SIDES)
    told = [r for r in derived.relations if r.reason.rule in ("pair-shares-baths", "one-bath")]
    assert told
