"""What drawings mean in mm, checked against closed forms worked out here."""

from math import cos, dist, pi, radians, sin, sqrt, tan

import pytest
import shapely
from files.drawn import NAMESPACES, circle_of, page, read_body, ring_of
from files.small_cuff import OPEN_SVG

from armorplan.files.drawing import read_drawing


def _near(ring, *corners):
    assert len(ring) == len(corners)
    for found, expected in zip(ring, corners, strict=True):
        assert found == pytest.approx(expected, abs=1e-9)


RECT = '<rect id="r" x="10" y="5" width="30" height="20"/>'


@pytest.mark.parametrize(
    ("head", "scale"),
    [
        (page(("200mm", "100mm"), "0 0 200 100"), 1),
        (page(("20cm", "10cm"), "0 0 200 100"), 1),
        (page(("2in", "1in"), "0 0 200 100"), 0.254),
        (page(("144pt", "72pt"), "0 0 200 100"), 0.254),
        (page(("12pc", "6pc"), "0 0 200 100"), 0.254),
        (page(("800Q", "400Q"), "0 0 200 100"), 1),
        (page(("100mm", "50mm"), "0,0,200,100"), 0.5),
        (f'<svg {NAMESPACES} width="100mm" viewBox="0 0 200 100">', 0.5),
        (f'<svg {NAMESPACES} height="100mm" viewBox="0 0 200 50">', 2),
        (f'<svg {NAMESPACES} width="100%" height="100mm" viewBox="0 0 200 50">', 2),
    ],
)
def test_page_units(head, scale):
    corners = [(10, 5), (40, 5), (40, 25), (10, 25)]
    _near(ring_of(RECT, head), *((x * scale, y * scale) for x, y in corners))


def test_view_box_origin_becomes_the_corner_of_thepage():
    _near(
        ring_of(RECT, page(("200mm", "100mm"), "-5 -10 200 100")),
        (15, 15), (45, 15), (45, 35), (15, 35),
    )  # fmt: skip


def test_y_stays_downward():
    upper = circle_of('<circle id="c" cx="1" cy="2" r="1"/>').centre
    lower = circle_of('<circle id="c" cx="1" cy="7" r="1"/>').centre
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

    _near(ring_of(body), moved(0, 0), moved(10, 0), moved(0, 10))


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
    assert ring_of(body)[0] == pytest.approx(expected, abs=1e-9)


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
    head = page(("200mm", "100mm"), "0 0 100 100", f'preserveAspectRatio="{how}"')
    assert ring_of(RECT, head)[0] == pytest.approx(expected)


def test_page_in_apage():
    body = '<svg x="50" y="10" width="20" height="20" viewBox="0 0 10 10">' + RECT + "</svg>"
    assert ring_of(body)[0] == pytest.approx((70, 20))


def test_page_in_a_page_without_a_view_box_only_moves():
    assert ring_of(f'<svg x="50" y="10">{RECT}</svg>')[0] == pytest.approx((60, 15))


def test_uses_take_their_own_id():
    found = read_body(
        '<defs><circle id="c" cx="5" cy="5" r="1"/></defs>'
        '<use id="a" xlink:href="#c" x="10" y="20"/>\n'
        '<use id="b" href="#c" transform="rotate(90)"/>'
    )
    assert [(c.id, c.place.line) for c in found.circles] == [("a", 1), ("b", 2)]
    assert found.circles[0].centre == pytest.approx((15, 25))
    assert found.circles[1].centre == pytest.approx((-5, 5))


def test_use_of_a_use_takes_the_outer_id():
    found = read_body(
        '<defs><circle id="c" r="1"/><use id="mid" href="#c" x="3"/></defs>'
        '<use id="outer" href="#mid" x="10"/>'
    )
    assert [(c.id, c.centre) for c in found.circles] == [("outer", (13, 0))]


def test_shapes_in_a_used_group_have_no_id_of_their_own():
    found = read_body('<g id="g"><circle id="c" r="1"/></g><use id="u" href="#g" x="9"/>')
    assert [(c.id, c.centre) for c in found.circles] == [("c", (0, 0)), (None, (9, 0))]


def test_symbols_are_drawn_only_where_they_are_used():
    found = read_body(
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
def test_what_is_not_displayed_is_notread_body(hidden):
    found = read_body(hidden.format('<circle id="c" r="2"/>'))
    assert found.circles == ()


@pytest.mark.parametrize("wrapper", ["<g>{}</g>", "<a>{}</a>", "<switch>{}</switch>"])
def test_what_groups_isread_body(wrapper):
    assert circle_of(wrapper.format('<circle id="c" r="2"/>')).diameter_mm == 4


def test_prefixed_names_areread_body():
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
    assert circle_of('<circle id="c" r="2"/>', head).place.line == 3


class TestCircles:
    def test_turned_and_scaledcircle_of(self):
        found = circle_of(
            '<g transform="rotate(37) scale(2)"><circle id="c" cx="3" cy="4" r="1.5"/></g>'
        )
        assert found.diameter_mm == pytest.approx(6)
        assert dist((0, 0), found.centre) == pytest.approx(10)

    def test_mirroredcircle_of(self):
        found = circle_of('<circle id="c" cx="3" cy="4" r="2" transform="scale(-1,1)"/>')
        assert (found.centre, found.diameter_mm) == ((-3, 4), 4)

    def test_ellipse_of_equal_radii_is_acircle_of(self):
        assert circle_of('<ellipse id="c" rx="2" ry="2"/>').diameter_mm == 4

    def test_ellipse_that_a_transform_makes_round_is_acircle_of(self):
        found = circle_of('<ellipse id="c" rx="1" ry="2" transform="scale(2,1)"/>')
        assert found.diameter_mm == pytest.approx(4)

    def test_circle_that_a_transform_makes_oval_is_an_outline(self):
        found = read_body('<circle id="c" r="2" transform="scale(2,1)"/>')
        assert found.circles == ()
        area = shapely.Polygon(found.outlines[0].ring).area
        assert area == pytest.approx(pi * 4 * 2, rel=0.02)

    def test_a_circle_of_no_radius_is_not_drawn(self):
        assert read_body('<circle id="c"/><ellipse id="e" rx="3"/>').circles == ()


class TestPathData:
    def test_smooth_and_relative_commands(self):
        # S after T: no cubic before it, so its first handle is the current point (SVG 1.1, 8.3.6).
        plain = ring_of('<path id="p" d="M0 0Q10 0 20 0C20 0 30 40 40 0L40 -9 0 -9z"/>')
        smooth = ring_of('<path id="p" d="M0 0T20 0S30 40 40 0v-9h-40z"/>')
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
        _near(ring_of(f'<path id="p" d="{data}"/>'), (0, 0), (10, 0), (10, 10))

    def test_flags_written_together(self):
        tight = ring_of('<path id="p" d="M80 80a25 25 0 01 50 0a25,25 0 0110 10z"/>')
        spaced = ring_of('<path id="p" d="M80 80a25 25 0\n0\n1 50 0 a25 25 0 0 1 10 10z"/>')
        assert tight == spaced


def test_polygon_closes_itself_and_polyline_does_not():
    found = read_body(
        '<polygon id="a" points="0,0 9,0 9,9"/><polyline id="b" points="0 0 9 0 9 9"/>'
        '<polyline id="c" points="0 0 9 0 9 9 0 0"/><line id="d" x2="9"/>'
    )
    assert [o.id for o in found.outlines] == ["a", "c"]
    assert f"open by {9 * sqrt(2):.1f} mm" in found.flawed["b"].text
    assert "open by 9.0 mm" in found.flawed["d"].text
