"""Which hole is out, by how much, on which part, and how it is mended."""

from dataclasses import replace
from math import asin, cos, radians, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf
from geometry.row_sketches import layers, measured, straight, told

from armorplan.geometry.checking import shape_findings
from armorplan.geometry.marks import MarkKind
from armorplan.geometry.pictures import RowsPicture
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam
from armorplan.workshop.constants import Constant

EVEN = (40.0,) * 6


def test_one_hole_moved_is_one_finding_at_that_hole_with_its_mm():
    sketch = layers(straight(*EVEN), straight(40, 40, 40, 42, 38, 40))
    (found,) = told(sketch)
    assert found.code == "hole-off-row"
    assert found.severity is Severity.ERROR
    assert found.text == (
        "Hole 'b_4' of layer b lies 2.0 mm too far towards 'b_5': on layer a 40.0 | 40.0 mm, on "
        "layer b 42.0 | 38.0 mm."
    )
    assert found.remedy == (
        "In the drawing move it 2.0 mm towards 'b_3'; in leather already cut make it oval, plug "
        "it, hide it under a cap, or leave it."
    )
    assert found.about == ("row", "j4", "layer_b", "layer_a", "b_4", "a_4")


def test_the_arrow_lies_on_the_part_whose_hole_is_out():
    (measure,) = measured(layers(straight(40, 40, 38, 42, 40, 40), straight(*EVEN)))
    (arrow,) = measure.marks
    assert (arrow.kind, arrow.part, arrow.label) == (MarkKind.MOVE, "layer_a", "2.0 mm")
    assert arrow.spots == ((128.0, 30.0), (130.0, 30.0))
    assert measure.verdict == "hole 4 is 2.0 mm out"


@pytest.mark.parametrize(("at", "words"), [(0, "towards 'b_1'"), (6, "towards 'b_5'")])
def test_a_hole_at_the_end_of_a_row(at, words):
    spans = list(EVEN)
    spans[0 if at == 0 else 5] = 38.0
    (found,) = told(layers(straight(*EVEN), straight(*spans)))
    assert found.text.startswith(f"Hole 'b_{at}' of layer b lies 2.0 mm too far {words}")


def test_where_either_hole_may_be_out_the_mend_is_split_fairly():
    uneven = (40, 41, 52, 36, 60, 33)
    other = (40, 41, 54, 34, 60, 33)
    (measure,) = measured(layers(straight(*uneven), straight(*other)))
    (found,) = measure.findings
    assert "Hole 'b_3' of layer b misses 'a_3' of layer a by 2.0 mm, towards 'b_4'" in found.text
    assert (
        "move 'b_3' 1.0 mm towards 'b_2' and 'a_3' 1.0 mm towards 'a_4', or one of them by all"
        in found.remedy
    )
    assert [mark.label for mark in measure.marks] == ["1.0 mm", "1.0 mm"]


def test_three_layers_tell_by_two_against_one():
    uneven = (40, 41, 52, 36, 60, 33)
    (found,) = told(layers(straight(*uneven), straight(40, 41, 54, 34, 60, 33), straight(*uneven)))
    assert found.text.startswith("Hole 'b_3' of layer b lies 2.0 mm too far towards 'b_4'")


def test_a_row_evenly_longer_is_spaced_anew():
    (measure,) = measured(layers(straight(*EVEN), straight(*(41.2,) * 6)))
    (found,) = measure.findings
    assert found.code == "row-longer"
    assert (
        "longer on layer b than on layer a: 1.2 mm in each of 6 spacings, 7.2 mm in" in found.text
    )
    assert "1.2 mm less from hole to hole on layer b, or 0.6 mm less there" in found.remedy
    assert [mark.label for mark in measure.marks] == ["240.0 mm", "247.2 mm"]


def test_a_step_is_told_of_all_holes_beyond_it():
    (found,) = told(layers(straight(*EVEN), straight(40, 40, 40, 40, 43, 40)))
    assert found.code == "hole-off-row"
    assert found.text.startswith(
        "On layer b holes 'b_5' to 'b_6' lie 3.0 mm too far away from 'b_4'"
    )


