"""Parts that grow: factors by layer, edge distances, straps, against plain geometry."""

from itertools import pairwise
from math import cos, dist, hypot, pi, radians, sin

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.sizing.edges import kept_spots
from armorplan.geometry.sizing.factors import layer_factor
from armorplan.geometry.sizing.model import Factors
from armorplan.geometry.sizing.stretches import Gap, Lengthening, Spread, long_way


@given(
    st.floats(30, 120), st.floats(1, 8), st.floats(0, 20), st.floats(0.8, 1.25), st.floats(90, 360)
)
def test_layers_keep_their_difference_over_the_wrapped_angle(inside, apart, lift, ratio, phi_deg):
    """Nested layers differ by φ·t whatever the girth is; by 2πt round a full ring (circle geometry)."""
    phi = radians(phi_deg)
    inner, outer = phi * (inside + lift), phi * (inside + lift + apart)
    new_inner = inner * layer_factor(ratio, inside_mm=inside, lift_mm=lift)
    new_outer = outer * layer_factor(ratio, inside_mm=inside, lift_mm=lift + apart)
    assert new_outer - new_inner == pytest.approx(phi * apart, abs=1e-9)
    # And each is what a circle of the new girth asks: φ·(s·r + lift).
    assert new_inner == pytest.approx(phi * (ratio * inside + lift), abs=1e-9)


def spread(up, along, around, middle=(0.0, 0.0)):
    return Spread(middle=middle, up=up, factors=Factors(along=along, around=around))


@given(st.floats(0.8, 1.25), st.floats(0.8, 1.25), st.floats(0, 360))
@settings(max_examples=40, deadline=None)
def test_a_hole_near_an_edge_stays_as_far_from_it(along, around, turn_deg):
    up = (cos(radians(turn_deg)), -sin(radians(turn_deg)))
    ring = [
        (x * up[0] - y * up[1], x * up[1] + y * up[0])
        for x, y in ((-90, -60), (90, -60), (90, 60), (-90, 60))
    ]
    hole = (-50 * up[1], 50 * up[0])
    grown = spread(up, along, around)
    (now,) = kept_spots(tuple(ring), [hole], grown)
    edge = shapely.Polygon([grown.at(corner) for corner in ring]).exterior
    before = shapely.Polygon(ring).exterior.distance(shapely.Point(hole))
    assert before == pytest.approx(10)
    assert edge.distance(shapely.Point(now)) == pytest.approx(10, abs=1e-6)


def test_a_hole_in_a_corner_keeps_both_its_distances():
    ring = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))
    grown = spread((0.0, -1.0), 1.2, 0.9, middle=(100.0, 50.0))
    (now,) = kept_spots(ring, [(12.0, 9.0)], grown)
    left, top = grown.at((0.0, 0.0))
    assert now == (pytest.approx(left + 12), pytest.approx(top + 9))


def test_a_hole_far_from_every_edge_goes_with_the_leather():
    ring = ((0.0, 0.0), (200.0, 0.0), (200.0, 160.0), (0.0, 160.0))
    grown = spread((0.0, -1.0), 1.1, 1.2, middle=(100.0, 80.0))
    (now,) = kept_spots(ring, [(60.0, 70.0)], grown)
    assert now == pytest.approx(grown.at((60.0, 70.0)))


def test_a_flat_cone_grown_by_its_girth_is_the_net_of_the_larger_one():
    """Frustum net: s = √(h²+(R-r)²), arcs R·s/(R-r) and r·s/(R-r), angle 2π(R-r)/s (solid geometry).

    A forearm plate that wraps 120° of a taper of 60 to 45 mm over 200 mm, grown by 10 %, has edges
    as long as the net of the cone of 66 to 49.5 mm has, within half a per cent.
    """

    def net(big, small, high, wrap_deg):
        slant = hypot(high, big - small)
        outer, inner = big * slant / (big - small), small * slant / (big - small)
        half = (big - small) / slant * radians(wrap_deg) / 2

        def edge(radius):
            turns = [half * (n / 20 - 1) for n in range(41)]
            return [(radius * sin(t), -radius * cos(t)) for t in turns]

        return edge(outer), edge(inner)

    def length(line):
        return sum(dist(a, b) for a, b in pairwise(line))

    grown = spread((0.0, -1.0), 1.0, 1.1)
    for now, wanted in zip(net(60, 45, 200, 120), net(66, 49.5, 200, 120), strict=True):
        assert length([grown.at(spot) for spot in now]) == pytest.approx(length(wanted), rel=5e-3)
    assert length(net(66, 49.5, 200, 120)[0]) == pytest.approx(66 * 2 * pi / 3, rel=1e-3)


def test_a_strap_grows_in_its_gaps_and_nowhere_else():
    strap = Lengthening(
        along=(1.0, 0.0), gaps=(Gap(start=40.0, end=90.0, by_mm=10.0),), before_mm=-5.0
    )
    assert strap.at((0.0, 3.0)) == (-5.0, 3.0)
    assert strap.at((40.0, 3.0)) == (35.0, 3.0)
    assert strap.at((65.0, 3.0)) == (65.0, 3.0)
    assert strap.at((120.0, 3.0)) == (125.0, 3.0)


@pytest.mark.parametrize("turn", [0, 30, 90, 145])
def test_the_long_way_of_a_strap_is_that_of_its_sides(turn):
    c, s = cos(radians(turn)), sin(radians(turn))
    ring = tuple((c * x - s * y, s * x + c * y) for x, y in ((0, 0), (200, 0), (200, 20), (0, 20)))
    way = long_way(ring)
    assert abs(way[0] * c + way[1] * s) == pytest.approx(1)
