from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from armorplan.geometry.placing import fit

coordinate = st.floats(-300.0, 300.0, allow_nan=False).map(lambda v: round(v, 3))
point = st.tuples(coordinate, coordinate)


def _turned(points, angle_deg, shift):
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    return [(x * c - y * s + shift[0], x * s + y * c + shift[1]) for x, y in points]


@given(st.lists(point, min_size=3, max_size=8), st.floats(-179.0, 179.0), point)
def test_a_turned_part_is_laid_back_where_it_was(points, angle_deg, shift):
    assume(np.ptp(np.array(points), axis=0).max() > 5)
    laid = fit(_turned(points, angle_deg, shift), points)
    assert laid is not None
    assert laid.worst_mm < 1e-6
    back = [laid.place(p) for p in points]
    assert back == pytest.approx(np.array(_turned(points, angle_deg, shift)), abs=1e-6)


def test_a_part_turned_over_shows_in_the_mirrored_residual_only():
    row = [(0.0, 0.0), (20.0, 0.0), (45.0, 8.0)]
    turned_over = [(-x, y) for x, y in row]
    laid = fit(row, turned_over)
    assert laid is not None
    assert laid.mirrored_residual_mm == pytest.approx(0.0, abs=1e-9)
    assert laid.residual_mm > 1.0


def test_one_hole_places_nothing():
    assert fit([(1.0, 2.0)], [(1.0, 2.0)]) is None