def test_what_one_movement_does_not_explain_is_told_once_and_marked_anew():
    (measure,) = measured(layers(straight(*EVEN), straight(42, 37, 44, 40, 35, 43)))
    (found,) = measure.findings
    assert (found.code, found.severity) == ("row-misfit", Severity.ERROR)
    assert found.text == (
        "5 spacings of 'front row' miss by 2.0 to 5.0 mm, the most from hole 5 to hole 6: 35.0 mm on "
        "layer b, 40.0 mm on layer a."
    )
    assert found.remedy.startswith(
        "In the drawing mark the row on layer b anew from its middle hole, 'b_3', with the spacings of "
        "layer a: 40.0 mm each; in leather already cut"
    )
    assert measure.verdict == "uneven by up to 5.0 mm"
    assert measure.picture.missing == (0, 1, 2, 4, 5)
    assert {mark.kind for mark in measure.marks} == {MarkKind.SPAN}


@pytest.mark.parametrize("diameter_mm", [3.5, 0.9])
def test_a_miss_beyond_two_hole_diameters_is_punched_anew(diameter_mm):
    sketch = layers(straight(*EVEN), straight(40, 40, 40, 42, 38, 40))
    parts = tuple(
        replace(p, holes=tuple(replace(h, diameter_mm=diameter_mm) for h in p.holes))
        for p in sketch.parts
    )
    (found,) = told(replace(sketch, parts=parts))
    anew = "plug it and punch it anew: 2.0 mm is more than 2 times its 0.9 mm" in found.remedy
    assert anew is (diameter_mm < 1)


def test_the_bench_says_what_a_misfit_is():
    sketch = layers(straight(*EVEN), straight(40, 40, 40, 42, 38, 40))
    constants = replace(
        shelf().constants,
        misfit=Constant(value=2.5, unit="mm", name="difference that leather makes up"),
    )
    assert not told(sketch, replace(shelf(), constants=constants))


def test_palindromic_rows_cannot_tell_the_hand_and_uneven_ones_say_nothing():
    (even,) = measured(layers(straight(*EVEN), straight(*EVEN)))
    assert "cannot tell which way round the parts go. Look at the up arrows" in even.text
    (uneven,) = measured(layers(straight(30, 40, 50), straight(30, 40, 50)))
    assert "which way round" not in uneven.text


def test_a_row_read_from_the_wrong_end_is_told_with_both_sequences():
    (measure,) = measured(layers(straight(30, 40, 50), straight(50, 40, 30)))
    (found,) = measure.findings
    assert (found.code, found.severity) == ("row-other-way", Severity.ERROR)
    assert "30.0 | 40.0 | 50.0 mm on layer a, 50.0 | 40.0 | 30.0 mm on layer b" in found.text
    assert "Mirror layer b" in found.remedy
    assert "from the other end, 'b_3' first" in found.remedy


def _arc(radius_mm, count=6, span_mm=28.0):
    step = 2 * asin(span_mm / 2 / radius_mm)
    return [(300 + radius_mm * sin(i * step), radius_mm * cos(i * step)) for i in range(count)]


def test_a_flared_lame_that_curves_against_its_shell_is_neither_reversed_nor_a_misfit():
    shell = _arc(400.0)
    lame = [(x, 500.0 - y) for x, y in _arc(250.0)]
    (measure,) = measured(layers(shell, lame))
    assert not measure.findings
    assert "draws the leather into shape, which is no fault" in measure.text
    flat = {figure.name: figure.value for figure in measure.figures}
    assert (
        flat["rows miss by, laid flat"]
        > 1.5 * flat["the same with one part turned over, for information"]
    )


def test_a_frustum_plate_on_a_straight_strap_is_no_misfit():
    """The net of a frustum, h 300, R 90, r 60: its long edge has a radius of 904.489 mm."""
    strap = straight(*(40.0,) * 7)
    (measure,) = measured(layers(strap, _arc(904.489, count=8, span_mm=40.0)))
    assert not measure.findings


