"""What drawings mean in mm, checked against closed forms worked out here."""

from itertools import pairwise
from math import acos, cos, dist, pi, radians, sin, sqrt, tan

import pytest
import shapely
from files.small_cuff import OPEN_SVG
from hypothesis import given
from hypothesis import strategies as st

from armorplan.files.drawing import read_drawing
from armorplan.files.flatten import FLATTEN_MM

NAMESPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def _read(body, head=OPEN_SVG):
    return read_drawing("x.svg", f"{head}{body}</svg>")


def _ring(body, head=OPEN_SVG):
    found = _read(body, head)
    assert not found.flawed, found.flawed
    assert len(found.outlines) == 1
    return found.outlines[0].ring


def _circle(body, head=OPEN_SVG):
    found = _read(body, head)
    assert len(found.circles) == 1
    return found.circles[0]


def _page(size, box, more=""):
    width, height = size
    return f'<svg {NAMESPACES} width="{width}" height="{height}" viewBox="{box}" {more}>'


def _near(ring, *corners):
    assert len(ring) == len(corners)
    for found, expected in zip(ring, corners, strict=True):
        assert found == pytest.approx(expected, abs=1e-9)


RECT = '<rect id="r" x="10" y="5" width="30" height="20"/>'


@pytest.mark.parametrize(
    ("head", "scale"),
    [
        (_page(("200mm", "100mm"), "0 0 200 100"), 1),
        (_page(("20cm", "10cm"), "0 0 200 100"), 1),
        (_page(("2in", "1in"), "0 0 200 100"), 0.254),
        (_page(("144pt", "72pt"), "0 0 200 100"), 0.254),
        (_page(("12pc", "6pc"), "0 0 200 100"), 0.254),
        (_page(("800Q", "400Q"), "0 0 200 100"), 1),
        (_page(("100mm", "50mm"), "0,0,200,100"), 0.5),
        (f'<svg {NAMESPACES} width="100mm" viewBox="0 0 200 100">', 0.5),
        (f'<svg {NAMESPACES} height="100mm" viewBox="0 0 200 50">', 2),
        (f'<svg {NAMESPACES} width="100%" height="100mm" viewBox="0 0 200 50">', 2),
    ],
)
def test_page_units(head, scale):
    corners = [(10, 5), (40, 5), (40, 25), (10, 25)]
    _near(_ring(RECT, head), *((x * scale, y * scale) for x, y in corners))


def test_view_box_origin_becomes_the_corner_of_the_page():
    _near(
        _ring(RECT, _page(("200mm", "100mm"), "-5 -10 200 100")),
        (15, 15), (45, 15), (45, 35), (15, 35),
    )  # fmt: skip


def test_y_stays_downward():
    upper = _circle('<circle id="c" cx="1" cy="2" r="1"/>').centre
    lower = _circle('<circle id="c" cx="1" cy="7" r="1"/>').centre
    assert lower[1] > upper[1]


def test_nested_transforms_against_the_worked_out_matrix():
    # M = T(10, 20) R(30°) S(2) K(10°), the innermost applied first.
    body = (
        '<g transform="translate(10,20) rotate(30)"><g transform="scale(2) skewX(10)">'
        '<polygon id="p" points="0,0 10,0 0,10"/></g></g>'
    )
    turn = radians(30)

    def moved(x, y):
        x, y = 2 * (x + y * tan(radians(10))), 2 * y
        return 10 + x * cos(turn) - y * sin(turn), 20 + x * sin(turn) + y * cos(turn)

    _near(_ring(body), moved(0, 0), moved(10, 0), moved(0, 10))


