"""Trims drawn turned over are noted; straps, flared lames and parts that are shaped are not."""

from dataclasses import replace
from math import asin, cos, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import bend, measured, told

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import PartKind

COUNT = 6


def _arc(radius_mm, way=1, up=0.0):
    step = 2 * asin(14.0 / radius_mm)
    turns = [(at - (COUNT - 1) / 2) * step for at in range(COUNT)]
    return [(100 + radius_mm * sin(t), up + way * radius_mm * (1 - cos(t))) for t in turns]


def _on_plate(trim_row, *, kind=PartKind.TRIM, forms=(), up_deg=90.0, plate_row=None):
    plate_row = plate_row or _arc(60.0)
    plate = part("plate", box(200, 120), {f"p{at}": s for at, s in enumerate(plate_row)})
    trim = part("trim", box(200, 30), {f"t{at}": s for at, s in enumerate(trim_row)}, kind=kind)
    joints = tuple(rivet(f"j{at}", f"t{at}", f"p{at}") for at in range(COUNT))
    seam = Seam(id="row", name="trim row", joints=tuple(joint.id for joint in joints))
    made = pattern(plate, replace(trim, up_deg=up_deg), joints=joints, seams=(seam,))
    return replace(made, forms=forms)


def test_a_flat_trim_that_fits_only_turned_over_is_told_with_both_numbers():
    assert not told(_on_plate(_arc(60.0)))
    (measure,) = measured(_on_plate(_arc(60.0, way=-1)))
    (found,) = measure.findings
    assert (found.code, found.severity) == ("row-other-way", Severity.WARNING)
    assert "and by 0.0 mm with trim turned over; trim stays flat" in found.text
    assert "mirror it in the drawing" in found.remedy
    assert measure.verdict == "look at which way round it goes"


def test_drawn_from_the_inside_it_is_laid_turned_over_before_it_is_judged():
    sketch = _on_plate(_arc(60.0, way=-1))
    plate, trim = sketch.parts
    assert not told(replace(sketch, parts=(plate, replace(trim, drawn_from_inside=True))))


@pytest.mark.parametrize("kind", [PartKind.STRAP, PartKind.LAME, PartKind.PLATE, PartKind.COP])
def test_a_row_that_curves_against_the_other_is_no_proof(kind):
    """A flared lame on its shell; a strap that gives."""
    sketch = _on_plate(_arc(60.0, way=-1), kind=kind)
    lame, plate = sketch.parts[1], sketch.parts[0]
    wide = replace(lame, outline=tuple(box(200, 100)))
    assert not told(replace(sketch, parts=(plate, wide)))


def test_a_trim_that_is_shaped_may_curve_against_its_plate():
    assert not told(_on_plate(_arc(60.0, way=-1), forms=(bend("trim", radius_mm=50.0),)))
    shaped = (bend("plate", radius_mm=50.0),)
    assert [f.code for f in told(_on_plate(_arc(60.0, way=-1), forms=shaped))] == ["row-other-way"]


def test_half_as_good_turned_over_is_noted_only_where_up_contradicts():
    """Bent trim and plate: as drawn they miss by far, turned over by less; up has to tell as well."""
    forms = (bend("trim", "plate", radius_mm=50.0),)
    sketch = _on_plate(_arc(90.0, way=-1), forms=forms)
    assert not told(sketch)
    (found,) = told(_on_plate(_arc(90.0, way=-1), forms=forms, up_deg=270.0))
    assert (found.code, found.severity) == ("sides-disagree", Severity.NOTE)
    assert "its up points the other way than that of plate" in found.text


def test_holes_marked_on_the_wearer_are_not_judged():
    sketch = _on_plate([(20.0 + 31 * at, 10.0) for at in range(COUNT)])
    assert told(sketch)
    joints = tuple(replace(joint, placed_on_wearer=True) for joint in sketch.joints)
    (measure,) = measured(replace(sketch, joints=joints))
    assert not measure.findings
    assert measure.verdict == "punched on the wearer"
    assert "their spacing is not judged" in measure.text


def test_the_trim_is_to_mirror_and_not_the_plate():
    spans = (0.0, 20.0, 50.0, 70.0, 110.0, 125.0)
    row = [(20 + x, 10.0) for x in spans]
    back = [(20 + 125.0 - x, 10.0) for x in reversed(spans)]
    (found,) = told(_on_plate(back, plate_row=row))
    assert found.code == "row-other-way"
    assert found.remedy.startswith("Mirror trim in the drawing")


def test_an_oval_is_no_wider_than_its_strap_bears():
    row = [(20.0 + 28 * at, 10.0) for at in range(COUNT)]
    out = [(x + 3.0 * (at == 2), y) for at, (x, y) in enumerate(row)]
    wide = _on_plate(out, kind=PartKind.STRAP, plate_row=row)
    narrow = replace(wide, parts=(wide.parts[0], replace(wide.parts[1], outline=box(200, 16))))
    assert "make it oval" in told(wide)[0].remedy
    assert "more than a third of the strap's width" in told(narrow)[0].remedy