def test_each_number_has_its_formula_and_source():
    (measure,) = measured(layers(straight(30, 40, 50), straight(30, 40, 50.3)))
    figures = {figure.name: figure for figure in measure.figures}
    length = figures["length of the row on layer b"]
    assert length.value == pytest.approx(120.3)
    assert length.formula == "30.0 + 40.0 + 50.3 = 120.3"
    assert figures["most that a spacing differs, as drawn"].value == pytest.approx(0.3)
    assert all(figure.source for figure in measure.figures)


def test_the_picture_lays_both_rows_straight():
    (measure,) = measured(layers(straight(*EVEN), straight(40, 40, 40, 42, 38, 40)))
    picture = measure.picture
    assert isinstance(picture, RowsPicture)
    assert [side.part for side in picture.rows] == ["layer_a", "layer_b"]
    assert picture.rows[1].along_mm == (0, 40, 80, 120, 162, 200, 240)
    assert [side.off_mm for side in picture.rows] == [(), (0, 0, 0, 0, 2, 0, 0)]


def test_a_joint_of_a_row_that_lacks_a_hole_is_named():
    sketch = layers(straight(*EVEN), straight(*EVEN), straight(*EVEN))
    joints = tuple(replace(j, stack=j.stack[:2]) if j.id == "j3" else j for j in sketch.joints)
    (found,) = told(replace(sketch, joints=joints))
    assert found.code == "row-count"
    assert found.text == (
        "6 of 7 joints of 'front row' pass layer c, but 'j3' between them passes none of its holes."
    )


def test_holes_in_one_place_are_told_once_and_the_rest_is_measured():
    (found,) = told(layers(straight(40, 40, 0, 40, 40), straight(40, 40, 0, 40, 40.3)))[:1]
    assert found.code == "holes-coincide"
    codes = [
        f.code
        for f in shape_findings(layers(straight(*EVEN), straight(40, 40, 0, 40, 40, 40)), shelf())
    ]
    assert "holes-too-close" not in codes
    more = told(layers(straight(*EVEN), straight(40, 40, 0, 40, 40, 40)))
    assert {f.code for f in more} == {"holes-coincide"}


def test_a_seam_of_one_rivet_or_of_none_has_nothing_to_tell():
    one = layers(straight(), straight())
    assert len(one.joints) == 1
    assert measured(one) == ()
    empty = Seam(id="empty", name="empty row", joints=())
    assert measured(replace(one, seams=(empty,))) == ()


def test_rows_of_a_part_closed_on_itself_name_the_holes():
    upper = [(20.0 + 20 * i, 90.0 - 5 * i) for i in range(6)]
    lower = [(x, 200.0 - y) for x, y in upper]
    upper[3] = (upper[3][0] + 2 * cos(radians(14.04)), upper[3][1] - 2 * sin(radians(14.04)))
    holes = {f"a{i}": p for i, p in enumerate(upper)} | {f"b{i}": p for i, p in enumerate(lower)}
    joints = tuple(rivet(f"j{i}", f"a{i}", f"b{i}") for i in range(6))
    seam = Seam(id="row", name="cop row", joints=tuple(j.id for j in joints))
    sketch = pattern(part("cop", box(300, 200), holes), joints=joints, seams=(seam,))
    (found,) = told(sketch)
    assert found.text.startswith("Hole 'a3' of cop lies 2.0 mm too far towards 'a4'")


def test_of_a_row_that_is_wrong_all_along_the_worst_is_told_once():
    spans = [40 + (-1) ** at * (2 + at % 5) for at in range(30)]
    (measure,) = measured(layers(straight(*(40.0,) * 30), straight(*spans)))
    (found,) = measure.findings
    assert "30 spacings of 'front row' miss by 2.0 to 6.0 mm, the most from hole" in found.text
    assert len(measure.marks) == 60
