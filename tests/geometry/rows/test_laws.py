"""Laws of rows that meet: how parts lie on the sheet, and which is named first, change nothing."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from geometry.leather_sketches import shelf
from geometry.row_sketches import layers, measured, straight, told
from hypothesis import given
from hypothesis import strategies as st

from armorplan.geometry.rows.measuring import row_measures
from armorplan.geometry.rows.shift import Fault, Wrong, faults, moved
from armorplan.pattern.parts import Hole

MISFIT_MM, BAD_MM = 0.5, 1.0
span = st.floats(15.0, 60.0).map(lambda v: round(v, 1))
spans = st.lists(span, min_size=3, max_size=9).map(tuple)
shift = st.floats(1.1, 6.0).map(lambda v: round(v, 1)) | st.floats(-6.0, -1.1).map(
    lambda v: round(v, 1)
)


def _laid(sketch, part_id, turn_deg, to, *, over=False):
    """Return a pattern with a part moved, turned or turned over on the sheet."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))

    def moved_spot(spot):
        x, y = (-spot[0] if over else spot[0]), spot[1]
        return x * c - y * s + to[0], x * s + y * c + to[1]

    def lay(part):
        holes = tuple(replace(h, centre=moved_spot(h.centre)) for h in part.holes)
        return replace(part, outline=tuple(map(moved_spot, part.outline)), holes=holes)

    parts = tuple(lay(p) if p.id == part_id else p for p in sketch.parts)
    return replace(sketch, parts=parts)


@given(
    spans, st.data(), st.floats(-180, 180), st.tuples(st.floats(-900, 900), st.floats(-900, 900))
)
def test_moving_or_turning_a_part_on_the_sheet_changes_nothing(row, data, turn_deg, to):
    at, by_mm = data.draw(st.integers(0, len(row) - 1)), data.draw(shift)
    other = (*row[:at], row[at] + by_mm, *row[at + 1 :])
    sketch = layers(straight(*row), straight(*other))
    here, there = measured(sketch), measured(_laid(sketch, "layer_b", turn_deg, to))
    assert [m.verdict for m in here] == [m.verdict for m in there]
    said = [[(f.code, f.text, f.severity, f.about) for f in m.findings] for m in (*here, *there)]
    assert said[0] == said[1]


@given(spans, st.data())
def test_a_planted_shift_is_told_at_its_hole_with_its_mm(row, data):
    """Holes of any spacing, one moved: it is that hole, or the row read from its other end."""
    at, by_mm = data.draw(st.integers(0, len(row))), data.draw(shift)
    out = moved(row, Fault(Wrong.HOLE, at, at, by_mm), by_mm)
    (found,) = faults(row, out, MISFIT_MM, BAD_MM)
    if found.wrong is Wrong.OTHER_WAY:
        turned = zip(row, out[::-1], strict=True)
        assert all(abs(a - b) <= MISFIT_MM for a, b in turned)
    else:
        assert (found.wrong, found.at, found.until) == (Wrong.HOLE, at, at)
        assert found.off_mm == pytest.approx(by_mm)


@given(spans, st.data())
def test_an_even_row_names_the_part_and_its_arrow_leads_back(row, data):
    count, by_mm = len(row) + 1, data.draw(shift)
    at, on = data.draw(st.integers(0, count - 1)), data.draw(st.sampled_from("ab"))
    even = (40.0,) * (count - 1)
    out = moved(even, Fault(Wrong.HOLE, at, at, by_mm), by_mm)
    rows = [straight(*even), straight(*even)]
    rows["ab".index(on)] = straight(*out, start=10.0 + (by_mm if at == 0 else 0.0))
    (measure,) = measured(layers(*rows))
    (finding,) = measure.findings
    assert finding.code == "hole-off-row"
    assert f"Hole '{on}_{at}' of layer {on} lies {abs(by_mm):.1f} mm too far" in finding.text
    (arrow,) = measure.marks
    assert arrow.spots[1] == pytest.approx((10.0 + 40.0 * at, 30.0))


@given(spans, spans)
def test_which_row_is_named_first_only_turns_the_sign(row, other):
    count = min(len(row), len(other))
    row, other = row[:count], other[:count]
    one = faults(row, other, MISFIT_MM, BAD_MM)
    two = faults(other, row, MISFIT_MM, BAD_MM)
    assert [(f.wrong, f.at, f.until) for f in one] == [(f.wrong, f.at, f.until) for f in two]
    for here, there in zip(one, two, strict=True):
        sign = 1 if here.wrong is Wrong.OTHER_WAY else -1
        assert here.off_mm == pytest.approx(sign * there.off_mm)


@given(spans, spans)
def test_rows_read_from_their_other_end_tell_the_same_kind(row, other):
    count = min(len(row), len(other))
    row, other = row[:count], other[:count]
    one = faults(row, other, MISFIT_MM, BAD_MM)
    back = faults(row[::-1], other[::-1], MISFIT_MM, BAD_MM)
    assert len(one) == len(back)
    assert {f.wrong for f in one} == {f.wrong for f in back}


@given(spans, st.lists(st.floats(-0.24, 0.24), min_size=9, max_size=9))
def test_what_punch_and_leather_make_up_is_silent(row, off):
    other = tuple(a + b for a, b in zip(row, off, strict=False))
    assert not told(layers(straight(*row), straight(*other)))


coarse = st.integers(0, 6).map(lambda v: 15.0 * v)
holes = st.lists(st.tuples(coarse, coarse), min_size=1, max_size=7)


@given(st.lists(holes, min_size=1, max_size=4), st.data())
def test_no_row_however_spoilt_ends_the_reading(rows, data):
    """Rows of unequal count, holes in one place, joints that pass a part twice or miss it."""
    count = max(map(len, rows))
    full = [row + [row[-1]] * (count - len(row)) for row in rows]
    sketch = layers(*full, sewn=data.draw(st.booleans()))
    joints = []
    for joint in sketch.joints:
        stack = data.draw(st.lists(st.sampled_from(joint.stack), unique=True, max_size=4))
        other = data.draw(st.sampled_from(sketch.joints)).stack
        more = tuple(data.draw(st.lists(st.sampled_from(other), max_size=2)))
        joints.append(replace(joint, stack=(*stack, *more)))
    spoilt = replace(sketch, joints=tuple(joints))
    found = tuple(row_measures(spoilt, shelf()))
    assert len({m.id for m in found}) == len(found)
    for measure in found:
        assert measure.text
        assert len(measure.text) < 1500
        for mark in measure.marks:
            assert len(mark.spots) == 2


@pytest.mark.parametrize("wide_mm", [0.0, 1e-9])
def test_holes_without_width_and_lines_without_area_end_nothing(wide_mm):
    sketch = layers(straight(40, 42, 38), straight(40, 40, 40))
    parts = tuple(
        replace(
            part,
            outline=((0.0, 0.0), (10.0, 0.0), (20.0, 0.0)),
            holes=tuple(
                Hole(id=h.id, part=h.part, centre=h.centre, diameter_mm=wide_mm)
                for h in part.holes
            ),
        )
        for part in sketch.parts
    )
    assert [f.code for f in told(replace(sketch, parts=parts))] == ["hole-off-row"]
