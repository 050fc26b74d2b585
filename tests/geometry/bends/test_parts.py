"""One part in a bend: radii below practice, what it takes, how large it becomes."""

from dataclasses import replace
from math import cos, pi, radians, sin

import pytest

from armorplan.geometry.bends.allowance import outer_strain_pct
from armorplan.geometry.bends.axes import bend_axes
from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.pattern.parts import PartKind
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet
from armorplan.workshop.constants import Constants
from armorplan.workshop.shelf import Leather

SHELF = sketch_shelf()
PLATE = sketch_part("plate")
"""80 × 40 mm, 3.6 mm thick."""
STRAP = sketch_part("strap", kind=PartKind.STRAP)
MIDDLE = ((40.0, -5.0), (40.0, 45.0))


def measure(part=PLATE, shelf=SHELF, **form):
    shaped = Form(id="f", parts=(part.id,), **form)
    (each,) = bend_measures(sketch(part, forms=(shaped,)), shelf)
    return each


def found(part, **form):
    return [finding.code for finding in measure(part, **form).findings]


def bend(radius_mm, route=Route.DRY, kind=FormKind.BEND):
    return {"kind": kind, "route": route, "radius_mm": radius_mm}


def figure(each, name):
    return next(f for f in each.figures if f.name == name)


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
    (measure,) = bend_measures(sketch(PLATE, forms=(form,)), SHELF)
    (note,) = measure.findings
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
    assert measure(**bend(None)).verdict == "no radius said"


def test_a_maker_s_own_least_radius_counts():
    own = replace(Constants().dry_radius, value=5.0)
    shelf = replace(SHELF, constants=Constants(dry_radius=own))
    assert [f.code for f in measure(shelf=shelf, **bend(17.9)).findings] == ["bend-too-tight"]
    assert measure(shelf=shelf, **bend(18.0)).findings == ()


def test_a_bend_across_its_middle_tells_the_size_flat_and_bent():
    # BA = π / 2 · (20 + 0.5 · 3.6) = 34.24 mm; bent by 90° it is as wide as its chord is long.
    each = measure(**bend(20.0), angle_deg=90.0, axis=MIDDLE)
    taken_mm = pi / 2 * 21.8
    assert figure(each, "the bend takes").value == pytest.approx(taken_mm)
    assert figure(each, "first leg stays straight").value == pytest.approx(40 - taken_mm / 2)
    wide_mm = 2 * (23.6 + 40 - taken_mm / 2) / 2**0.5
    assert figure(each, "bent, wide").value == pytest.approx(wide_mm)
    assert figure(each, "bent, high").value == pytest.approx(40.0)


def test_the_strip_that_bends_is_marked_with_the_verdict():
    each = measure(**bend(20.0), angle_deg=90.0, axis=MIDDLE)
    zone = next(m for m in each.marks if m.kind is MarkKind.ZONE)
    half_mm = pi / 4 * 21.8
    xs = sorted(x for x, _ in zone.spots)
    assert (xs[0], xs[-1]) == pytest.approx((40 - half_mm, 40 + half_mm))
    assert zone.label == each.verdict
    line = next(m for m in each.marks if m.kind is MarkKind.LINE)
    assert sorted(y for _, y in line.spots) == pytest.approx([0.0, 40.0])


def test_without_an_angle_all_of_the_part_is_bent():
    each = measure(**bend(20.0), axis=MIDDLE)
    assert figure(each, "the bend takes").value == pytest.approx(80.0)


def test_a_bend_that_takes_more_than_the_part_has():
    each = measure(**bend(60.0), angle_deg=180.0, axis=MIDDLE)
    (found_,) = each.findings
    assert (found_.code, found_.severity) == ("bend-longer-than-part", Severity.WARNING)
    assert "takes 194 mm" in found_.text
    assert "it is 80 mm" in found_.text


@pytest.mark.parametrize(
    "axis", [((100.0, 0.0), (100.0, 40.0)), ((40.0, 60.0), (40.0, 90.0))], ids=["beside", "below"]
)
def test_an_axis_that_lies_beside_the_part(axis):
    each = measure(**bend(20.0), angle_deg=90.0, axis=axis)
    assert [f.code for f in each.findings] == ["bend-outside-part"]
    assert each.marks == ()


def test_an_axis_over_one_part_of_a_form_is_told_against_none():
    other = replace(PLATE, id="other", outline=tuple((x + 200, y) for x, y in PLATE.outline))
    form = Form(id="f", parts=("plate", "other"), angle_deg=90.0, axis=MIDDLE, **bend(20.0))
    each = tuple(bend_measures(sketch(PLATE, other, forms=(form,)), SHELF))
    assert [m.findings for m in each] == [(), ()]


def test_a_leather_with_a_test_strip_of_its_own_takes_its_own_length():
    own = Leather(id="shell", name="Shell", usual_mm=(3.0, 4.0), source="own strip", neutral=0.4)
    each = measure(shelf=replace(SHELF, leathers=(own,)), **bend(20.0), angle_deg=90.0)
    assert figure(each, "the bend takes").value == pytest.approx(pi / 2 * (20 + 0.4 * 3.6))
    assert (
        figure(each, "K, where a bend keeps its length, from the inside").source
        == "Shell: own strip"
    )


