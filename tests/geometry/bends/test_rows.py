"""Layers in a bend: rows longer for the bent state, ends that fall back, holes that part as told."""

from dataclasses import replace
from math import radians

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.desktop.shapes_bending import slide_mm
from armorplan.geometry.bends.measuring import bend_measures
from armorplan.geometry.bends.slides import layer_slides
from armorplan.geometry.bends.ways import Way
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Motion, Route
from armorplan.pattern.parts import PartKind

XS = (20.0, 50.0, 80.0, 110.0)
MIDDLE_MM = 65.0


def two_rows(names, *, wider=1.0, route=Route.DRY, radius_mm=40.0, inside=False, apart_mm=200.0):
    """Return layers of 3.2 mm in two rows across a bend; the outer rows longer by so much of d·θ."""
    share = 1 + wider * 3.2 / radius_mm
    turned = -1 if inside else 1
    on_inner, on_outer, joints = {}, {}, []
    for row, y in enumerate((20.0, 20.0 + apart_mm)):
        for at, x in enumerate(XS):
            on_inner[f"i{row}{at}"] = (x, y)
            on_outer[f"o{row}{at}"] = (turned * (MIDDLE_MM + (x - MIDDLE_MM) * share), y)
            joints.append(rivet(names[row][at], f"o{row}{at}", f"i{row}{at}"))
    edge = box(150.0, apart_mm + 40.0, (-10.0, 0.0))
    outer = part("outer", tuple((turned * x, y) for x, y in edge), on_outer)
    layers = (replace(outer, drawn_from_inside=inside), part("inner", edge, on_inner))
    axis = ((MIDDLE_MM, -5.0), (MIDDLE_MM, apart_mm + 50.0))
    form = Form(id="round", kind=FormKind.BEND, parts=("outer", "inner"), route=route,
        radius_mm=radius_mm, angle_deg=180.0, axis=axis)  # fmt: skip
    return replace(pattern(*layers, joints=tuple(joints)), forms=(form,))


BY_ROW = (("a0", "a1", "a2", "a3"), ("b0", "b1", "b2", "b3"))
CROSSWISE = (("a0", "a1", "a2", "b3"), ("b0", "b1", "b2", "a3"))


def of_layers(sketch):
    return next(m for m in bend_measures(sketch, shelf()) if m.id == "bends:round:outer:inner")


@pytest.mark.parametrize("inside", [False, True])
@pytest.mark.parametrize("names", [BY_ROW, CROSSWISE])
def test_how_much_longer_a_row_is_depends_neither_on_names_nor_on_the_face_it_is_drawn_from(
    names, inside
):
    """Two arcs about one centre: 90 mm · 3.2 / 40 = 7.2 mm (circle geometry)."""
    sketch = two_rows(names, inside=inside)
    (slide,) = layer_slides(sketch)
    assert slide.total_mm == pytest.approx(7.2)
    assert slide.wider_mm == pytest.approx(7.2)
    found = of_layers(sketch)
    assert (found.verdict, found.findings) == (Way.MADE_BENT, ())
    assert "is drawn 7.2 mm longer" in found.text
    assert slide_mm(found.picture) == pytest.approx(0.0, abs=1e-9)


def test_the_picture_parts_the_holes_by_what_is_told():
    found = of_layers(two_rows(BY_ROW, wider=0.0))
    told = next(f for f in found.figures if f.name.startswith("holes at the ends are out"))
    assert told.value == pytest.approx(3.6)
    assert slide_mm(found.picture) == pytest.approx(told.value)


def test_an_outer_layer_punched_through_falls_back_by_half_of_the_slide():
    """R 40, 3.2 mm layers: 7.2 mm in all. The end holes lie 30 mm from the edge flat."""
    found = of_layers(two_rows(BY_ROW, wider=0.0, route=Route.DAMP))
    assert found.findings == ()
    assert "each end of outer falls 3.6 mm back on inner" in found.text
    assert "comes to lie 26.4 mm from the edge: draw outer 7.2 mm longer" in found.text


