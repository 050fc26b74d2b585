"""Baths: uptake, fill, minutes, both ways; one bath for both sides; what formed parts do to it."""

from dataclasses import replace
from math import cos, pi, radians

import pytest
from geometry.leather_sketches import pattern
from needs.needs_sketches import DYE, TRAY, built, plate, shelf

from armorplan.assembly.model import Side
from armorplan.needs.liquids import liquid_needs
from armorplan.needs.lying import arch_mm
from armorplan.pattern.joining import Applying, Form, FormKind, Route, Treatment
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.shelf import TreatmentKind

COLOUR = Treatment(id="colour", use="dye", parts=("plate",), colour="blue", coats=2)
NO_STEPS = Work(steps=())
BEND = Form(
    id="bend",
    kind=FormKind.BEND,
    parts=("plate",),
    route=Route.DAMP,
    radius_mm=60.0,
    angle_deg=180.0,
)


def liquids(*treatments, work=NO_STEPS, forms=(), tray=TRAY, mirrored=False, parts=()):
    made = pattern(*(parts or (plate(),)), treatments=treatments)
    assembly = built(replace(made, forms=forms), mirrored=mirrored)
    return liquid_needs(assembly, work, shelf(), tray)


def test_wiped_and_dipped_stand_side_by_side():
    (need,) = liquids(COLOUR)
    # 2 dm², two coats: both faces wiped at 1.5 ml; dipped at 6 ml, faces and edges together.
    assert need.wiped.uptake_ml == pytest.approx(2 * 2 * 2 * 1.5)
    assert need.dipped.uptake_ml == pytest.approx(2 * 2 * 6.0)
    assert need.wiped.ready_ml == need.wiped.uptake_ml
    # 500 × 300 mm, 3.2 mm of leather and 10 mm over it.
    assert need.dipped.fill_ml == pytest.approx(500 * 300 * 13.2 / 1000)
    assert need.dipped.ready_ml == pytest.approx(need.dipped.fill_ml + need.dipped.uptake_ml)
    # One setting up of 8 min for each coat, then each part.
    assert (need.wiped.minutes, need.dipped.minutes) == (2 * 8 + 5, 2 * 8 + 3)


def test_the_way_of_the_pattern_is_marked_and_its_cost_counted():
    (wiped,) = liquids(COLOUR)
    (dipped,) = liquids(replace(COLOUR, applying=Applying.DIP))
    assert (wiped.says, dipped.says) == ((Applying.WIPE,), (Applying.DIP,))
    assert wiped.counted.cost == pytest.approx(20 * 12 / 1000)
    assert dipped.counted.cost == pytest.approx(20 * (1980 + 24) / 1000)


def test_both_sides_and_two_treatments_of_one_colour_share_a_bath():
    again = replace(COLOUR, id="again", parts=("other",), coats=1)
    (need,) = liquids(COLOUR, again, mirrored=True, parts=(plate(), plate("other")))
    assert (need.parts, need.coats, need.area_dm2) == (4, 2, pytest.approx(8.0))
    assert need.dipped.uptake_ml == pytest.approx((2 * 4.0 + 1 * 4.0) * 6.0)
    assert need.dipped.fill_ml == pytest.approx(500 * 300 * 13.2 / 1000)


def test_another_colour_is_another_bath():
    blue, black = liquids(COLOUR, replace(COLOUR, id="second", colour="black"))
    assert (blue.colour, black.colour) == ("blue", "black")


def test_a_part_cut_several_times_is_dyed_several_times():
    (need,) = liquids(COLOUR, parts=(replace(plate(), count=3),))
    assert (need.parts, need.wiped.uptake_ml) == (3, pytest.approx(3 * 12.0))


def test_what_the_catalogue_does_not_know_is_not_known_and_not_nought():
    (need,) = liquids(replace(COLOUR, use="oil", colour=None))
    assert (need.dipped.uptake_ml, need.dipped.ready_ml, need.dipped.minutes) == (None,) * 3
    assert (need.wiped.uptake_ml, need.wiped.cost) == (pytest.approx(2 * 2 * 1.5), None)


def test_what_can_only_be_dipped_is_counted_dipped():
    soak = replace(DYE, id="soak", kind=TreatmentKind.HARDENER, wipe_ml_per_dm2=0.0)
    on = replace(shelf(), treatments=(soak,))
    made = pattern(plate(), treatments=(replace(COLOUR, use="soak"),))
    (need,) = liquid_needs(built(made), NO_STEPS, on, TRAY)
    assert not need.is_known(need.wiped)
    assert need.counted is need.dipped


def test_a_shelf_without_uptakes_still_tells_the_minutes():
    on = replace(shelf(), treatments=(replace(DYE, wipe_ml_per_dm2=0.0, dip_ml_per_dm2=0.0),))
    (need,) = liquid_needs(built(pattern(plate(), treatments=(COLOUR,))), NO_STEPS, on, TRAY)
    assert need.is_known(need.wiped)
    assert (need.wiped.uptake_ml, need.wiped.minutes) == (None, 21)


def test_casing_comes_from_the_steps_and_lies_flat():
    step = Step(
        id="case",
        kind=StepKind.CASE,
        piece="piece",
        side=Side.SINGLE,
        title="Case",
        tray="tray",
        parts=("plate",),
        minutes=6,
        treatment="water",
    )
    (need,) = liquids(work=Work(steps=(step,)), forms=(BEND,))
    assert (need.name, need.is_bought, need.says) == ("Water", False, ())
    assert need.lying_mm == pytest.approx(3.2)


def test_a_half_round_stands_as_high_as_its_radius():
    (need,) = liquids(COLOUR, forms=(BEND,))
    assert need.lying_mm == pytest.approx(63.2)
    assert not need.overfull


def test_a_bend_by_hand_comes_after_the_dye():
    (need,) = liquids(COLOUR, forms=(replace(BEND, route=Route.DRY),))
    assert need.lying_mm == pytest.approx(3.2)


def test_a_bend_without_its_angle_is_counted_flat_and_told():
    (need,) = liquids(COLOUR, forms=(replace(BEND, angle_deg=None),))
    assert (need.lying_mm, need.counted_flat) == (pytest.approx(3.2), ("plate",))


def test_what_does_not_go_into_the_tray_is_told():
    small = replace(TRAY, length_mm=150.0, width_mm=120.0, depth_mm=10.0)
    (need,) = liquids(COLOUR, tray=small)
    assert (need.over_tray, need.overfull) == (("plate",), True)


@pytest.mark.parametrize(
    ("angle_deg", "height_mm"),
    [
        (0.0, 3.0),
        (90.0, 103.0 - 100.0 * cos(radians(45))),
        (180.0, 103.0),
        (360.0, 206.0),
    ],
)
def test_an_arch_stands_on_its_edges(angle_deg, height_mm):
    assert arch_mm(100.0, angle_deg, 3.0) == pytest.approx(height_mm)


def test_a_nearly_flat_arch_rises_as_the_circle_does():
    # Sagitta of a chord c on radius r is c²/(8r) for small angles, the first term of its series.
    chord_mm, radius_mm = 50.0, 1000.0
    angle_deg = chord_mm / radius_mm * 180 / pi
    assert arch_mm(radius_mm, angle_deg, 0.0) == pytest.approx(
        chord_mm**2 / (8 * radius_mm), rel=1e-3
    )
