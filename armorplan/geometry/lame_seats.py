"""A plate seen from the two pivots that it turns on: how far its edges lie up and down from them."""

from dataclasses import dataclass
from math import cos, dist, radians, sin

from armorplan.geometry.lame_cones import Cone, cone_of
from armorplan.geometry.lame_cuts import cut
from armorplan.pattern.parts import Hole, Part, Point

LEAST_SPAN_MM = 5.0
"""Pivots nearer than this to each other are one pivot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """A part and two of its holes that are pivots.

    Attributes:
        first, second: the pivots.
        hand: 1 where up is a quarter turn to the left of the way from first to second, as seen on
            the page; else -1.
        tapers: it may be a piece of a cone: a plate that is bent round the limb.
    """

    part: Part
    first: Hole
    second: Hole
    hand: int
    tapers: bool = False

    @property
    def cone(self) -> Cone | None:
        """The cone it is a piece of; ``None`` where it is bent to a tube."""
        if not self.tapers:
            return None
        return cone_of(self.part.outline, self.middle, self.up, self.span_mm)

    @property
    def girth_mm(self) -> float:
        """How far it is round the limb from pivot to pivot, in mm."""
        cone = self.cone
        return self.span_mm if cone is None else cone.girth_mm

    def _rise_mm(self, across_mm: float) -> float:
        cone = self.cone
        return 0.0 if cone is None else cone.rise_mm(across_mm)

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
        """Return a spot of the drawing as mm across and mm up the limb from the pivots' height."""
        x, y = spot[0] - self.middle[0], spot[1] - self.middle[1]
        (ax, ay), (ux, uy) = self.across, self.up
        across = x * ax + y * ay
        return across, x * ux + y * uy - self._rise_mm(across)

    def drawn(self, across_mm: float, up_mm: float) -> Point:
        """Return a spot seen from the pivots where it lies on the drawing."""
        (mx, my), (ax, ay), (ux, uy) = self.middle, self.across, self.up
        flat = up_mm + self._rise_mm(across_mm)
        return mx + across_mm * ax + flat * ux, my + across_mm * ay + flat * uy

    def height_mm(self, other: "Seat") -> float:
        """Return how far up from these pivots another pair in the same part lies, in mm."""
        return (self.seen(other.first.centre)[1] + self.seen(other.second.centre)[1]) / 2

    def edges_mm(self, across_mm: float = 0.0) -> tuple[float, float] | None:
        """Return how far down (below nought) and up the leather reaches, in mm from the pivots."""
        return cut(self.part.outline, self.drawn(across_mm, 0.0), self.up)


def up_of(part: Part) -> Point:
    """Return where up lies on the drawing, as a direction of length 1."""
    angle = radians(part.up_deg)
    return cos(angle), -sin(angle)


def hand_of(part: Part, first: Hole, second: Hole) -> int:
    """Return the hand of a seat from where the part says that up is."""
    x, y = second.centre[0] - first.centre[0], second.centre[1] - first.centre[1]
    ux, uy = up_of(part)
    return 1 if y * ux - x * uy >= 0 else -1
