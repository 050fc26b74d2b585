"""Bends against published rules, worked examples and plain geometry.

Lengths in inches or mm as the sources print them: the formulas know no unit.
"""

from dataclasses import replace
from math import cos, hypot, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.bends.allowance import (
    allowance_mm,
    neutral_of,
    outer_strain_pct,
    setback_mm,
    turn_deg,
)
from armorplan.geometry.bends.formed import bent
from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.bends.slides import layer_slides
from armorplan.geometry.bends.strip import Strip, read_strip
from armorplan.geometry.bends.ways import Way, way_of
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.constants import Constants

NAVY = 0.4475
"""The K in the Navy's and the FAA's rule: 0.0078 / (π / 180) = 0.4469, with 0.01743 R 0.4475."""


@pytest.mark.parametrize("angle_deg", [30.0, 90.0, 135.0])
@pytest.mark.parametrize(("radius", "thick"), [(0.032, 0.05), (0.16, 0.04), (20.0, 3.6)])
def test_the_allowance_against_the_handbook_rule(angle_deg, radius, thick):
    # FAA-H-8083-31, ch. 4, and NAVEDTRA 14018: BA = (0.01743 R + 0.0078 t) × degrees.
    printed = (0.01743 * radius + 0.0078 * thick) * angle_deg
    ours = allowance_mm(angle_deg, radius, thickness_mm=thick, neutral=NAVY)
    assert ours == pytest.approx(printed, rel=0.002)


def test_the_allowance_against_machinery_s_handbook():
    # BA = A (π / 180) (R + K t), as printed in texts citing Machinery's Handbook, 26th ed.
    ours = allowance_mm(72.0, 11.0, thickness_mm=2.5, neutral=0.33)
    assert ours == pytest.approx(72 * pi / 180 * (11 + 0.33 * 2.5), rel=1e-12)


def test_a_part_with_three_right_angles():
    # A sheet-metal workbook's 90° page: t 0.050, R 0.032 in; BA 0.085, setback 2 (t + R) = 0.164,
    # deduction 0.079; flanges .740 + .420 + 1.050 + 1.000 come to 2.973 flat.
    taken = allowance_mm(90, 0.032, thickness_mm=0.05, neutral=NAVY)
    setbacks = 2 * setback_mm(90, 0.032, 0.05)
    assert taken == pytest.approx(0.085, abs=0.001)
    assert setbacks == pytest.approx(0.164, abs=1e-9)
    flat = 0.740 + 0.420 + 1.050 + 1.000 - 3 * (setbacks - taken)
    assert flat == pytest.approx(2.973, abs=0.0015)


def test_a_channel_with_two_right_angles():
    # FAA-H-8083-31, fig. 4-124 (the total from memory, ~3.74 by its table): t 0.040, R 0.160,
    # flanges 1, 2, 1 in; setback 0.200, flats 0.8, 1.6, 0.8; 0.283 each with K = 0.5.
    setback = setback_mm(90, 0.16, 0.04)
    assert setback == pytest.approx(0.2, abs=1e-12)
    flats = (1 - setback, 2 - 2 * setback, 1 - setback)
    assert flats == pytest.approx((0.8, 1.6, 0.8))
    taken = allowance_mm(90, 0.16, thickness_mm=0.04, neutral=0.5)
    assert taken == pytest.approx(0.283, abs=0.0005)
    assert 3.74 <= sum(flats) + 2 * taken <= 3.77


def test_a_profile_bent_to_and_fro():
    # A roll-forming guide: Z of 50, 100, 50 mm outside, t 0.5, R 1, K 0.40: BA 1.88496 each, blank
    # 203.77 mm with its legs counted straight.
    taken = allowance_mm(90, 1.0, thickness_mm=0.5, neutral=0.4)
    assert taken == pytest.approx(1.88496, abs=1e-5)
    assert 50 + 100 + 50 + 2 * taken == pytest.approx(203.77, abs=0.01)


@pytest.mark.parametrize(("thicknesses", "printed_pct"), [(1, 33), (2, 20), (3, 14), (5, 9)])
def test_the_outer_fibre_against_beam_theory(thicknesses, printed_pct):
    # (t/2) / (R + t/2) at radii of whole thicknesses, rounded.
    assert round(outer_strain_pct(thicknesses * 3.2, 3.2)) == printed_pct


@pytest.mark.parametrize("k", [0.0, 0.33, 0.5, 1.0])
def test_k_comes_back_from_a_strip_bent_with_it(k):
    # K = (BA / A - R) / t: bend calculators' help texts, and the same as 3.1 turned round.
    taken = allowance_mm(90, 20, thickness_mm=3.6, neutral=k)
    found = neutral_of(taken, angle_deg=90, radius_mm=20, thickness_mm=3.6)
    assert found == pytest.approx(k, abs=1e-9)