@pytest.mark.parametrize(
    ("transform", "expected"),
    [
        ("translate(3)", (8, 7)),
        ("translate(3,-4)", (8, 3)),
        ("scale(2)", (10, 14)),
        ("scale(2 3)", (10, 21)),
        ("rotate(90)", (-7, 5)),
        ("rotate(90 5 7)", (5, 7)),
        ("rotate(180, 1, 1)", (-3, -5)),
        ("skewX(45)", (12, 7)),
        ("skewY(45)", (5, 12)),
        ("matrix(1 2 3 4 5 6)", (31, 44)),
        ("matrix(1,2,3,4,5,6) translate(-5 -7)", (5, 6)),
        ("  scale(2)translate(1e1,.5)  ", (30, 15)),
        ("", (5, 7)),
    ],
)
def test_each_transform(transform, expected):
    body = f'<rect id="r" x="5" y="7" width="1" height="1" transform="{transform}"/>'
    assert _ring(body)[0] == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("how", "expected"),
    [
        # A square box on a page twice as wide: scale 1, 50 mm to share out (SVG 1.1, 7.8).
        ("", (60, 5)),
        ("xMinYMid meet", (10, 5)),
        ("xMaxYMax", (110, 5)),
        # slice: scale 2, 100 mm of height hang over.
        ("xMidYMin slice", (20, 10)),
        ("xMidYMid slice", (20, -40)),
        ("xMidYMax slice", (20, -90)),
    ],
)
def test_aspect_rules(how, expected):
    head = _page(("200mm", "100mm"), "0 0 100 100", f'preserveAspectRatio="{how}"')
    assert _ring(RECT, head)[0] == pytest.approx(expected)


def test_page_in_a_page():
    body = '<svg x="50" y="10" width="20" height="20" viewBox="0 0 10 10">' + RECT + "</svg>"
    assert _ring(body)[0] == pytest.approx((70, 20))


def test_page_in_a_page_without_a_view_box_only_moves():
    assert _ring(f'<svg x="50" y="10">{RECT}</svg>')[0] == pytest.approx((60, 15))


def test_uses_take_their_own_id():
    found = _read(
        '<defs><circle id="c" cx="5" cy="5" r="1"/></defs>'
        '<use id="a" xlink:href="#c" x="10" y="20"/>\n'
        '<use id="b" href="#c" transform="rotate(90)"/>'
    )
    assert [(c.id, c.place.line) for c in found.circles] == [("a", 1), ("b", 2)]
    assert found.circles[0].centre == pytest.approx((15, 25))
    assert found.circles[1].centre == pytest.approx((-5, 5))


def test_use_of_a_use_takes_the_outer_id():
    found = _read(
        '<defs><circle id="c" r="1"/><use id="mid" href="#c" x="3"/></defs>'
        '<use id="outer" href="#mid" x="10"/>'
    )
    assert [(c.id, c.centre) for c in found.circles] == [("outer", (13, 0))]


def test_shapes_in_a_used_group_have_no_id_of_their_own():
    found = _read('<g id="g"><circle id="c" r="1"/></g><use id="u" href="#g" x="9"/>')
    assert [(c.id, c.centre) for c in found.circles] == [("c", (0, 0)), (None, (9, 0))]


def test_symbols_are_drawn_only_where_they_are_used():
    found = _read(
        '<symbol id="s" viewBox="0 0 10 10"><circle id="c" cx="5" cy="5" r="1"/></symbol>'
        '<use href="#s" x="10" y="20" width="20" height="20"/>'
    )
    assert [(c.id, c.centre, c.diameter_mm) for c in found.circles] == [(None, (20, 30), 4)]


@pytest.mark.parametrize(
    "hidden",
    [
        '<g style="display: none">{}</g>',
        '<g display="none"><g>{}</g></g>',
        "<defs>{}</defs>",
        "<clipPath>{}</clipPath>",
        "<mask>{}</mask>",
        "<marker>{}</marker>",
        "<pattern>{}</pattern>",
        '<g xmlns="urn:other">{}</g>',
    ],
)
def test_what_is_not_displayed_is_not_read(hidden):
    found = _read(hidden.format('<circle id="c" r="2"/>'))
    assert found.circles == ()


@pytest.mark.parametrize("wrapper", ["<g>{}</g>", "<a>{}</a>", "<switch>{}</switch>"])
def test_what_groups_is_read(wrapper):
    assert _circle(wrapper.format('<circle id="c" r="2"/>')).diameter_mm == 4


