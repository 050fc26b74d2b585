"""Drawings against formulas, a second reader and a writer of another making.

Formulas: areas and lengths of closed shapes (any mathematics handbook). Second reader: svgelements
1.9.6, which integrates curves by itself. Writer: ezdxf 1.4, whose polylines, arcs, splines and
ellipses are measured by what they were made of. Path cases are made here in the manner of the path
chapter of SVG 1.1 (section 8.3): absolute and relative, implicit repeats, smooth curves, arc flags.
"""

import io
from itertools import pairwise
from math import dist, pi, sin, sqrt, tan

import ezdxf
import pytest
import shapely
import svgelements
from files.loose.reading_kit import loose

from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.sorting import sorted_out

FLAT_MM = 0.05
PATHS = {
    "lines": "M 100 100 L 300 100 L 200 300 z",
    "relative lines": "m100 100l200 0-100 200z",
    "across and down": "M10 10H90V70H10Z",
    "relative across and down": "m10 10h80v60h-80z",
    "repeats": "M 10 10 90 10 90 70 10 70 z",
    "cubic": "M100 200 C100 100 250 100 250 200 S400 300 400 200 L 400 260 L 100 260 z",
    "relative cubic": "m100 200c0-100 150-100 150 0s150 100 150 0v60h-300z",
    "quadratic": "M200 300 Q400 50 600 300 T1000 300 V 400 H 200 z",
    "relative quadratic": "m200 300q200-250 400 0t400 0v100h-800z",
    "arcs": "M300 200 h-150 a150 150 0 1 0 150 -150 z",
    "arc the short way": "M275 175 v-150 a150 150 0 0 0 -150 150 z",
    "turned arcs": "M600 350 l50 -25 a25 50 -30 0 1 50 -25 l 50 -25 a25 75 -30 0 1 50-25 V 400 H600z",
    "flags without spaces": "M10 80a45 45 0 00125 125L125 80z",
    "small numbers": "M.5.5l10.25.5.5 9.75-10-.25z",
    "powers of ten": "M1e1 1e1L9e1 1e1 9E1 7e1z",
    "several lines": "M0 0h50v50h-50z M80 0h50v50z",
}


def ring_length(points):
    return sum(dist(a, b) for a, b in pairwise((*points, points[0])))


def by_svgelements(data):
    """Return area and length of each line of a path, the area from 300 spots of every curve."""
    for line in svgelements.Path(data).as_subpaths():
        path = svgelements.Path(line)
        spots = [
            (spot.x, spot.y)
            for piece in path
            if not isinstance(piece, svgelements.Move)
            for spot in (
                [piece.point(n / 300) for n in range(301)]
                if not isinstance(piece, svgelements.Line | svgelements.Close)
                else [piece.start, piece.end]
            )
            if spot is not None
        ]
        yield shapely.Polygon(spots).area, path.length(error=1e-4)


@pytest.mark.parametrize("name", sorted(PATHS))
def test_areas_and_lengths_agree_with_a_second_reader(tmp_path, name):
    head = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="1100mm" height="700mm" '
        'viewBox="0 0 1100 700">'
    )
    found = loose(tmp_path, f'<path d="{PATHS[name]}"/>', head=head).strokes
    other = list(by_svgelements(PATHS[name]))
    assert len(found) == len(other)
    for stroke, (area, length) in zip(found, other, strict=True):
        assert stroke.closed
        # Chords lie at most FLAT_MM off the curve, all along.
        assert shapely.Polygon(stroke.points).area == pytest.approx(area, abs=FLAT_MM * length)
        # An arc is longer than its chord by 8/3 of the rise squared, over the chord.
        assert ring_length(stroke.points) == pytest.approx(length, rel=2e-3)


