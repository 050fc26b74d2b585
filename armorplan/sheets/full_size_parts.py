"""A part drawn at full size: outline, slots, holes with their middles, which way is up."""

from collections.abc import Iterator, Sequence
from math import atan2, cos, degrees, dist, sin
from typing import TYPE_CHECKING

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import arrow
from armorplan.sheets.bench_sheet_ink import Ink, turn_of
from armorplan.sheets.bench_sheet_letters import BLUE, Style
from armorplan.sheets.bench_sheet_model import FullLine, FullPart
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
_BESIDE_MM, _WORD_MM, _APART_MM = 7.0, 14.0, 16.0
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
        _draw_axis(ink, one, line)
    _draw_arrows(ink, one)


def _draw_hole(ink: Ink, centre: Point, radius: float) -> None:
    ink.circle(centre, radius, thick_pt=_INSIDE_PT)
    (x, y), arm = centre, radius + _BEYOND_MM
    ink.line((x - arm, y), (x + arm, y), thick_pt=_CROSS_PT)
    ink.line((x, y - arm), (x, y + arm), thick_pt=_CROSS_PT)


def _draw_axis(ink: Ink, one: Placed, line: FullLine) -> None:
    """Draw a line as far as it crosses the part, and what it says along it."""
    ends = crossing(one.part, line)
    if ends is None:
        return
    begin, end = map(one.place, ends)
    ink.line(begin, end, thick_pt=_INSIDE_PT, colour=BLUE, dash_mm=_AXIS_MM)
    deg = degrees(atan2(begin[1] - end[1], end[0] - begin[0]))
    holes = [(one.place(hole.centre), hole.diameter_mm / 2) for hole in one.part.holes]
    spot = clear_spot(begin, end, holes)
    _draw_word(ink, spot, deg, line.label, _AXIS)


def clear_spot(begin: Point, end: Point, holes: Sequence[tuple[Point, float]]) -> Point:
    """Return where along a line its word stands: near its beginning, where no hole is in the way.

    Args:
        begin: of the line, in mm.
        end: of the line, in mm.
        holes: middles and radii.
    """
    long = dist(begin, end) or 1.0
    way = ((end[0] - begin[0]) / long, (end[1] - begin[1]) / long)
    first = min(long / 2, _WORD_MM)

    def spot_at(along: float) -> Point:
        return begin[0] + way[0] * along, begin[1] + way[1] * along

    def is_clear(along: float) -> bool:
        at = spot_at(along)
        for (x, y), radius in holes:
            aside = abs((x - at[0]) * way[1] - (y - at[1]) * way[0])
            beside = abs((x - at[0]) * way[0] + (y - at[1]) * way[1])
            if aside < radius + _AXIS.lead_mm + 1 and beside < radius + _WORD_MM - 1:
                return False
        return True

    spots = (first + step for step in range(0, max(1, int(long - 2 * first)), 2))
    return spot_at(next(filter(is_clear, spots), first))


def crossing(part: FullPart, line: FullLine) -> tuple[Point, Point] | None:
    """Return from where to where a line crosses a part, a little beyond; ``None``: it misses it."""
    from shapely import LineString, Polygon

    (x1, y1), (x2, y2) = line.ends
    long = dist(*line.ends)
    if not long:
        return None
    dx, dy = (x2 - x1) / long, (y2 - y1) / long
    within = LineString(line.ends).intersection(Polygon(part.outline).buffer(0))
    if within.is_empty or not within.length:
        return None
    along = [(x - x1) * dx + (y - y1) * dy for x, y in _corners(within)]
    least, most = min(along) - _BEYOND_MM * 3, max(along) + _BEYOND_MM * 3
    return (x1 + dx * least, y1 + dy * least), (x1 + dx * most, y1 + dy * most)


def _corners(lines: "BaseGeometry") -> Iterator[Point]:
    from shapely import get_coordinates

    yield from ((float(x), float(y)) for x, y in get_coordinates(lines))


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
        spot = one.place(roomiest(one.part, beside=roomiest(one.part)))
    arrow(ink, spot, way, min(max(long, _LEAST_MM * 2), _LONGEST_MM), heads=2)
    _draw_word(ink, spot, way, "backbone")


def _draw_word(ink: Ink, middle: Point, deg: float, words: str, style: Style = WORDS) -> None:
    """Write a word along an arrow, so that it reads from below or from the right."""
    turn = (deg + 89.0) % 180.0 - 89.0
    way = turn_of(turn)
    at = (middle[0] - sin(way) * 1.0, middle[1] - cos(way) * 1.0)
    ink.turned(at, words, style, turn)


def roomiest(part: FullPart, *, beside: Point | None = None) -> Point:
    """Return the spot of a part farthest from its edge, its holes and its slots, to 2 mm.

    ``beside``: a spot that is taken already.
    """
    from shapely import Point as Spot
    from shapely import Polygon, unary_union
    from shapely.ops import polylabel

    whole = Polygon(part.outline).buffer(0)
    taken = [] if beside is None else [Spot(beside).buffer(_APART_MM)]
    left = whole.difference(unary_union([*_openings(part), *taken]))
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
