"""The picture of a row, the arrow on its part and the words of the finding tell the same move."""

import re
from math import dist

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.row_sketches import layers, measured, straight
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.marks import MarkKind
from armorplan.geometry.rows.shift import Fault, Wrong, moved
from armorplan.pattern.joining import Seam

MISFIT_MM = 0.5
span = st.floats(15.0, 60.0).map(lambda v: round(v, 1))
rows = st.lists(span, min_size=3, max_size=9).map(tuple)
shift = st.floats(0.6, 6.0).map(lambda v: round(v, 1)) | st.floats(-6.0, -0.6).map(
    lambda v: round(v, 1)
)


def _planted(data):
    """Two or three layers with the same row, of which one has holes moved along it."""
    row = data.draw(rows | st.integers(3, 9).map(lambda count: (40.0,) * count))
    until = data.draw(st.integers(0, len(row)))
    at = data.draw(st.sampled_from([until, 0]))
    by_mm = data.draw(shift)
    out = moved(row, Fault(Wrong.BEYOND, at, until, by_mm), by_mm)
    if data.draw(st.booleans()):
        alone, more_mm = data.draw(st.integers(1, len(row))), data.draw(shift)
        out = moved(out, Fault(Wrong.HOLE, alone, alone, more_mm), more_mm)
    on = data.draw(st.integers(0, 2))
    lain = [straight(*row) for _ in range(data.draw(st.integers(max(on + 1, 2), 3)))]
    lain[on] = straight(*out, start=10.0 + (by_mm if at == 0 else 0.0))
    return layers(*lain)


def _drawn(sketch):
    return [measure for measure in measured(sketch) if measure.picture is not None]


def _moves(sketch, measure):
    """Return for each arrow on a part its hole, which way it leads along the row, and its label."""
    found = {}
    for mark in measure.marks:
        if mark.kind is MarkKind.MOVE:
            (hole,) = (
                h.id for h in sketch.part(mark.part).holes if dist(h.centre, mark.spots[0]) < 1e-6
            )
            assert hole not in found
            found[hole] = (mark.part, mark.spots[1][0] - mark.spots[0][0], mark.label)
    return found


def _reddened(measure):
    """Return for each hole that the picture marks its part, the way it leads, and its number."""
    return {
        hole: (side.part, -off, f"{abs(off):.1f} mm")
        for side in measure.picture.rows
        for hole, off in zip(side.holes, side.off_mm, strict=False)
        if off
    }


@settings(deadline=None)
@given(st.data())
def test_picture_arrow_and_words_agree(data):
    sketch = _planted(data)
    for measure in _drawn(sketch):
        moves, red = _moves(sketch, measure), _reddened(measure)
        assert moves.keys() == red.keys()
        for hole, (on_part, way, label) in moves.items():
            assert (on_part, label) == (red[hole][0], red[hole][2])
            assert way == pytest.approx(red[hole][1])
        told = [f for f in measure.findings if f.code == "hole-off-row"]
        assert bool(told) == bool(red)
        for finding in told:
            _check_words(sketch, finding, moves)
        assert bool(measure.picture.missing) == any(
            f.code in {"row-misfit", "row-longer", "row-other-way"} for f in measure.findings
        )


def _check_words(sketch, finding, moves):
    """Each move that the remedy tells, by hole or for all of several, is that of its arrow."""
    said = re.findall(r"(?:'(\w+)' )?([\d.]+) mm (towards|away from) '(\w+)'", finding.remedy)
    assert said
    single = re.match(r"Hole '(\w+)'", finding.text)
    several = re.match(r"On .* holes '(\w+)' to '(\w+)'", finding.text)
    for named, mm, way, to in said:
        hole = named or (single or several)[1]
        on_part, led, label = moves[hole]
        assert on_part in finding.about
        start, goal = (sketch.hole(each).centre[0] for each in (hole, to))
        assert (led * (goal - start) > 0) == (way == "towards")
        if label != f"{mm} mm":
            assert float(label.removesuffix(" mm")) == pytest.approx(float(mm) / 2, abs=0.06)
            assert "half of it there" in finding.remedy


@settings(deadline=None)
@given(st.data())
def test_rows_are_drawn_with_the_holes_in_place_on_each_other(data):
    for measure in _drawn(_planted(data)):
        sides = measure.picture.rows
        if any(side.off_mm for side in sides):
            upper, lower = (
                [at - off for at, off in zip(s.along_mm, s.off_mm or (0,) * 99, strict=False)]
                for s in sides
            )
            assert max(abs(a - b) for a, b in zip(upper, lower, strict=True)) <= 2 * MISFIT_MM


def _trim(off_mm):
    """A trim on a curved edge: nine holes, the fifth moved across its row."""
    spots = [(20.0 + 24 * at, 60.0 - 0.02 * (at - 4) ** 2 * 24) for at in range(9)]
    out = [(x, y + off_mm * (at == 4)) for at, (x, y) in enumerate(spots)]
    trim = part("trim", box(240, 120), {f"t{at}": spot for at, spot in enumerate(out)})
    plate = part("plate", box(240, 120), {f"p{at}": spot for at, spot in enumerate(spots)})
    joints = tuple(rivet(f"j{at}", f"t{at}", f"p{at}") for at in range(9))
    seam = Seam(id="row", name="trim row", joints=tuple(joint.id for joint in joints))
    return pattern(plate, trim, joints=joints, seams=(seam,))


@pytest.mark.parametrize("off_mm", [-7.0, -5.0, 5.0, 7.0])
def test_a_hole_moved_across_its_row_is_told_as_that_hole(off_mm):
    """5 mm across make both spacings beside it 0.5 mm longer, and 7 mm 1.0 mm (Pythagoras)."""
    (measure,) = measured(_trim(off_mm))
    (found,) = measure.findings
    (mm,) = re.findall(r"^Hole 't4' of trim lies ([\d.]+) mm beside the line", found.text)
    assert float(mm) == pytest.approx(abs(off_mm), abs=0.11)
    (arrow,) = measure.marks
    assert (arrow.part, arrow.label) == ("trim", f"{mm} mm")
    assert arrow.spots[1] == pytest.approx((116.0, 60.0), abs=0.5)
    trim, plate = measure.picture.rows
    assert trim.aside_mm == pytest.approx([0, 0, 0, 0, off_mm, 0, 0, 0, 0], abs=0.11)
    assert not plate.aside_mm
    assert not trim.off_mm
