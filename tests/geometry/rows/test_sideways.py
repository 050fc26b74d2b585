"""A hole beside the line of its row; curves, corners and jogs that meet are meant."""

from math import cos, hypot, radians, sin

import pytest
from geometry.row_sketches import layers, measured, straight, told
from hypothesis import given
from hypothesis import strategies as st

from armorplan.geometry.marks import MarkKind
from armorplan.geometry.rows.sideways import aside

MISFIT_MM = 0.5
EVEN = (40.0,) * 6


def _arc(radius_mm, count=7, span_mm=30.0, way=1):
    step = span_mm / radius_mm
    return [
        (300 + radius_mm * sin(i * step), way * radius_mm * cos(i * step)) for i in range(count)
    ]


def _step(row, at, off_mm, middle):
    (x, y), (mx, my) = row[at], middle
    far = hypot(x - mx, y - my)
    return [*row[:at], (x + off_mm * (x - mx) / far, y + off_mm * (y - my) / far), *row[at + 1 :]]


@pytest.mark.parametrize("at", [1, 2, 3, 4, 5])
def test_a_hole_moved_square_to_a_straight_row(at):
    row = straight(*EVEN)
    row[at] = (row[at][0], row[at][1] + 2.0)
    (measure,) = measured(layers(straight(*EVEN), row))
    (found,) = measure.findings
    assert found.code == "hole-off-row"
    assert found.text == (
        f"Hole 'b_{at}' of layer b lies 2.0 mm beside the line of 'front row', towards the edge; "
        "the row it meets runs smoothly there."
    )
    assert "move it 2.0 mm inward, square to the row" in found.remedy
    (arrow,) = measure.marks
    assert (arrow.kind, arrow.part, arrow.label) == (MarkKind.MOVE, "layer_b", "2.0 mm")
    assert arrow.spots[1] == pytest.approx(straight(*EVEN)[at], abs=0.01)


@given(
    st.floats(70, 900), st.floats(70, 900), st.integers(1, 5),
    st.floats(1.4, 4.0) | st.floats(-4.0, -1.4), st.sampled_from([1, -1]),
)  # fmt: skip
def test_a_hole_moved_square_to_a_curved_row(radius_mm, other_mm, at, off_mm, way):
    row = _step(_arc(radius_mm), at, off_mm, (300, 0))
    found = aside(tuple(row), tuple(_arc(other_mm, way=way)), MISFIT_MM)
    assert found is not None
    assert found.at == at
    assert found.off_mm == pytest.approx(abs(off_mm), rel=0.1)
    assert found.back == pytest.approx(_arc(radius_mm)[at], abs=0.3)


@given(
    st.lists(st.floats(60, 900), min_size=2, max_size=2), st.integers(4, 12),
    st.floats(15, 40), st.sampled_from([1, -1]), st.floats(-0.2, 0.2),
)  # fmt: skip
def test_smooth_rows_are_never_told(radii, count, span_mm, way, off_mm):
    one = _step(_arc(radii[0], count, span_mm), count // 2, off_mm, (300, 0))
    other = _arc(radii[1], count, span_mm, way)
    assert aside(tuple(one), tuple(other), MISFIT_MM) is None
    assert aside(tuple(other), tuple(one), MISFIT_MM) is None


@pytest.mark.parametrize("turn_deg", [4, 10, 20, 45, 80])
@pytest.mark.parametrize("at", [1, 2, 3, 4])
def test_a_corner_on_one_part_is_drawn_into_shape(turn_deg, at):
    """A keel: both legs are straight, and meet a straight row."""
    row = [(40.0 * i, 0.0) for i in range(at + 1)]
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    row += [(40.0 * at + 40 * k * c, 40 * k * s) for k in range(1, 8 - at)]
    assert aside(tuple(row), tuple(straight(*(40.0,) * 7)), MISFIT_MM) is None


def test_a_jog_that_both_rows_have_meets():
    row = straight(*EVEN)
    row[3] = (row[3][0], row[3][1] + 2.0)
    assert not told(layers(row, row))


@pytest.mark.parametrize("at", [1, 2, 3])
@pytest.mark.parametrize("by_mm", [2.0, -2.0])
def test_a_short_row_tells_only_where_it_is_straight(at, by_mm):
    row = straight(40, 40, 40, 40)
    row[at] = (row[at][0], row[at][1] + by_mm)
    (measure,) = measured(layers(straight(40, 40, 40, 40), row))
    assert [f.code for f in measure.findings] == ["hole-off-row"]
    (arrow,) = measure.marks
    assert arrow.spots[1] == pytest.approx(straight(40, 40, 40, 40)[at])
    curved = _arc(150, 5, 40)
    assert aside(tuple(row), tuple(curved), MISFIT_MM) is None
    assert aside(tuple(_step(curved, at, by_mm, (300, 0))), tuple(row), MISFIT_MM) is None
    assert aside(tuple(row[:3]), tuple(straight(40, 40)), MISFIT_MM) is None