# --- two layers -----------------------------------------------------------------------------------


def cuff(radius_mm, *, places=(0.0, 25.0, 50.0), thickness_mm=4.0, angle_deg=None, wider=0.0):
    """Return two layers of 4 mm, riveted across a bend made dry by hand after the finish."""
    parts = []
    for name, share in (("upper", 1 + wider), ("lower", 1.0)):
        holes = {f"{name}_{at}": (15 + x * share, 20.0) for at, x in enumerate(places)}
        parts.append(replace(sketch_part(name, holes=holes), thickness_mm=thickness_mm))
    return sketch(
        *parts,
        joints=tuple(
            sketch_rivet(f"r{at}", f"upper_{at}", f"lower_{at}") for at in range(len(places))
        ),
        forms=(
            Form(id="bow", kind=FormKind.BEND, parts=("upper", "lower"), route=Route.DRY,
                radius_mm=radius_mm, angle_deg=angle_deg),
        ),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("radius_mm", "pct", "way"),
    [(95.0, 4.2, Way.FLAT), (45.0, 8.9, Way.DAMP), (30.0, 13.3, Way.FIRST)],
)
def test_the_slide_of_two_layers_against_circle_geometry(radius_mm, pct, way):
    # Two arcs about one centre, 4 mm apart: d / R. The limits of 5 and 10 % are common practice,
    # no source.
    (slide,) = layer_slides(cuff(radius_mm))
    assert slide.slide_pct == pytest.approx(pct, abs=0.05)
    # The same from the lengths of two arcs over one angle.
    angle = 25.0 / radius_mm
    assert slide.spacings[0].slide_mm == pytest.approx((radius_mm + 4) * angle - radius_mm * angle)
    assert way_of(slide, Constants()) is way


@pytest.mark.parametrize(("angle_deg", "mm"), [(90.0, 5.03), (120.0, 6.70), (180.0, 10.05)])
def test_the_whole_slide_is_distance_times_angle(angle_deg, mm):
    # Circle geometry: 3.2 mm apart.
    (slide,) = layer_slides(cuff(None, thickness_mm=3.2, angle_deg=angle_deg))
    assert slide.total_mm == pytest.approx(mm, abs=0.005)
    assert slide.total_mm == pytest.approx(3.2 * radians(angle_deg), abs=1e-9)


def slide_measure(pattern):
    return next(m for m in bend_measures(pattern, sketch_shelf()) if "r0" in m.about)


def test_planted_a_tight_cuff_riveted_flat():
    each = slide_measure(cuff(30.0))
    (found,) = each.findings
    assert (found.code, found.severity) == ("bend-before-rivets", Severity.WARNING)
    assert "13 % of their spacing; 10 % is the most" in found.text
    assert found.remedy == (
        "Bend first and punch Upper through Lower then, or space the outer row wider by 3.3 mm each, "
        "6.7 mm in all."
    )
    assert each.verdict == "bend first, or space the outer row wider by 3.3 mm each"


def test_planted_a_wide_plate():
    each = slide_measure(cuff(95.0))
    assert (each.verdict, each.findings) == ("rivet flat, then bend", ())
    assert "4.2 % of the spacing" in each.text


def test_between_the_two_it_is_bent_damp_or_its_holes_are_oval():
    each = slide_measure(cuff(45.0))
    (found,) = each.findings
    assert (found.code, found.severity) == ("bend-damp-or-oval", Severity.NOTE)
    # In all 50 · 4 / 45 = 4.4 mm: with the middle hole in place, half of it at either end.
    assert each.verdict == "bend it damp, or make the outer holes oval by 2.2 mm"
    assert found.remedy == f"{each.verdict.capitalize()} at the ends of the row."


def test_holes_are_not_made_oval_beyond_two_of_their_diameters():
    # 17 spacings of 10 mm: 15.1 mm in all, 7.6 at the ends, and 3.5 mm holes give 7 (common
    # practice, no source).
    each = slide_measure(cuff(45.0, places=tuple(10.0 * at for at in range(18))))
    assert each.verdict == "bend it damp"
    assert [f.remedy for f in each.findings] == ["Bend it damp."]


def test_a_cuff_whose_outer_row_is_wider_is_punched_flat_and_sound():
    each = slide_measure(cuff(30.0, wider=4 / 30))
    assert each.findings == ()
    assert each.verdict == "punch flat, bend both, then rivet"


# --- a frustum ------------------------------------------------------------------------------------


