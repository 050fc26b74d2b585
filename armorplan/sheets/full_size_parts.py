"""A part drawn at full size: outline, slots, holes with their middles, which way is up."""

from collections.abc import Iterator
from math import cos, sin
from typing import TYPE_CHECKING

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import arrow
from armorplan.sheets.bench_sheet_ink import BLUE, Ink, Style, turn_of
from armorplan.sheets.bench_sheet_model import FullPart
from armorplan.sheets.full_size_marks import WORDS
from armorplan.sheets.full_size_tiles import Placed

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_CUT_PT, _INSIDE_PT, _CROSS_PT = 0.7, 0.5, 0.25
_BEYOND_MM = 0.9
"""So far the cross of a hole reaches beyond it."""
_LONGEST_MM, _LEAST_MM = 22.0, 6.0
_ROOMY_MM = 24.0
"""A part so wide has room for a second arrow beside the first."""
_BESIDE_MM, _ALONG_MM = 7.0, 26.0
_AXIS_MM = (4.0, 1.2, 0.8, 1.2)
_AXIS = Style(size_pt=6.4, lead_mm=3.0, colour=BLUE)


def draw_part(ink: Ink, one: Placed) -> None:
    """Draw a part where it lies."""
    part = one.part
    ink.ring(tuple(map(one.place, part.outline)), thick_pt=_CUT_PT)
    for slot in part.slots:
        ink.ring(tuple(map(one.place, slot)), thick_pt=_INSIDE_PT)
    for hole in part.holes:
        _draw_hole(ink, one.place(hole.centre), hole.diameter_mm / 2)
    for line in part.lines:
        begin, end = map(one.place, line.ends)
        ink.line(begin, end, thick_pt=_INSIDE_PT, colour=BLUE, dash_mm=_AXIS_MM)
        ink.text((begin[0] + 1, begin[1] - 1), line.label, _AXIS)
    _draw_arrows(ink, one)


def _draw_hole(ink: Ink, centre: Point, radius: float) -> None:
    ink.circle(centre, radius, thick_pt=_INSIDE_PT)
    (x, y), arm = centre, radius + _BEYOND_MM
    ink.line((x - arm, y), (x + arm, y), thick_pt=_CROSS_PT)
    ink.line((x, y - arm), (x, y + arm), thick_pt=_CROSS_PT)


def _draw_arrows(ink: Ink, one: Placed) -> None:
    """Draw where up is, and the hide's backbone where that matters, where holes leave room."""
    middle, up = one.place(roomiest(one.part)), one.direction(one.part.up_deg)
    room = min(one.size)
    long = max(min(room * 0.5, _LONGEST_MM), _LEAST_MM)
    arrow(ink, middle, up, long, heads=1)
    _draw_word(ink, middle, up, "up")
    if one.part.backbone_deg is None:
        return
    way = one.direction(one.part.backbone_deg)
    turn = turn_of(up)
    spot = (middle[0] + sin(turn) * _BESIDE_MM, middle[1] + cos(turn) * _BESIDE_MM)
    if room < _ROOMY_MM:
        turn = turn_of(way)
        spot = (middle[0] + cos(turn) * _ALONG_MM, middle[1] - sin(turn) * _ALONG_MM)
    arrow(ink, spot, way, max(long, _LONGEST_MM), heads=2)
    _draw_word(ink, spot, way, "backbone")


def _draw_word(ink: Ink, middle: Point, deg: float, words: str) -> None:
    """Write a word along an arrow, so that it reads from below or from the right."""
    turn = (deg + 89.0) % 180.0 - 89.0
    way = turn_of(turn)
    at = (middle[0] - sin(way) * 1.0, middle[1] - cos(way) * 1.0)
    ink.turned(at, words, WORDS, turn)


def roomiest(part: FullPart) -> Point:
    """Return the spot of a part farthest from its edge, its holes and its slots, to 2 mm."""
    from shapely import Polygon, unary_union
    from shapely.ops import polylabel

    whole = Polygon(part.outline).buffer(0)
    left = whole.difference(unary_union(list(_openings(part))))
    pieces = [one for one in getattr(left, "geoms", [left]) if one.area]
    if not pieces:
        spot = whole.representative_point()
        return spot.x, spot.y
    spot = polylabel(max(pieces, key=lambda one: float(one.area)), 2.0)
    return spot.x, spot.y


def _openings(part: FullPart) -> Iterator["BaseGeometry"]:
    from shapely import Point as Spot
    from shapely import Polygon

    for hole in part.holes:
        yield Spot(hole.centre).buffer(hole.diameter_mm / 2 + 1, 2)
    for slot in part.slots:
        yield Polygon(slot).buffer(0)