def test_prefixed_names_are_read():
    text = (
        '<s:svg xmlns:s="http://www.w3.org/2000/svg" width="20mm" height="10mm" '
        'viewBox="0 0 20 10"><s:rect id="r" width="3" height="4"/></s:svg>'
    )
    _near(read_drawing("x.svg", text).outlines[0].ring, (0, 0), (3, 0), (3, 4), (0, 4))


def test_a_bare_doctype_line_is_let_be():
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
        '"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n' + OPEN_SVG
    )
    assert _circle('<circle id="c" r="2"/>', head).place.line == 3


class TestCircles:
    def test_turned_and_scaled_circle(self):
        found = _circle(
            '<g transform="rotate(37) scale(2)"><circle id="c" cx="3" cy="4" r="1.5"/></g>'
        )
        assert found.diameter_mm == pytest.approx(6)
        assert dist((0, 0), found.centre) == pytest.approx(10)

    def test_mirrored_circle(self):
        found = _circle('<circle id="c" cx="3" cy="4" r="2" transform="scale(-1,1)"/>')
        assert (found.centre, found.diameter_mm) == ((-3, 4), 4)

    def test_ellipse_of_equal_radii_is_a_circle(self):
        assert _circle('<ellipse id="c" rx="2" ry="2"/>').diameter_mm == 4

    def test_ellipse_that_a_transform_makes_round_is_a_circle(self):
        found = _circle('<ellipse id="c" rx="1" ry="2" transform="scale(2,1)"/>')
        assert found.diameter_mm == pytest.approx(4)

    def test_circle_that_a_transform_makes_oval_is_an_outline(self):
        found = _read('<circle id="c" r="2" transform="scale(2,1)"/>')
        assert found.circles == ()
        area = shapely.Polygon(found.outlines[0].ring).area
        assert area == pytest.approx(pi * 4 * 2, rel=0.02)

    def test_a_circle_of_no_radius_is_not_drawn(self):
        assert _read('<circle id="c"/><ellipse id="e" rx="3"/>').circles == ()


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
        ring = _ring(
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
        ring = _ring('<path id="p" d="M80 0A80 80 0 0 1 -80 0A80 80 0 0 1 80 0z"/>')
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
        ring = _ring(f'<path id="p" d="M10 0A10 10 0 {flags} 0 10z"/>')
        assert area - _lost(length) <= shapely.Polygon(ring).area < area

    def test_arc_flags_choose_the_side(self):
        # Round the origin, or round (10, 10): the middles lie 10 from the one or the other.
        over = _ring('<path id="p" d="M10 0A10 10 0 0 1 0 10z"/>')
        under = _ring('<path id="p" d="M10 0A10 10 0 0 0 0 10z"/>')
        assert all(dist((0, 0), p) == pytest.approx(10) for p in over)
        assert all(dist((10, 10), p) == pytest.approx(10) for p in under)

    def test_turned_ellipse(self):
        ring = _ring('<ellipse id="e" rx="40" ry="15" transform="translate(50 50) rotate(30)"/>')
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
        ring = _ring('<path id="p" d="M0 0A1 1 0 0 1 20 0z"/>')
        assert all(dist((10, 0), p) == pytest.approx(10) for p in ring)

    def test_arc_with_a_radius_of_zero_is_straight(self):
        _near(_ring('<path id="p" d="M0 0A0 5 0 0 1 9 0L9 9z"/>'), (0, 0), (9, 0), (9, 9))

    def test_quadratic_against_the_parabola(self):
        # From (0,0) over (50,100) to (100,0): y = x(100 - x)/50, area 10000/3.
        ring = _ring('<path id="p" d="M0 0Q50 100 100 0z"/>')
        assert all(y == pytest.approx(x * (100 - x) / 50, abs=1e-9) for x, y in ring)
        # Vertical distance bounds the distance to the curve from above.
        assert _chord_error(ring, lambda p: p[1] - p[0] * (100 - p[0]) / 50) <= FLATTEN_MM * 5
        assert shapely.Polygon(ring).area == pytest.approx(10_000 / 3, abs=100 * FLATTEN_MM)

    def test_cubic_area(self):
        # x = w(3t² - 2t³) and y = 3ht(1 - t), so ∫ y dx = 18hw ∫ t²(1 - t)² dt = 3/5 · hw.
        width, height = 60, 40
        ring = _ring(f'<path id="p" d="M0 0C0 {height} {width} {height} {width} 0z"/>')
        assert shapely.Polygon(ring).area == pytest.approx(
            0.6 * width * height, abs=FLATTEN_MM * 2 * (width + height)
        )

    @given(
        st.lists(st.tuples(st.integers(-200, 200), st.integers(-200, 200)), min_size=3, max_size=3)
    )
    def test_any_cubic_keeps_to_its_tolerance(self, points):
        b, c, d = points
        body = f'<path id="p" d="M0 0C{b[0]} {b[1]} {c[0]} {c[1]} {d[0]} {d[1]}L1e3 1e3 1e3 0z"/>'
        found = _read(body)
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
        small = _page(("1mm", "1mm"), "0 0 1000 1000")
        large = _page(("1000mm", "1000mm"), "0 0 1 1")
        curve = '<path id="p" d="M0 0C0 {0} {0} {0} {0} 0z"/>'
        few = _ring(curve.format(1000), small)
        many = _ring(curve.format(1), large)
        assert len(few) < 8
        assert len(many) > 30
        radius = _ring('<ellipse id="e" rx=".4" ry=".2"/>', large)
        assert len(radius) > 60


class TestPathData:
    def test_smooth_and_relative_commands(self):
        # S after T: no cubic before it, so its first handle is the current point (SVG 1.1, 8.3.6).
        plain = _ring('<path id="p" d="M0 0Q10 0 20 0C20 0 30 40 40 0L40 -9 0 -9z"/>')
        smooth = _ring('<path id="p" d="M0 0T20 0S30 40 40 0v-9h-40z"/>')
        assert shapely.Polygon(smooth).area == pytest.approx(shapely.Polygon(plain).area)

    @pytest.mark.parametrize(
        "data",
        [
            "M0 0L10 0 10 10z",
            "m0,0l10,0,0,10z",
            "M0-0h10v10z",
            "M0 0 10 0 10 10Z",
            "M.0.0L10.0.0 10 1e1z",
            "M0 0L10. 0 010 10z",
            "M\n0\t0\r\nL 10,0\n10 10\nz",
            "M0 0L10 0 10 10 0 0",
            "M0 0L10 0 10 10 0.004 0",
            "M0 0 0 0L10 0 10 0 10 10z",
        ],
    )
    def test_one_triangle_in_many_hands(self, data):
        _near(_ring(f'<path id="p" d="{data}"/>'), (0, 0), (10, 0), (10, 10))

    def test_flags_written_together(self):
        tight = _ring('<path id="p" d="M80 80a25 25 0 01 50 0a25,25 0 0110 10z"/>')
        spaced = _ring('<path id="p" d="M80 80a25 25 0\n0\n1 50 0 a25 25 0 0 1 10 10z"/>')
        assert tight == spaced


class TestRectangles:
    def test_rounded_corners(self):
        ring = _ring('<rect id="r" width="40" height="20" rx="5"/>')
        # What the four corners lose against the full rectangle: (4 - π) r².
        area = 800 - (4 - pi) * 25
        assert area - _lost(2 * pi * 5) <= shapely.Polygon(ring).area < area

    def test_one_radius_stands_for_both_and_is_capped(self):
        by_rx = _ring('<rect id="r" width="40" height="20" rx="15"/>')
        by_ry = _ring('<rect id="r" width="40" height="20" ry="15"/>')
        assert by_rx == by_ry
        assert shapely.Polygon(by_rx).bounds == pytest.approx((0, 0, 40, 20))


def test_polygon_closes_itself_and_polyline_does_not():
    found = _read(
        '<polygon id="a" points="0,0 9,0 9,9"/><polyline id="b" points="0 0 9 0 9 9"/>'
        '<polyline id="c" points="0 0 9 0 9 9 0 0"/><line id="d" x2="9"/>'
    )
    assert [o.id for o in found.outlines] == ["a", "c"]
    assert f"open by {9 * sqrt(2):.1f} mm" in found.flawed["b"].text
    assert "open by 9.0 mm" in found.flawed["d"].text