def written(make):
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 4
    make(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def only_area(folder, make):
    """Return area and length of the one part drawn, and its circle."""
    found = sorted_out(loose(folder, written(make), name="watch.dxf"), mm_each=1.0)
    (part,) = [s for s in found.shapes if s.kind is ShapeKind.PART]
    return shapely.Polygon(part.points).area, ring_length(part.points), part.circle


def close(found, area, length):
    """Hold what chords lose: two thirds of their rise in area, twice that in length is plenty."""
    assert area - FLAT_MM * length <= found[0] <= area + 1e-6 * area
    assert found[1] == pytest.approx(length, rel=2e-3)


def test_a_polyline_with_bulges(tmp_path):
    # A stadium: two half circles of radius 20 (bulge 1, DXF reference: tan(turn / 4)) and 60 mm.
    found = only_area(
        tmp_path,
        lambda space: space.add_lwpolyline(
            [(0, 0, 0), (60, 0, 1), (60, 40, 0), (0, 40, 1)], format="xyb", close=True
        ),
    )
    close(found, 60 * 40 + pi * 400, 120 + 2 * pi * 20)


@pytest.mark.parametrize("turn", [pi / 6, pi / 2, pi, 1.6 * pi])
def test_a_bulge_is_the_tangent_of_a_quarter_of_the_turn(tmp_path, turn):
    chord = 100.0
    radius = chord / (2 * sin(turn / 2))
    segment = radius**2 / 2 * (turn - sin(turn))
    found = only_area(
        tmp_path,
        lambda space: space.add_lwpolyline(
            [(0, 0, tan(turn / 4)), (chord, 0, 0)], format="xyb", close=True
        ),
    )
    close(found, segment, radius * turn + chord)


def test_an_old_polyline_with_bulges(tmp_path):
    found = only_area(
        tmp_path,
        lambda space: space.add_polyline2d([(0, 0, 1), (80, 0, 1)], format="xyb", close=True),
    )
    assert found[2] is not None
    assert found[2][1] == pytest.approx(80.0, abs=0.01)


def test_an_ellipse(tmp_path):
    found = only_area(tmp_path, lambda space: space.add_ellipse((5, 5), (60, 0), 0.4))
    h = ((60 - 24) / (60 + 24)) ** 2
    # Ramanujan's second approximation of the perimeter (1914), off by less than 1e-5 here.
    around = pi * 84 * (1 + 3 * h / (10 + sqrt(4 - 3 * h)))
    close(found, pi * 60 * 24, around)


def test_two_arcs_and_two_lines(tmp_path):
    def make(space):
        space.add_arc((0, 0), 30, 90, 270)
        space.add_arc((50, 0), 30, -90, 90)
        space.add_line((0, 30), (50, 30))
        space.add_line((50, -30), (0, -30))

    close(only_area(tmp_path, make), pi * 900 + 50 * 60, 2 * pi * 30 + 100)


def test_a_closed_spline_agrees_with_its_own_formula(tmp_path):
    from ezdxf.math import BSpline

    points = [(0, 0), (80, -10), (120, 50), (60, 100), (-20, 60)]
    spline = BSpline(points, order=4)
    spots = [(p.x, p.y) for p in spline.approximate(5000)]

    def make(space):
        made = space.add_spline()
        made.dxf.degree = 3
        made.control_points = points
        made.knots = spline.knots()
        space.add_line(points[-1], points[0])

    area, length = shapely.Polygon(spots).area, ring_length(spots)
    found = only_area(tmp_path, make)
    assert found[0] == pytest.approx(area, abs=FLAT_MM * length)
    assert found[1] == pytest.approx(length, rel=2e-3)


def test_nested_blocks_scale_areas_by_their_product(tmp_path):
    def make(space):
        blocks = space.doc.blocks
        blocks.new("plate").add_lwpolyline([(0, 0), (10, 0), (10, 6)], close=True)
        blocks.new("twice").add_blockref("plate", (3, 3), dxfattribs={"xscale": -2, "yscale": 2})
        space.add_blockref("twice", (9, 9), dxfattribs={"xscale": 3, "yscale": 2, "rotation": 31})

    found = only_area(tmp_path, make)
    assert found[0] == pytest.approx(30 * 2 * 2 * 3 * 2)


@pytest.mark.parametrize(
    ("body", "area", "length"),
    [
        ('<circle cx="90" cy="90" r="40"/>', pi * 1600, 2 * pi * 40),
        ('<rect x="5" y="5" width="80" height="40"/>', 3200.0, 240.0),
        (
            '<rect width="80" height="40" rx="10"/>',
            3200.0 - (4 - pi) * 100,
            240.0 - 80 + 2 * pi * 10,
        ),
        ('<polygon points="0,0 60,0 0,80"/>', 2400.0, 240.0),
        ('<path d="M60 50a30 30 0 0 1 -60 0z"/>', pi * 450, pi * 30 + 60),
    ],
)
def test_shapes_by_formula(tmp_path, body, area, length):
    found = sorted_out(loose(tmp_path, body), mm_each=1.0)
    (part,) = found.shapes
    close((shapely.Polygon(part.points).area, ring_length(part.points)), area, length)


def test_a_turned_and_sheared_group_scales_areas_by_its_determinant(tmp_path):
    body = (
        '<g transform="translate(80 40) rotate(30) skewX(20)"><g transform="matrix(1.5 .2 -.1 .8 0 0)">'
        '<rect width="40" height="30"/></g></g>'
    )
    (part,) = sorted_out(loose(tmp_path, body), mm_each=1.0).shapes
    assert shapely.Polygon(part.points).area == pytest.approx(1200 * (1.5 * 0.8 + 0.2 * 0.1))
