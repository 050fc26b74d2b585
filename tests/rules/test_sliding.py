"""Which work a slide between bent layers holds back, on which side, against circle geometry.

Two layers whose middles lie ``d`` apart, bent through an angle, differ by ``d`` times the angle:
d = 3.2 mm gives 5.03 mm at 90°, 6.70 mm at 120°, 10.05 mm at 180°.
"""

from dataclasses import replace
from math import pi

import pytest

from armorplan.geometry.bends.ways import Way
from armorplan.pattern.joining import FormKind, JointKind, Motion, Route, Seam
from armorplan.rules.pages import example_facts
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.rules.sliding import slides
from armorplan.workshop.constants import Constants

ENDS = (10.0, 70.0)
PLAY_MM = Constants().misfit.value


def layer(name, thickness_mm=3.2, places=ENDS):
    part = sketch_part(name, holes={f"{name}_{x:g}": (x, 20.0) for x in places})
    return replace(part, thickness_mm=thickness_mm)


def rivets(places=ENDS, **more):
    made = (sketch_rivet(f"r_{x:g}", f"upper_{x:g}", f"lower_{x:g}") for x in places)
    return tuple(replace(joint, **more) for joint in made)


def bow(angle_deg=120.0, radius_mm=None, **more):
    form = sketch_form("bow", "upper", "lower")
    return replace(form, radius_mm=radius_mm, angle_deg=angle_deg, **more)


def found(form, joints=None, upper=None, **more):
    parts = (upper or layer("upper"), layer("lower"))
    pattern = sketch(*parts, joints=joints or rivets(), forms=(form,), **more)
    return tuple(slide for slide in slides(example_facts(pattern)) if slide.way.parts_holes)


@pytest.mark.parametrize(("angle_deg", "slip_mm"), [(90.0, 5.03), (120.0, 6.70), (180.0, 10.05)])
def test_the_slip_is_the_distance_of_the_middles_times_the_angle(angle_deg, slip_mm):
    (slide,) = found(bow(angle_deg))
    assert (slide.outer, slide.inner) == ("upper", "lower")
    assert slide.layers.total_mm == pytest.approx(slip_mm, abs=0.005)


def test_layers_of_two_thicknesses_lie_half_of_each_apart():
    (slide,) = found(bow(180.0), upper=layer("upper", thickness_mm=4.8))
    assert slide.layers.total_mm == pytest.approx((4.8 + 3.2) / 2 * pi)


def test_holes_that_lie_close_on_a_wide_bend_slip_by_their_share_of_it():
    (slide,) = found(bow(180.0, radius_mm=60.0))
    assert slide.layers.total_mm == pytest.approx(3.2 * 60.0 / 60.0)


def test_only_the_distance_across_the_bend_counts():
    along, across = ((0.0, 20.0), (80.0, 20.0)), ((40.0, 0.0), (40.0, 40.0))
    assert not found(bow(120.0, radius_mm=60.0, axis=along))
    (slide,) = found(bow(120.0, radius_mm=60.0, axis=across))
    assert slide.layers.total_mm == pytest.approx(3.2)


def test_a_slip_that_the_hole_has_to_spare_is_none():
    radius_mm = 3.2 * 60.0 / PLAY_MM
    assert not found(bow(None, radius_mm=radius_mm + 1))
    assert found(bow(None, radius_mm=radius_mm - 1))


def test_a_bend_of_unknown_size_slips_by_an_unknown_amount():
    (slide,) = found(bow(None))
    assert slide.layers.total_mm is None


@pytest.mark.parametrize(
    "more",
    [{"motion": Motion.SLIDING}, {"placed_on_wearer": True}, {"kind": JointKind.LACE}],
    ids=str,
)
def test_what_takes_up_the_slip_is_left_out(more):
    assert not found(bow(), joints=rivets(**more))


@pytest.mark.parametrize(
    "form",
    [bow(kind=FormKind.DISH), bow(radius_mm=40.0, route=Route.DRY)],
    ids=["dished", "curved by hand to a radius at which leather gives"],
)
def test_what_is_no_damp_bend_is_left_out(form):
    assert not found(form)


def test_a_tight_bend_by_hand_holds_the_punching_back():
    (slide,) = found(bow(radius_mm=30.0, route=Route.DRY))
    assert slide.way is Way.FIRST
    assert [step.id.rsplit("/", 1)[-1] for step in slide.shaping] == ["bow"]


def test_a_row_made_for_the_bent_state_is_punched_flat():
    upper = layer("upper", places=(10.0 - 3.35, 70.0 + 3.35))
    upper = replace(upper, holes=tuple(replace(h, id=i) for h, i in zip(
        upper.holes, ("upper_10", "upper_70"), strict=True)))  # fmt: skip
    assert not found(bow(120.0), upper=upper)


def test_each_side_has_its_own():
    pattern = sketch(
        layer("upper"), layer("lower"), joints=rivets(), forms=(bow(),), mirrored=True
    )
    pairs = [(slide.outer, slide.inner) for slide in slides(example_facts(pattern))]
    assert sorted(pairs) == [("upper.left", "lower.left"), ("upper.right", "lower.right")]


def test_seams_that_make_the_shape_themselves_are_left_out():
    seam = Seam(id="row", name="Row", joints=("r_10", "r_70"))
    drawn = replace(bow(route=Route.BY_SEAM), id="cup", seams=("row",))
    pattern = sketch(
        layer("upper"), layer("lower"), joints=rivets(), seams=(seam,), forms=(bow(), drawn)
    )
    assert not tuple(slides(example_facts(pattern)))
