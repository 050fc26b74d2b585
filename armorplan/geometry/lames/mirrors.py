"""Which way a lame lies along the limb, from its own shape: bend axes, mirror lines, other pivots."""

from cmath import phase, rect
from functools import lru_cache
from math import cos, hypot, pi, radians
from typing import NamedTuple

from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.geometry.lames.seats import Seat, up_of
from armorplan.pattern.joining import FormKind
from armorplan.pattern.parts import Part, Point, Ring
from armorplan.pattern.pattern import Pattern

SYMMETRIC_MM = 1.0
"""An outline is a mirror of itself if it misses by no more than this."""
FAR_OFF_DEG = 30.0
"""What lies further off than this from square to the pivots was not drawn for them."""
NEARLY_UP_DEG = 6.0
"""Further off than this a part is taken to be drawn turned."""
_ROUND = 0.97
"""4πA / P² above which an outline is taken for a disc, which any line mirrors."""
_LEAST_AREA_MM2 = 1.0
_MOST_LENGTH_MM, _MOST_CORNERS = 20_000.0, 4_000
"""Longer outlines, or with more corners, are not held against themselves."""


class Along(NamedTuple):
    """A direction along the limb, of length 1, and where it comes from.

    ``own`` where the part's own shape tells it, not only another pair of its pivots.
    """

    way: Point
    words: str
    weak: bool = False
    own: bool = True


@lru_cache(maxsize=1024)
def mirror_lines(outline: Ring) -> tuple[Point, ...]:
    """Return the directions of the lines that an outline is a mirror of itself about."""
    from armorplan.geometry.alike.outline_fit import Contour, fits

    area_mm2, length_mm = ring_area_mm2(outline), ring_length_mm(outline)
    if length_mm > _MOST_LENGTH_MM or len(outline) > _MOST_CORNERS:
        return ()  # No lame: it would be looked at for seconds.
    if area_mm2 < _LEAST_AREA_MM2 or 4 * pi * area_mm2 > _ROUND * length_mm**2:
        return ()
    contour = Contour(outline)
    found = fits(contour, contour, SYMMETRIC_MM, mirrored=True)
    turns = (pose.turn for pose in found if pose.miss_mm <= SYMMETRIC_MM)
    lines = (rect(1.0, phase(complex(turn)) / 2) for turn in turns)
    return tuple((line.real, line.imag) for line in lines)


def _pointed(way: Point, seat: Seat) -> Point:
    """Return a direction pointed up the limb."""
    up = seat.up
    sign = 1 if way[0] * up[0] + way[1] * up[1] >= 0 else -1
    return sign * way[0], sign * way[1]


def _within(way: Point, seat: Seat, most_deg: float) -> bool:
    up = seat.up
    return abs(way[0] * up[0] + way[1] * up[1]) >= cos(radians(most_deg))


def _holds(part: Part, spot: Point) -> bool:
    xs, ys = [x for x, _ in part.outline], [y for _, y in part.outline]
    return min(xs) <= spot[0] <= max(xs) and min(ys) <= spot[1] <= max(ys)


def _bend_axes(pattern: Pattern, part: Part) -> tuple[Along, ...]:
    """Return the axes of the bends that are drawn in a part."""
    found = []
    for form in pattern.forms:
        if form.kind is FormKind.BEND and form.axis and part.id in form.parts:
            (x0, y0), (x1, y1) = form.axis
            length = hypot(x1 - x0, y1 - y0)
            if length > 0 and _holds(part, ((x0 + x1) / 2, (y0 + y1) / 2)):
                way = ((x1 - x0) / length, (y1 - y0) / length)
                found.append(Along(way, f"the axis of its bend '{form.id}'"))
    return tuple(found)


def ways_along(pattern: Pattern, seat: Seat, others: tuple[Seat, ...]) -> tuple[Along, ...]:
    """Return what tells the direction along the limb near a lame's pivots, the surest first.

    Where only 'up' of the part tells it, that is a weak one: it may be drawn turned.
    """
    part = seat.part
    mirrors = (Along(way, "the middle line of its outline") for way in mirror_lines(part.outline))
    pairs = (
        Along(o.up, f"its other pivots '{o.first.id}' and '{o.second.id}'", own=False)
        for o in others
    )
    found = [
        each._replace(way=_pointed(each.way, seat))
        for each in (*_bend_axes(pattern, part), *mirrors, *pairs)
        if _within(each.way, seat, FAR_OFF_DEG)
    ]
    if not found and _within(up_of(part), seat, NEARLY_UP_DEG):
        found.append(Along(_pointed(up_of(part), seat), "up as the part says (up_deg)", weak=True))
    return tuple(found)
