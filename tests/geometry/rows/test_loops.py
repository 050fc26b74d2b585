"""Rows that lead from part to part and back come out even along themselves."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import bend, measured, told
from hypothesis import given
from hypothesis import strategies as st

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam

ALONG = ((20.0, 0.0), (20.0, 400.0))
ACROSS = ((0.0, 150.0), (200.0, 150.0))


def _hinged(shift_mm=0.0, *, at="lower_back", forms=(), against=False):
    """Two plates with two hinges along one edge, the holes of one row moved along it."""
    parts, joints, seams = {}, [], []
    for plate in ("front", "back"):
        parts[plate] = {}
    for hinge, start in (("upper", 20.0), ("lower", 220.0)):
        parts[hinge] = {}
        for plate in ("front", "back"):
            by_mm = shift_mm if at == f"{hinge}_{plate}" else 0.0
            row = f"{hinge}_{plate}"
            for i in range(3):
                parts[plate][f"{row}_{i}"] = (20.0, start + 40 * i + by_mm)
                parts[hinge][f"{row}_h{i}"] = (10.0 + 40 * (plate == "back"), 10.0 + 40 * i)
            joints += [rivet(f"{row}_j{i}", f"{row}_{i}", f"{row}_h{i}") for i in range(3)]
            ids = [f"{row}_j{i}" for i in range(3)]
            ids = ids[::-1] if against and row == "upper_back" else ids
            seams.append(Seam(id=row, name=row.replace("_", " "), joints=tuple(ids)))
    made = [
        part(name, box(200, 400) if name in {"front", "back"} else box(60, 100), holes)
        for name, holes in parts.items()
    ]
    return replace(pattern(*made, joints=tuple(joints), seams=tuple(seams)), forms=forms)


@pytest.mark.parametrize("against", [False, True])
def test_two_hinges_between_two_plates_come_out_even(against):
    (loop,) = [m for m in measured(_hinged(against=against)) if m.id.startswith("rows:loop")]
    assert loop.verdict == "come out even"
    assert not told(_hinged(against=against))


@pytest.mark.parametrize("at", ["upper_front", "upper_back", "lower_front", "lower_back"])
@pytest.mark.parametrize("by_mm", [2.0, -2.0])
def test_one_row_moved_along_itself_is_found(at, by_mm):
    (found,) = told(_hinged(by_mm, at=at))
    assert (found.code, found.severity) == ("rows-shifted", Severity.ERROR)
    assert "the rows come out 2.0 mm apart along themselves" in found.text
    assert "200.0 mm on " in found.text
    assert f"{200 + (by_mm if at.startswith('lower') else -by_mm):.1f} mm on" in found.text
    assert "2.0 mm along itself on one part, or share it out, 0.5 mm on each part" in found.remedy


def test_a_bend_along_the_rows_hides_nothing():
    form = bend("front", "back", radius_mm=50.0, axis=ALONG)
    assert [f.code for f in told(_hinged(2.0, forms=(form,)))] == ["rows-shifted"]


def test_across_a_bend_the_way_may_be_longer():
    form = bend("front", "back", radius_mm=50.0, axis=ACROSS)
    assert not told(_hinged(2.0, forms=(form,)))
    assert told(_hinged(30.0, forms=(form,)))


@given(st.floats(-0.5, 0.5))
def test_what_punch_and_leather_make_up_is_silent(by_mm):
    assert not told(_hinged(by_mm))
