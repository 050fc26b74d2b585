"""Two rows of the same two parts: one of them shifted along itself, or too far from the other."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import bend, measured, told

from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import FormKind, Seam
from armorplan.pattern.parts import PartKind


def _two_rows(on_outer, on_inner, *, kind=PartKind.PLATE, loose=(), against=False, forms=()):
    """Two plates joined by two rows; each side gives the spots of both rows."""
    parts, joints, seams = [], [], []
    for name, rows in (("o", on_outer), ("i", on_inner)):
        holes = {f"{name}{r}_{at}": p for r, row in enumerate(rows) for at, p in enumerate(row)}
        full = {"o": "outer", "i": "inner"}[name]
        parts.append(part(full, box(900, 600), holes, kind=kind))
    for r, row in enumerate(on_outer):
        made = [rivet(f"j{r}_{at}", f"o{r}_{at}", f"i{r}_{at}") for at in range(len(row))]
        joints += made
        ids = tuple(j.id for j in made)
        if r not in loose:
            ids = ids[::-1] if against and r else ids
            seams.append(Seam(id=f"row_{r}", name=f"row {r}", joints=ids))
    made = pattern(*parts, joints=tuple(joints), seams=tuple(seams))
    return replace(made, forms=forms)


def _row(y, start=50.0, count=5, span=40.0):
    return [(start + span * at, y) for at in range(count)]


@pytest.mark.parametrize("against", [False, True], ids=["numbered alike", "numbered against"])
@pytest.mark.parametrize("by_mm", [2.0, -2.0])
def test_a_whole_row_moved_along_itself_is_found(by_mm, against):
    sketch = _two_rows(
        (_row(40), _row(140)), (_row(40), _row(140, start=50 + by_mm)), against=against
    )
    (found,) = told(sketch)
    assert (found.code, found.severity) == ("rows-shifted", Severity.ERROR)
    end = "i1_4" if by_mm > 0 else "i1_0"
    assert found.text == (
        f"'row 1' lies 2.0 mm further towards the end of '{end}' on inner than on outer, seen from "
        "'row 0': the parts come to lie askew."
    )
    assert (
        "2.0 mm back on inner, or 1.0 mm there and 1.0 mm the other way on outer" in found.remedy
    )


def test_the_arrows_split_the_mend_fairly():
    measure = measured(_two_rows((_row(40), _row(140)), (_row(40), _row(140, start=52))))[-1]
    assert measure.verdict == "shifted by 2.0 mm"
    assert [(m.kind, m.part, m.label) for m in measure.marks] == [
        (MarkKind.MOVE, "outer", "1.0 mm"),
        (MarkKind.MOVE, "inner", "1.0 mm"),
    ]
    assert measure.marks[0].spots == ((130.0, 140.0), (131.0, 140.0))
    assert measure.marks[1].spots == ((132.0, 140.0), (131.0, 140.0))
    shear = [f for f in measure.figures if f.name.startswith("second row ahead")]
    assert [f.value for f in shear] == pytest.approx([0.0, 2.0])


def test_a_bend_along_the_rows_hides_no_shift_and_makes_none():
    """The outer plate is wider by d · θ between the rows; that is no fault, the shift is one."""
    form = bend("outer", "inner", radius_mm=60.0, axis=((0, 90), (900, 90)))
    wider = 3.2 * 100 / 60
    sound = _two_rows((_row(40), _row(140 + wider)), (_row(40), _row(140)), forms=(form,))
    assert not told(sound)
    shifted = _two_rows(
        (_row(40), _row(140 + wider)), (_row(40), _row(140, start=52)), forms=(form,)
    )
    assert [f.code for f in told(shifted)] == ["rows-shifted"]


def _fan(radius_mm, angle_deg, count=5, span=40.0):
    """A row on a generator of a flat frustum, at an angle from its middle line."""
    turn = radians(angle_deg)
    return [
        (450 + (radius_mm + span * at) * sin(turn), -500 + (radius_mm + span * at) * cos(turn))
        for at in range(count)
    ]


def test_a_frustum_on_a_straight_strip_is_not_shifted():
    fan = (_fan(600, -12), _fan(600, 12))
    strip = ([(50, 40 * at) for at in range(5)], [(300, 40 * at) for at in range(5)])
    assert not told(_two_rows(fan, strip))
    moved = ([(50, 40 * at) for at in range(5)], [(300, 40 * at + 2) for at in range(5)])
    assert [f.code for f in told(_two_rows(fan, moved))] == ["rows-shifted"]


def test_halves_of_a_tube_may_be_of_unlike_width_but_not_shifted():
    front, back = (_row(40), _row(240)), (_row(200), _row(20))
    assert not told(_two_rows(front, back))
    askew = (_row(200), _row(20, start=52))
    assert [f.code for f in told(_two_rows(front, askew))] == ["rows-shifted"]


def test_rows_of_flat_plates_lie_alike_far_apart():
    (found,) = told(_two_rows((_row(40), _row(80)), (_row(40), _row(83))))
    assert found.code == "rows-shifted"
    assert found.text == (
        "'row 0' and 'row 1' lie 40.0 mm apart on outer but 43.0 mm on inner: they miss by 3.0 mm."
    )
    unknown = bend("inner", kind=FormKind.CLOSURE, radius_mm=None)
    assert not told(_two_rows((_row(40), _row(80)), (_row(40), _row(83)), forms=(unknown,)))


def test_an_outer_plate_may_bow_off_between_rows_far_apart():
    assert not told(_two_rows((_row(40), _row(150)), (_row(40), _row(140))))
    assert told(_two_rows((_row(40), _row(130)), (_row(40), _row(140))))


@pytest.mark.parametrize("count", [1, 2])
def test_loose_rivets_beside_a_seam_are_a_second_row(count):
    outer = (_row(40), _row(140, start=90, count=count))
    inner = (_row(40), _row(140, start=93, count=count))
    (found,) = told(_two_rows(outer, inner, loose=(1,)))
    assert (found.code, found.severity) == ("rows-shifted", Severity.WARNING)
    assert "3.0 mm further towards the end of 'i" in found.text
    assert not told(_two_rows(outer, (inner[0], outer[1]), loose=(1,)))


def test_straps_have_no_rows_to_be_shifted():
    sketch = _two_rows((_row(40), _row(140)), (_row(40), _row(140, start=52)), kind=PartKind.STRAP)
    assert not told(sketch)


def test_a_row_with_a_hole_out_is_told_of_that_alone():
    inner = _row(140)
    inner[4] = (inner[4][0] + 3, 140)
    assert [f.code for f in told(_two_rows((_row(40), _row(140)), (_row(40), inner)))] == [
        "hole-off-row"
    ]
