"""Curves against closed forms worked out here."""

from itertools import pairwise
from math import acos, cos, dist, pi, radians, sin

import pytest
import shapely
from files.drawn import page, read_body, ring_of
from hypothesis import given
from hypothesis import strategies as st

from armorplan.files.flatten import FLATTEN_MM


def _chord_error(ring, distance):
    """Return how far the middles of the chords lie from the true curve, at most."""
    spots = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(ring)]
    return max(abs(distance(spot)) for spot in spots)


def _lost(length):
    """Return the area that chords cut off an arc of this length, at most: 2/3 of the rise each."""
    return 2 / 3 * FLATTEN_MM * length


class TestFlattening:
    @pytest.mark.parametrize("radius", [0.04, 1, 7.5, 80, 4000])
    def test_circle_as_arcs(self, radius):
        ring = ring_of(
            f'<path id="p" d="M{radius} 0A{radius} {radius} 0 0 1 -{radius} 0'
            f'A{radius} {radius} 0 0 1 {radius} 0z"/>'
        )
        assert all(dist((0, 0), p) == pytest.approx(radius, abs=1e-9) for p in ring)
        assert _chord_error(ring, lambda p: radius - dist((0, 0), p)) <= FLATTEN_MM
        # An inscribed polygon of n corners has n/2 · r² · sin(2π/n).
        count = len(ring)
        area = count / 2 * radius**2 * sin(2 * pi / count)
        assert shapely.Polygon(ring).area == pytest.approx(area)

    def test_no_more_corners_than_the_tolerance_asks_for(self):
        ring = ring_of('<path id="p" d="M80 0A80 80 0 0 1 -80 0A80 80 0 0 1 80 0z"/>')
        assert len(ring) <= 2 * pi / (2 * acos(1 - FLATTEN_MM / 80)) + 2

    @pytest.mark.parametrize(
        ("flags", "area", "length"),
        [
            # Chord √2·10 of a circle of radius 10: segments of 90° and of 270°.
            ("0 1", 25 * pi - 50, 5 * pi),
            ("1 1", 75 * pi + 50, 15 * pi),
            ("0 0", 25 * pi - 50, 5 * pi),
            ("1 0", 75 * pi + 50, 15 * pi),
        ],
    )
    def test_arc_flags(self, flags, area, length):
        ring = ring_of(f'<path id="p" d="M10 0A10 10 0 {flags} 0 10z"/>')
        assert area - _lost(length) <= shapely.Polygon(ring).area < area

    def test_arc_flags_choose_the_side(self):
        # Round the origin, or round (10, 10): the middles lie 10 from the one or the other.
        over = ring_of('<path id="p" d="M10 0A10 10 0 0 1 0 10z"/>')
        under = ring_of('<path id="p" d="M10 0A10 10 0 0 0 0 10z"/>')
        assert all(dist((0, 0), p) == pytest.approx(10) for p in over)
        assert all(dist((10, 10), p) == pytest.approx(10) for p in under)

    def test_turned_ellipse(self):
        ring = ring_of('<ellipse id="e" rx="40" ry="15" transform="translate(50 50) rotate(30)"/>')
        turn = radians(30)
        for x, y in ring:
            u = (x - 50) * cos(turn) + (y - 50) * sin(turn)
            v = -(x - 50) * sin(turn) + (y - 50) * cos(turn)
            assert (u / 40) ** 2 + (v / 15) ** 2 == pytest.approx(1, abs=1e-9)
        # Of an inscribed polygon spread evenly in angle: n/2 · a · b · sin(2π/n).
        count = len(ring)
        area = count / 2 * 40 * 15 * sin(2 * pi / count)
        assert shapely.Polygon(ring).area == pytest.approx(area)
        assert area > 0.99 * pi * 40 * 15

    def test_arc_of_radii_too_small_is_scaled_up(self):
        # SVG 1.1, F.6.6: the radius grows to half the distance of the ends.
        ring = ring_of('<path id="p" d="M0 0A1 1 0 0 1 20 0z"/>')
        assert all(dist((10, 0), p) == pytest.approx(10) for p in ring)

    def test_arc_with_a_radius_of_zero_is_straight(self):
        ring = ring_of('<path id="p" d="M0 0A0 5 0 0 1 9 0L9 9z"/>')
        assert ring == ((0, 0), (9, 0), (9, 9))

    def test_quadratic_against_the_parabola(self):
        # From (0,0) over (50,100) to (100,0): y = x(100 - x)/50, area 10000/3.
        ring = ring_of('<path id="p" d="M0 0Q50 100 100 0z"/>')
        assert all(y == pytest.approx(x * (100 - x) / 50, abs=1e-9) for x, y in ring)
        # Vertical distance bounds the distance to the curve from above.
        assert _chord_error(ring, lambda p: p[1] - p[0] * (100 - p[0]) / 50) <= FLATTEN_MM * 5
        assert shapely.Polygon(ring).area == pytest.approx(10_000 / 3, abs=100 * FLATTEN_MM)

    def test_cubic_area(self):
        # x = w(3t² - 2t³) and y = 3ht(1 - t), so ∫ y dx = 18hw ∫ t²(1 - t)² dt = 3/5 · hw.
        width, height = 60, 40
        ring = ring_of(f'<path id="p" d="M0 0C0 {height} {width} {height} {width} 0z"/>')
        assert shapely.Polygon(ring).area == pytest.approx(
            0.6 * width * height, abs=FLATTEN_MM * 2 * (width + height)
        )

    @given(
        st.lists(st.tuples(st.integers(-200, 200), st.integers(-200, 200)), min_size=3, max_size=3)
    )
    def test_any_cubic_keeps_to_its_tolerance(self, points):
        b, c, d = points
        body = f'<path id="p" d="M0 0C{b[0]} {b[1]} {c[0]} {c[1]} {d[0]} {d[1]}L1e3 1e3 1e3 0z"/>'
        found = read_body(body)
        if found.flawed:
            assert set(found.flawed) == {"p"}
            return
        line = shapely.LineString([(0, 0), *found.outlines[0].ring[1:]])
        for step in range(101):
            t = step / 100
            weights = 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            spot = [sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1)]
            assert line.distance(shapely.Point(spot)) <= FLATTEN_MM

    def test_tolerance_is_in_mm_whatever_the_scale(self):
        small = page(("1mm", "1mm"), "0 0 1000 1000")
        large = page(("1000mm", "1000mm"), "0 0 1 1")
        curve = '<path id="p" d="M0 0C0 {0} {0} {0} {0} 0z"/>'
        few = ring_of(curve.format(1000), small)
        many = ring_of(curve.format(1), large)
        assert len(few) < 8
        assert len(many) > 30
        radius = ring_of('<ellipse id="e" rx=".4" ry=".2"/>', large)
        assert len(radius) > 60


class TestRectangles:
    def test_rounded_corners(self):
        ring = ring_of('<rect id="r" width="40" height="20" rx="5"/>')
        # What the four corners lose against the full rectangle: (4 - π) r².
        area = 800 - (4 - pi) * 25
        assert area - _lost(2 * pi * 5) <= shapely.Polygon(ring).area < area

    def test_one_radius_stands_for_both_and_is_capped(self):
        by_rx = ring_of('<rect id="r" width="40" height="20" rx="15"/>')
        by_ry = ring_of('<rect id="r" width="40" height="20" ry="15"/>')
        assert by_rx == by_ry
        assert shapely.Polygon(by_rx).bounds == pytest.approx((0, 0, 40, 20))