@pytest.mark.parametrize(("spare_mm", "told"), [(13.0, False), (10.5, True), (3.0, False)])
def test_an_end_hole_that_bending_brings_too_near_its_edge_is_told(spare_mm, told):
    """1.5 × 6.4 mm asks for 8 mm at most; what is too near flat already is the drawing's fault."""
    sketch = two_rows(BY_ROW, wider=0.0, route=Route.DAMP)
    outer, inner = sketch.parts
    edge = box(90.0 + 2 * spare_mm, 240.0, (20.0 - spare_mm, 0.0))
    found = of_layers(replace(sketch, parts=(replace(outer, outline=edge), inner)))
    codes = [(each.code, each.severity) for each in found.findings]
    assert codes == ([("hole-near-edge", Severity.WARNING)] if told else [])
    if told:
        assert f"then lies {spare_mm - 3.6:.1f} mm from its edge; 8.0 mm is the least" in (
            found.findings[0].text
        )
        assert found.findings[0].remedy == "Draw outer 7.2 mm longer."


def test_lames_on_two_pivots_are_told_of_as_lames():
    sketch = two_rows(BY_ROW, wider=0.0, route=Route.DAMP)
    ends = [j for j in sketch.joints if j.id in ("a0", "a3")]
    turning = tuple(replace(joint, motion=Motion.TURNING) for joint in ends)
    for joints, said in ((tuple(ends), True), (turning, False)):
        ids = [m.id for m in bend_measures(replace(sketch, joints=joints), shelf())]
        assert ("bends:round:outer:inner" in ids) is said


def test_radii_are_told_to_a_tenth():
    sketch = two_rows(BY_ROW, wider=0.0, radius_mm=78.17512)
    found = tuple(bend_measures(sketch, shelf()))
    words = " ".join(f"{m.title} {m.text} {[f.formula for f in m.figures]}" for m in found)
    assert "78.2" in words
    assert "78.17" not in words
    assert found[0].figures[2].value == pytest.approx(3.2 / 78.17512 * 30, abs=0.01)


def test_limits_stand_in_the_formula_and_are_no_figures_of_their_own():
    found = of_layers(two_rows(BY_ROW, wider=0.0, radius_mm=95.0))
    names = [figure.name for figure in found.figures]
    assert len(set(names)) == len(names) == 5
    assert "up to 5 % is riveted flat" in found.figures[1].formula
    assert radians(180) * 95 > 90, "all of the row lies in the bend"
    assert (
        "d · row / R = 3.20 · 90.0 / 95 = 3.03 mm by the inner radius; by the middle of inner, 96.6 "
        "mm, it is 2.98 mm" in found.figures[3].formula
    )


@pytest.mark.parametrize("radius_mm", [95.0, 45.0, 30.0])
def test_a_row_that_is_longer_by_half_is_told_to_be_neither(radius_mm):
    found = of_layers(two_rows(BY_ROW, wider=0.5, radius_mm=radius_mm))
    (slide,) = layer_slides(two_rows(BY_ROW, wider=0.5, radius_mm=radius_mm))
    assert found.verdict != Way.MADE_BENT
    assert (
        f"is drawn {slide.total_mm / 2:.1f} mm longer; for the bent state it would have to be "
        f"{slide.total_mm:.1f} mm longer."
    ) in found.text


def test_without_an_axis_the_picture_knows_no_size_either():
    sketch = two_rows(BY_ROW, wider=0.0)
    bare = replace(sketch, forms=(replace(sketch.forms[0], axis=None),))
    for each, known in ((sketch, True), (bare, False)):
        found = next(m for m in bend_measures(each, shelf()) if m.id == "bends:round:inner")
        assert found.picture.legs_known is known
        assert ("its size once bent is not known" in found.text) is not known


def test_of_two_bends_title_text_and_picture_tell_the_radius_of_the_inner_one():
    sketch = two_rows(BY_ROW, wider=0.0)
    own = replace(sketch.forms[0], id="over", parts=("outer",), radius_mm=43.2)
    forms = (own, replace(sketch.forms[0], parts=("inner",)))
    found = next(iter(bend_measures(replace(sketch, forms=forms), shelf())))
    assert found.title == "outer on inner, bent to 40 mm, 180°"
    assert "when both are bent to 40 mm" in found.text
    assert found.picture.radius_mm == 40.0


