"""In which order layers are bent and fastened, at and about the bench's limits."""

from dataclasses import replace

import pytest

from armorplan.geometry.bends.slides import layer_slides
from armorplan.geometry.bends.ways import Way, way_of
from armorplan.pattern.joining import Route
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet
from armorplan.workshop.constants import Constants

USUAL = Constants()


def slide(radius_mm=80.0, route=Route.DRY, under=None, wider_mm=0.0, axis=None):
    """Return two layers of 4 mm riveted at 60 mm: at a radius of 80 mm they slide by 5 %."""
    upper = sketch_part(
        "upper", holes={"u0": (10 - wider_mm / 2, 20), "u1": (70 + wider_mm / 2, 20)}
    )
    lower = sketch_part("lower", holes={"l0": (10, 20), "l1": (70, 20)})
    bow = replace(sketch_form("bow", "upper", "lower", route=route), radius_mm=radius_mm,
        angle_deg=None, axis=axis)  # fmt: skip
    forms = (bow,) if under is None else (
        replace(bow, parts=("upper",)), replace(bow, id="under", parts=("lower",), route=under))  # fmt: skip
    parts = (replace(part, thickness_mm=4.0) for part in (upper, lower))
    joints = (sketch_rivet("r0", "u0", "l0"), sketch_rivet("r1", "u1", "l1"))
    (found,) = layer_slides(sketch(*parts, joints=joints, forms=forms))
    return found


@pytest.mark.parametrize(
    ("radius_mm", "way"),
    [(80.0, Way.FLAT), (79.9, Way.DAMP), (40.0, Way.DAMP), (39.9, Way.FIRST), (None, Way.UNTOLD)],
)
def test_by_hand_it_goes_by_the_slide_per_spacing(radius_mm, way):
    assert way_of(slide(radius_mm), USUAL) is way


def test_a_maker_s_own_limits_count():
    own = replace(
        USUAL,
        flat_slide=replace(USUAL.flat_slide, value=3.0),
        damp_slide=replace(USUAL.damp_slide, value=4.0),
    )
    assert way_of(slide(80.0), own) is Way.FIRST


@pytest.mark.parametrize("route", [Route.DAMP, Route.HARDENED, Route.WET_FOLD])
def test_damp_only_the_holes_are_asked(route):
    assert way_of(slide(80.0, route), USUAL) is Way.PUNCHED_AFTER
    assert way_of(slide(481.0, route), USUAL) is Way.PUNCHED_FLAT
    assert way_of(slide(None, route), USUAL) is Way.PUNCHED_AFTER


@pytest.mark.parametrize("route", [Route.DRY, Route.DAMP])
def test_a_row_made_for_the_bent_state_meets_once_bent(route):
    assert way_of(slide(80.0, route, wider_mm=3.0), USUAL) is Way.MADE_BENT


@pytest.mark.parametrize(("route", "way"), [(Route.DRY, Way.FLAT), (Route.DAMP, Way.PUNCHED_FLAT)])
def test_a_row_along_the_bend_passes(route, way):
    assert way_of(slide(5.0, route, axis=((0.0, 20.0), (80.0, 20.0))), USUAL) is way


@pytest.mark.parametrize(
    ("radius_mm", "way"),
    [(80.0, Way.PUNCHED_FLAT), (45.0, Way.PUNCHED_FLAT), (30.0, Way.PUNCHED_AFTER)],
)
def test_curved_by_hand_over_what_was_shaped_damp(radius_mm, way):
    assert way_of(slide(radius_mm, under=Route.DAMP), USUAL) is way
