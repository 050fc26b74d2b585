"""How many holes a row wants, and where they lie on its curve."""

from math import cos, dist, pi, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.sizing.spacing import Curve, count_for, gaps_mm, is_by_rule


@given(st.lists(st.floats(8, 70), min_size=1, max_size=12))
def test_a_new_count_brings_the_mean_spacing_into_20_to_40_mm(gaps):
    count, total = count_for(gaps), sum(gaps)
    if is_by_rule(gaps):
        assert count == len(gaps)
    elif total >= 40:
        assert 20 - 1e-6 <= total / count <= 40 + 1e-6
    else:
        assert count == 1
    # None nearer to what there was would do.
    between = range(min(count, len(gaps)) + 1, max(count, len(gaps)))
    assert not any(20 <= total / one <= 40 for one in between)


def arc(radius, count, sweep_deg):
    turns = [radians(sweep_deg) * n / (count - 1) for n in range(count)]
    return [(radius * cos(turn), radius * sin(turn)) for turn in turns]


@given(st.floats(60, 400), st.integers(2, 12), st.floats(0.97, 1.03))
@settings(max_examples=40, deadline=None)
def test_spots_are_as_far_apart_as_asked_and_stand_over_alike(radius, count, share):
    row = arc(radius, count, 40)
    asked = [gap * share for gap in gaps_mm(row)]
    found = Curve(row).stepped(asked)
    assert gaps_mm(found) == pytest.approx(asked, abs=1e-5)
    assert dist(found[0], row[0]) == pytest.approx(dist(found[-1], row[-1]), abs=0.02)


def test_a_curve_through_an_arc_is_the_arc():
    """Length of a circle's arc: r·φ (circle geometry)."""
    curve = Curve(arc(150, 9, 90))
    assert curve.length_mm == pytest.approx(150 * pi / 2, rel=1e-3)
    assert dist(curve.at(curve.length_mm / 2), (150 * cos(pi / 4), 150 * sin(pi / 4))) < 0.1


def test_holes_put_between_two_lie_evenly():
    row = arc(200, 5, 45)
    inner = Curve(row).even(row[0], row[-1], 7)
    gaps = gaps_mm([row[0], *inner, row[-1]])
    assert max(gaps) - min(gaps) < 0.05