def test_without_an_angle_seam_and_part_are_drawn_bent_as_far():
    sketch = two_rows(BY_ROW, wider=0.0)
    bare = replace(sketch, forms=(replace(sketch.forms[0], angle_deg=None),))
    found = {m.id: m.picture for m in bend_measures(bare, shelf())}
    seam, inner = found["bends:round:outer:inner"], found["bends:round:inner"]
    assert (seam.angle_deg, seam.legs_mm) == (inner.angle_deg, inner.legs_mm)


@pytest.mark.parametrize("share", [0.5, 0.6, 0.76, 1.0])
def test_a_row_evenly_longer_over_a_bend_of_part_of_it_is_not_made_for_the_bent_state(share):
    """R 10 and 90° take 15.7 mm about the middle; only the spacing from 50 to 80 mm lies in it."""
    sketch = two_rows(BY_ROW, wider=share * 15.7 / 90 * 1.0, radius_mm=10.0)
    quarter = replace(sketch, forms=(replace(sketch.forms[0], angle_deg=90.0),))
    (slide,) = layer_slides(quarter)
    asked = [each.slide_mm for each in slide.spacings]
    assert asked == pytest.approx([0.0, 3.2 * radians(90), 0.0])
    assert sum(each.longer_mm for each in slide.spacings) == pytest.approx(
        share * 3.2 * radians(90), rel=0.01
    )
    found = of_layers(quarter)
    assert found.verdict.startswith("bend first")
    assert [f.code for f in found.findings] == ["bend-before-rivets"]
    if share > 0.75:
        assert (
            f"from 'a1' to 'a2' it is {share * 1.68:.1f} mm longer where the bend asks for 5.0 mm"
            in found.text
        )


@pytest.mark.parametrize("inside", [False, True])
def test_in_the_picture_the_ends_of_the_outer_layer_fall_back_as_far_as_is_told(inside):
    """3.2 mm · π / 2 each: d times half the angle, where all of the bend lies within the part."""
    sketch = two_rows(BY_ROW, wider=0.0, route=Route.DAMP, inside=inside, radius_mm=30.0)
    outer, inner = sketch.parts
    off = -1 if inside else 1
    aside = tuple((x + off * 12.0 if off * x > MIDDLE_MM else x, y) for x, y in outer.outline)
    picture = of_layers(replace(sketch, parts=(replace(outer, outline=aside), inner))).picture
    first, second = picture.layers[0].legs_mm
    back_mm = 3.2 * radians(180) / 2
    assert picture.legs_mm[0] - first == pytest.approx(back_mm)
    assert picture.legs_mm[1] - second == pytest.approx(back_mm - 12.0)
    assert picture.layers[-1].legs_mm is None


@pytest.mark.parametrize(
    ("over_mm", "told"), [(30.0, True), (39.0, True), (39.6, False), (43.2, False), (50.0, False)]
)
def test_an_outer_layer_bent_tighter_than_the_one_it_lies_on_is_told(over_mm, told):
    """Over 3.2 mm bent to 40 mm it comes to 43.2 mm; half a millimetre is the bench's misfit."""
    sketch = two_rows(BY_ROW, wider=0.0, route=Route.DAMP)
    own = replace(sketch.forms[0], id="over", parts=("outer",), radius_mm=over_mm)
    under = replace(sketch.forms[0], parts=("inner",))
    found = next(iter(bend_measures(replace(sketch, forms=(own, under)), shelf())))
    assert ("bend-tighter-than-beneath" in [each.code for each in found.findings]) is told
    if told:
        assert found.severity is Severity.WARNING
        assert "over it 40 + 3.2 = 43.2 mm are asked for" in found.findings[0].text
        assert "write the radius of 'over' as 43.2 mm" in found.findings[0].remedy
        assert found.findings[0].text in found.text


def test_a_trim_at_the_narrow_end_of_a_tapered_plate_may_be_bent_tighter():
    sketch = two_rows(BY_ROW, wider=0.0, route=Route.DAMP)
    own = replace(sketch.forms[0], id="over", parts=("outer",), radius_mm=30.0)
    under = replace(sketch.forms[0], parts=("inner",))
    outer, inner = sketch.parts
    trim = replace(outer, kind=PartKind.TRIM)
    found = next(
        iter(bend_measures(replace(sketch, parts=(trim, inner), forms=(own, under)), shelf()))
    )
    assert found.findings == ()
