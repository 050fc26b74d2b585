"""Where each spot of a part comes to lie as the part grows: plates in two ways, straps lengthways."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import dist

from armorplan.geometry.sizing.model import Factors
from armorplan.pattern.parts import Part, Point, Ring, heading


def middle_of(ring: Ring) -> Point:
    """Return the middle of the box round an outline."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def box_mm(ring: Ring, up_deg: float) -> Point:
    """Return how high along up, and how wide across it, an outline is."""
    ux, uy = heading(up_deg)
    ups = [x * ux + y * uy for x, y in ring]
    across = [x * uy - y * ux for x, y in ring]
    return max(ups) - min(ups), max(across) - min(across)


@dataclass(frozen=True, kw_only=True)
class Spread:
    """A part that grows along its up and across it, about its middle.

    Attributes:
        up: direction of up on the drawing, of length 1.
    """

    middle: Point
    up: Point
    factors: Factors

    @cached_property
    def matrix(self) -> tuple[float, float, float, float]:
        """The rows of the matrix about the middle."""
        (ux, uy), along, around = self.up, self.factors.along, self.factors.around
        both = along - around
        return around + both * ux * ux, both * ux * uy, both * ux * uy, around + both * uy * uy

    def at(self, point: Point) -> Point:
        """Return where a spot comes to lie."""
        x, y = point[0] - self.middle[0], point[1] - self.middle[1]
        a, b, c, d = self.matrix
        return self.middle[0] + a * x + b * y, self.middle[1] + c * x + d * y

    def normal(self, direction: Point) -> Point:
        """Return where a direction square to an edge points once the edge has grown."""
        a, b, c, d = self.matrix
        size = a * d - b * c
        x = (d * direction[0] - c * direction[1]) / size
        y = (a * direction[1] - b * direction[0]) / size
        long = dist((0.0, 0.0), (x, y))
        return x / long, y / long


def spread_of(part: Part, factors: Factors) -> Spread:
    """Return how a plate grows."""
    return Spread(middle=middle_of(part.outline), up=heading(part.up_deg), factors=factors)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A stretch of a strap without holes, from ``start`` to ``end`` along it, that grows."""

    start: float
    end: float
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengthening:
    """A strap that grows in gaps between its holes; everything else keeps its shape.

    Attributes:
        along: direction of the strap, of length 1; places on it are counted along it.
        before_mm: how far what lies before the first gap moves back.
    """

    along: Point
    gaps: tuple[Gap, ...]
    before_mm: float

    def place(self, point: Point) -> float:
        """Return where along the strap a spot lies, before it grows."""
        return point[0] * self.along[0] + point[1] * self.along[1]

    def at(self, point: Point) -> Point:
        """Return where a spot comes to lie."""
        place, by = self.place(point), self.before_mm
        for gap in self.gaps:
            share = (place - gap.start) / (gap.end - gap.start)
            by += gap.by_mm * min(1.0, max(0.0, share))
        return point[0] + by * self.along[0], point[1] + by * self.along[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """A part that keeps its size."""

    def at(self, point: Point) -> Point:
        """Return the spot itself."""
        return point


Stretch = Spread | Lengthening | Still


def long_way(ring: Ring) -> Point:
    """Return the direction of the longer side of the smallest rectangle round an outline."""
    from shapely import Polygon, get_coordinates, oriented_envelope

    corners = get_coordinates(oriented_envelope(Polygon(ring))).tolist()
    start, end = max(pairwise(corners[:3]), key=lambda side: dist(*side))
    long = dist(start, end)
    return (end[0] - start[0]) / long, (end[1] - start[1]) / long
