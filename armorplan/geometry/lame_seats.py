"""A plate seen from the two pivots that it turns on: how far its edges lie up and down from them."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, dist, radians, sin

from armorplan.geometry.areas import ring_area_mm2
from armorplan.pattern.parts import Hole, Part, Point, Ring

LEAST_SPAN_MM = 5.0
"""Pivots nearer than this to each other are one pivot."""
_LEAST_AREA_MM2 = 1.0


@lru_cache(maxsize=4096)
def _cut(outline: Ring, at: Point, along: Point) -> tuple[float, float] | None:
    """Return the least and the most that a line through a spot runs in leather, in mm from it."""
    from shapely import LineString, Polygon, get_coordinates, make_valid

    if ring_area_mm2(outline) < _LEAST_AREA_MM2:
        return None
    reach = max(dist(at, corner) for corner in outline)
    ends = [(at[0] + s * along[0] * reach, at[1] + s * along[1] * reach) for s in (-1, 1)]
    spots = get_coordinates(make_valid(Polygon(outline)).intersection(LineString(ends)))
    ways = [(x - at[0]) * along[0] + (y - at[1]) * along[1] for x, y in spots.tolist()]
    return (min(ways), max(ways)) if ways else None


def reach_mm(outline: Ring, at: Point, along: Point) -> float:
    """Return how far the nearer edge lies from a spot along a direction or against it, in mm.

    Nought where the spot lies beside the leather.
    """
    cut = _cut(outline, at, along)
    return 0.0 if cut is None else max(0.0, min(-cut[0], cut[1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A part and two of its holes that are pivots.

    Attributes:
        first, second: the pivots.
        hand: 1 where up is a quarter turn to the left of the way from first to second, as seen on
            the page; else -1.
    """

    part: Part
    first: Hole
    second: Hole
    hand: int

    @property
    def span_mm(self) -> float:
        """How far the pivots lie apart on the flat leather, in mm."""
        return dist(self.first.centre, self.second.centre)

    @property
    def middle(self) -> Point:
        """The spot halfway between the pivots."""
        (ax, ay), (bx, by) = self.first.centre, self.second.centre
        return (ax + bx) / 2, (ay + by) / 2

    @property
    def across(self) -> Point:
        """The direction from the first pivot to the second, of length 1."""
        (ax, ay), (bx, by) = self.first.centre, self.second.centre
        return (bx - ax) / self.span_mm, (by - ay) / self.span_mm

    @property
    def up(self) -> Point:
        """The direction up the limb, square to the pivots, of length 1; y runs down the page."""
        x, y = self.across
        return self.hand * y, -self.hand * x

    def seen(self, spot: Point) -> Point:
        """Return a spot of the drawing as mm across and mm up from the middle of the pivots."""
        x, y = spot[0] - self.middle[0], spot[1] - self.middle[1]
        (ax, ay), (ux, uy) = self.across, self.up
        return x * ax + y * ay, x * ux + y * uy

    def drawn(self, across_mm: float, up_mm: float) -> Point:
        """Return a spot seen from the pivots where it lies on the drawing."""
        (mx, my), (ax, ay), (ux, uy) = self.middle, self.across, self.up
        return mx + across_mm * ax + up_mm * ux, my + across_mm * ay + up_mm * uy

    def edges_mm(self, across_mm: float = 0.0) -> tuple[float, float] | None:
        """Return how far down (below nought) and up the leather reaches, in mm from the pivots."""
        return _cut(self.part.outline, self.drawn(across_mm, 0.0), self.up)

    def half_mm(self) -> tuple[float, float] | None:
        """Return how far the leather reaches across at the height of the pivots, in mm."""
        return _cut(self.part.outline, self.middle, self.across)


def up_of(part: Part) -> Point:
    """Return where up lies on the drawing, as a direction of length 1."""
    angle = radians(part.up_deg)
    return cos(angle), -sin(angle)


def hand_of(part: Part, first: Hole, second: Hole) -> int:
    """Return the hand of a seat from where the part says that up is."""
    x, y = second.centre[0] - first.centre[0], second.centre[1] - first.centre[1]
    ux, uy = up_of(part)
    return 1 if y * ux - x * uy >= 0 else -1
