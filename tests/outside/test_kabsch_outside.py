"""Laying rows on each other, against SciPy's independent solution of the same problem.

Source: W. Kabsch, 'A solution for the best rotation to relate two sets of vectors', Acta
Crystallographica A32 (1976) 922-923 (title and pages from memory), as implemented by
``scipy.spatial.transform.Rotation.align_vectors``. SciPy turns in space; the plane is kept by
weighting its normal without bound.
"""

from math import cos, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation

from armorplan.geometry.placing import fit

coordinate = st.floats(-400.0, 400.0, allow_nan=False).map(lambda v: round(v, 2))
spot = st.tuples(coordinate, coordinate)
pairs_of = st.lists(st.tuples(spot, spot), min_size=2, max_size=12)
along = st.lists(
    st.floats(-200, 200).map(lambda v: round(v, 2)), min_size=2, max_size=9, unique=True
)


def _theirs(on_a, on_b):
    """Return SciPy's turn in the plane and its root mean square residual in mm."""
    a, b = (np.array(side) - np.mean(side, axis=0) for side in (on_a, on_b))
    flat = [np.vstack([np.c_[side, np.zeros(len(side))], [0.0, 0.0, 1.0]]) for side in (a, b)]
    turn, _ = Rotation.align_vectors(*flat, weights=[1.0] * len(a) + [np.inf])
    matrix = turn.as_matrix()[:2, :2]
    missed = np.linalg.norm(a - b @ matrix.T, axis=1)
    return matrix, sqrt((missed**2).mean()), missed.max()


def _agree(on_a, on_b):
    laid = fit(on_a, on_b)
    assert laid is not None
    matrix, residual_mm, worst_mm = _theirs(on_a, on_b)
    c, s = cos(radians(laid.rotation_deg)), sin(radians(laid.rotation_deg))
    assert np.array([[c, -s], [s, c]]) == pytest.approx(matrix, abs=1e-6)
    assert laid.residual_mm == pytest.approx(residual_mm, abs=1e-5)
    assert laid.worst_mm == pytest.approx(worst_mm, abs=1e-4)
    placed = np.array([laid.place(q) for q in on_b])
    missed = np.linalg.norm(placed - np.array(on_a), axis=1)
    assert sqrt((missed**2).mean()) == pytest.approx(residual_mm, abs=1e-5)


def _is_told(on_a, on_b):
    """Tell whether the data say a turn at all: where both sums vanish every turn is as good."""
    a, b = (np.array(side) - np.mean(side, axis=0) for side in (on_a, on_b))
    return np.hypot((a * b).sum(), (a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum()) > 1.0


@given(pairs_of)
def test_any_two_sets_of_holes(pairs):
    on_a, on_b = ([*side] for side in zip(*pairs, strict=True))
    assume(_is_told(on_a, on_b))
    _agree(on_a, on_b)


@given(st.tuples(spot, spot), st.tuples(spot, spot))
def test_two_holes_each(on_a, on_b):
    assume(_is_told(on_a, on_b))
    _agree(list(on_a), list(on_b))


@given(along, st.floats(0.0, 359.0), st.floats(0.0, 359.0), spot)
def test_holes_in_a_line_on_both_parts(places, deg_a, deg_b, shift):
    def row(deg):
        return [(p * cos(radians(deg)) + shift[0], p * sin(radians(deg))) for p in places]

    on_a, on_b = row(deg_a), row(deg_b)
    assume(_is_told(on_a, on_b))
    _agree(on_a, on_b)
    laid = fit(on_a, on_b)
    assert laid is not None
    assert laid.worst_mm < 1e-6, "a line lies on a line of the same spacing"


@given(pairs_of)
def test_one_part_turned_over(pairs):
    on_a, on_b = ([*side] for side in zip(*pairs, strict=True))
    over = [(-x, y) for x, y in on_b]
    assume(_is_told(on_a, on_b) and _is_told(on_a, over))
    laid = fit(on_a, on_b)
    assert laid is not None
    _, residual_mm, _ = _theirs(on_a, over)
    assert laid.mirrored_residual_mm == pytest.approx(residual_mm, abs=1e-5)


@given(pairs_of)
def test_no_turn_that_scipy_knows_misses_less(pairs):
    """The residual is the least there is: a little more or less of a turn never betters it."""
    on_a, on_b = ([*side] for side in zip(*pairs, strict=True))
    assume(_is_told(on_a, on_b))
    laid = fit(on_a, on_b)
    assert laid is not None
    a, b = (np.array(side) - np.mean(side, axis=0) for side in (on_a, on_b))
    for more_deg in (-5.0, -0.5, 0.5, 5.0):
        matrix = Rotation.from_euler("z", laid.rotation_deg + more_deg, degrees=True).as_matrix()
        missed = np.linalg.norm(a - b @ matrix[:2, :2].T, axis=1)
        assert sqrt((missed**2).mean()) >= laid.residual_mm - 1e-9
