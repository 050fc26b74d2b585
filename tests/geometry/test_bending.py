"""Radii below practice, straps across the backbone, tooling on the hidden side."""

from dataclasses import replace

import pytest

from armorplan.geometry.bending import bending_findings, long_side_deg, outer_strain_pct
from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.rules.sketches import sketch, sketch_part

PLATE = sketch_part("plate")
STRAP = replace(sketch_part("strap", kind=PartKind.STRAP))


def found(part, **form):
    forms = (Form(id="f", parts=(part.id,), **form),) if form else ()
    return [f.code for f in bending_findings(sketch(part, forms=forms))]


def bend(radius_mm, route=Route.DRY, kind=FormKind.BEND):
    return {"kind": kind, "route": route, "radius_mm": radius_mm}


@pytest.mark.parametrize(("thicknesses", "printed_pct"), [(1, 33), (2, 20), (3, 14), (5, 9)])
def test_the_outer_fibre_against_beam_theory(thicknesses, printed_pct):
    # Strain of the outer fibre (t/2) / (R + t/2) at radii of whole thicknesses, rounded.
    assert round(outer_strain_pct(thicknesses * 3.2, 3.2)) == printed_pct


@pytest.mark.parametrize(
    ("route", "least_mm"),
    [
        (Route.DRY, 10.8),
        (Route.BY_SEAM, 10.8),
        (Route.DAMP, 3.6),
        (Route.HARDENED, 3.6),
        (Route.WET_FOLD, 3.6),
    ],
)
def test_dry_leather_wants_three_thicknesses_and_damp_leather_one(route, least_mm):
    assert found(PLATE, **bend(least_mm, route)) == []
    assert found(PLATE, **bend(least_mm - 0.1, route)) == ["bend-too-tight"]


def test_the_note_has_the_numbers_in_it():
    form = Form(id="f", parts=("plate",), **bend(3.6))
    (note,) = bending_findings(sketch(PLATE, forms=(form,)))
    assert "3.6 mm thick, dry to a radius of 3.6 mm; 10.8 mm is the least" in note.text
    assert "33 %" in note.text
    assert note.about == ("f", "plate")


def test_what_is_skived_bends_as_half_its_thickness():
    assert found(replace(PLATE, skived=True), **bend(5.4)) == []
    assert found(replace(PLATE, skived=True), **bend(5.3)) == ["bend-too-tight"]


def test_a_strap_is_folded_tight_as_a_matter_of_course():
    assert found(STRAP, **bend(4.0, kind=FormKind.FOLD)) == []
    assert found(STRAP, **bend(4.0)) == ["bend-too-tight"]


def test_no_radius_no_note():
    assert found(PLATE, **bend(None)) == []


@pytest.mark.parametrize(("backbone_deg", "noted"), [(0, False), (30, False), (31, True),
    (90, True), (149, True), (150, False), (180, False), (270, True)])  # fmt: skip
def test_a_strap_lies_along_the_backbone(backbone_deg, noted):
    assert bool(found(replace(STRAP, backbone_deg=float(backbone_deg)))) is noted


def test_only_straps_and_only_where_the_backbone_is_said():
    assert found(STRAP) == []
    assert found(replace(PLATE, backbone_deg=90.0)) == []


def test_the_long_side_counts_up_the_page():
    # y runs down the drawing: this outline rises to the right.
    rising = ((0.0, 0.0), (100.0, -100.0), (107.0, -93.0), (7.0, 7.0))
    assert long_side_deg(replace(STRAP, outline=rising)) == pytest.approx(45.0)
    assert long_side_deg(STRAP) == pytest.approx(0.0)
    square = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
    assert long_side_deg(replace(STRAP, outline=square)) is None
    assert long_side_deg(replace(STRAP, outline=((0.0, 0.0), (40.0, 0.0)))) is None


@pytest.mark.parametrize("grain_out", [True, False])
def test_tooling_that_nobody_sees(grain_out):
    codes = found(replace(PLATE, tooling="rope", grain_out=grain_out))
    assert codes == ([] if grain_out else ["tooling-faces-inward"])