@pytest.mark.parametrize("radius_mm", [0.0, 1e-9, 10_000.0])
@pytest.mark.parametrize("angle_deg", [None, 0.0, 720.0])
@pytest.mark.parametrize("thickness_mm", [0.0, 30.0])
@pytest.mark.parametrize("outline", [PLATE.outline, PLATE.outline[:2], ()], ids=len)
def test_absurd_numbers_end_nothing(radius_mm, angle_deg, thickness_mm, outline):
    part = replace(PLATE, thickness_mm=thickness_mm, outline=outline)
    each = measure(part, **bend(radius_mm), angle_deg=angle_deg, axis=MIDDLE)
    assert each.text


def test_a_bend_over_two_arms_of_a_part_is_marked_on_both():
    forked = replace(PLATE, outline=((0, 0), (80, 0), (80, 10), (20, 10), (20, 30), (80, 30),
        (80, 40), (0, 40)))  # fmt: skip
    each = measure(forked, **bend(10.0), angle_deg=90.0, axis=MIDDLE)
    zones = [m for m in each.marks if m.kind is MarkKind.ZONE]
    assert sorted(min(y for _, y in zone.spots) for zone in zones) == pytest.approx([0.0, 30.0])


@pytest.mark.parametrize("angle_deg", [10.0, 90.0, 150.0, 180.0])
@pytest.mark.parametrize("at_mm", [25.0, 40.0])
def test_the_size_bent_is_what_its_formula_says(angle_deg, at_mm):
    each = measure(**bend(8.0), angle_deg=angle_deg, axis=((at_mm, 0.0), (at_mm, 40.0)))
    legs = [figure(each, f"{n} leg stays straight").value for n in ("first", "second")]
    half = radians(angle_deg / 2)
    wide_mm = 2 * (8 + 3.6) * sin(half) + sum(legs) * cos(half)
    deep_mm = 8 + 3.6 - 8 * cos(half) + max(legs) * sin(half)
    assert figure(each, "bent, wide").value == pytest.approx(wide_mm, rel=1e-3)
    assert figure(each, "bent, deep").value == pytest.approx(deep_mm, rel=1e-3)
    assert f"= {deep_mm:.1f} mm" in figure(each, "bent, deep").formula


def on_each_other(turn_deg=0.0, miss_mm=0.0):
    """Return a plate with an axis, and one drawn elsewhere, turned, that is riveted to it."""
    turn = radians(turn_deg)

    def there(spot):
        x, y = spot
        return 300 + x * cos(turn) - y * sin(turn), 200 + x * sin(turn) + y * cos(turn)

    spots = ((10.0, 20.0), (70.0, 20.0), (40.0, 30.0))
    lower = sketch_part("lower", holes={f"l{n}": spot for n, spot in enumerate(spots)})
    moved = ((10.0, 20.0), (70.0, 20.0), (40.0, 30.0 + miss_mm))
    upper = sketch_part("upper", holes={f"u{n}": there(spot) for n, spot in enumerate(moved)})
    upper = replace(upper, outline=tuple(map(there, upper.outline)))
    form = Form(id="f", parts=("upper", "lower"), angle_deg=90.0, axis=MIDDLE, **bend(20.0))
    joints = tuple(sketch_rivet(f"r{n}", f"u{n}", f"l{n}") for n in range(3))
    return sketch(upper, lower, joints=joints, forms=(form,)), there


@pytest.mark.parametrize("turn_deg", [0.0, 35.0, 180.0])
def test_an_axis_is_carried_to_the_part_riveted_on_it(turn_deg):
    pattern, there = on_each_other(turn_deg)
    axis = bend_axes(pattern)["f", "upper"]
    assert [*axis[0], *axis[1]] == pytest.approx([*there(MIDDLE[0]), *there(MIDDLE[1])])
    sizes = [m for m in bend_measures(pattern, SHELF) if m.id == "bends:f:upper"]
    assert figure(sizes[0], "flat, across the axis").value == pytest.approx(80.0)


def test_rows_that_do_not_meet_carry_no_axis():
    pattern, _ = on_each_other(miss_mm=40.0)
    assert ("f", "upper") not in bend_axes(pattern)


def test_parts_that_nothing_joins_carry_no_axis():
    pattern, _ = on_each_other()
    assert list(bend_axes(replace(pattern, joints=()))) == [("f", "lower")]


def test_an_outer_layer_goes_round_what_lies_under_it():
    pattern, _ = on_each_other()
    found_ = {m.id: m for m in bend_measures(pattern, SHELF)}
    under, over = found_["bends:f:lower"], found_["bends:f:upper"]
    assert figure(under, "the bend takes").value == pytest.approx(pi / 2 * (20 + 1.8))
    assert figure(over, "the bend takes").value == pytest.approx(pi / 2 * (23.6 + 1.8))
    slide = found_["bends:f:upper:lower"]
    total_mm = figure(slide, "slide in all").value
    taken_mm = [figure(each, "the bend takes").value for each in (over, under)]
    assert taken_mm[0] - taken_mm[1] == pytest.approx(pi / 2 * 3.6)
    assert total_mm <= taken_mm[0] - taken_mm[1] + 1e-9


def test_layers_with_a_form_each_have_the_radius_that_is_written():
    pattern, _ = on_each_other()
    alone = replace(pattern.forms[0], parts=("upper",))
    (each,) = (m for m in bend_measures(replace(pattern, forms=(alone,)), SHELF))
    assert figure(each, "the bend takes").value == pytest.approx(pi / 2 * (20 + 1.8))