def test_a_frustum_plate_develops_to_its_area():
    # Solid geometry: h 300, R 90, r 60: slant 301.496, arcs 904.489 and 602.993 mm, 35.8213°, area
    # π (R + r) s = 142,076.77 mm², here measured by shapely on the developed outline.
    from shapely import Polygon

    slant = hypot(300.0, 90.0 - 60.0)
    outer, inner = 90 * slant / 30, 60 * slant / 30
    angle = 2 * pi * 30 / slant
    assert (slant, outer, inner) == pytest.approx((301.496, 904.489, 602.993), abs=5e-4)
    assert angle * 180 / pi == pytest.approx(35.8213, abs=5e-5)
    turns = [angle * step / 20_000 for step in range(20_001)]
    rim = [(outer * cos(turn), outer * sin(turn)) for turn in turns]
    foot = [(inner * cos(turn), inner * sin(turn)) for turn in reversed(turns)]
    area = Polygon([*rim, *foot]).area
    assert area == pytest.approx(pi * 150 * slant, rel=1e-6)
    assert area == pytest.approx(142_076.77, rel=1e-6)
    assert ring_area_mm2((*rim, *foot)) == pytest.approx(area, rel=1e-9)
    # A plate of no thickness, as wide as the girth, closes to a full turn at either end.
    for radius, arc in ((90.0, outer * angle), (60.0, inner * angle)):
        assert turn_deg(arc, radius, thickness_mm=0.0, neutral=0.5) == pytest.approx(360.0)


# --- laws -----------------------------------------------------------------------------------------

RADII = st.floats(5.0, 500.0)
THICK = st.floats(0.5, 12.0)
ANGLES = st.floats(1.0, 180.0)
KS = st.floats(0.0, 1.0)
LEGS = st.floats(1.0, 300.0)


@given(RADII, st.floats(1.01, 5.0), THICK)
def test_the_slide_falls_as_the_radius_grows(radius_mm, times, thickness_mm):
    (tight,) = layer_slides(cuff(radius_mm, thickness_mm=thickness_mm))
    (wide,) = layer_slides(cuff(radius_mm * times, thickness_mm=thickness_mm))
    assert wide.slide_pct < tight.slide_pct
    assert wide.total_mm < tight.total_mm


@given(
    RADII, THICK, st.one_of(st.none(), ANGLES), st.lists(st.floats(0, 60), min_size=2, max_size=8)
)
def test_the_whole_slide_is_never_more_than_its_spacings_together(
    radius_mm, thick_mm, angle, places
):
    (slide,) = layer_slides(cuff(radius_mm, thickness_mm=thick_mm, angle_deg=angle, places=places))
    together = sum(s.slide_mm for s in slide.spacings)
    assert slide.total_mm >= 0
    if slide.spacings and len(slide.spacings) == len(slide.joints) - 1:
        assert slide.total_mm <= together + 1e-9


@given(ANGLES, ANGLES, RADII, THICK, KS)
def test_two_bends_on_end_take_what_one_of_both_angles_takes(one, other, radius_mm, thick_mm, k):
    taken = [
        allowance_mm(a, radius_mm, thickness_mm=thick_mm, neutral=k)
        for a in (one, other, one + other)
    ]
    assert taken[0] + taken[1] == pytest.approx(taken[2])


@given(RADII, THICK, ANGLES, KS, st.tuples(LEGS, LEGS), st.booleans())
def test_k_comes_back_whatever_the_strip(radius_mm, thick_mm, angle, k, legs, outside):
    one, other = legs
    taken = allowance_mm(angle, radius_mm, thickness_mm=thick_mm, neutral=k)
    past = setback_mm(angle, radius_mm, thick_mm) if outside and angle < 175 else None
    strip = Strip(
        flat_mm=one + other + taken,
        legs_mm=(one + (past or 0.0), other + (past or 0.0)),
        radius_mm=radius_mm,
        angle_deg=angle,
        thickness_mm=thick_mm,
        outside=past is not None,
    )
    result = read_strip(strip)
    if result.finding is None:
        assert result.neutral == pytest.approx(k, abs=0.001)
    else:  # at K of 0 or 1 the last digit of a float may fall outside
        assert min(abs(k), abs(1 - k)) < 1e-3


@given(st.floats(3.0, 30.0), st.floats(10.0, 170.0), KS, st.floats(0.3, 0.7))
def test_flat_legs_and_bend_make_up_the_part_and_its_size_bent(radius_mm, angle, k, at):
    part = sketch_part("plate")
    x = 80 * at
    form = Form(id="f", kind=FormKind.BEND, parts=("plate",), route=Route.DAMP,
        radius_mm=radius_mm, angle_deg=angle, axis=((x, 0.0), (x, 40.0)))  # fmt: skip
    found = bent(form, part, k, form.axis)
    wide, deep, high = found.formed_mm
    if min(found.legs_mm) > 0:
        assert sum(found.legs_mm) + found.allowance_mm == pytest.approx(80.0)
        # Both legs end where two straight lines and an arc end: no further off than flat.
        assert hypot(wide, deep) <= 80 + 2 * part.thickness_mm + 1e-6
        assert deep >= part.thickness_mm
    assert high == pytest.approx(40.0)
