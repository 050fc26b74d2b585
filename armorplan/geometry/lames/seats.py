"""A plate seen from the two pivots that it turns on: how far its edges lie up and down from them."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, dist, radians, sin
from typing import NamedTuple

from armorplan.geometry.lames.cones import Cone, cone_of
from armorplan.geometry.lames.cuts import cut
from armorplan.pattern.parts import Hole, Part, Point

LEAST_SPAN_MM = 5.0
"""Pivots nearer than this to each other are one pivot."""


class _Frame(NamedTuple):
    """Where two pivots lie: how far apart, their middle, and the directions across and up."""

    span_mm: float
    middle: Point
    across: Point
    up: Point


@lru_cache(maxsize=4096)
def _frame(first: Point, second: Point, hand: int) -> _Frame:
    span_mm = dist(first, second)
    x, y = (second[0] - first[0]) / span_mm, (second[1] - first[1]) / span_mm
    middle = ((first[0] + second[0]) / 2, (first[1] + second[1]) / 2)
    return _Frame(span_mm, middle, (x, y), (hand * y, -hand * x))


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
    def _frame(self) -> _Frame:
        return _frame(self.first.centre, self.second.centre, self.hand)

    @property
    def span_mm(self) -> float:
        """How far the pivots lie apart on the flat leather, in mm."""
        return self._frame.span_mm

    @property
    def middle(self) -> Point:
        """The spot halfway between the pivots."""
        return self._frame.middle

    @property
    def across(self) -> Point:
        """The direction from the first pivot to the second, of length 1."""
        return self._frame.across

    @property
    def up(self) -> Point:
        """The direction up the limb, square to the pivots, of length 1; y runs down the page."""
        return self._frame.up

    def seen(self, spot: Point) -> Point:
        """Return a spot of the drawing as mm across and mm up the limb from the pivots' height."""
        _, (mx, my), (ax, ay), (ux, uy) = self._frame
        x, y = spot[0] - mx, spot[1] - my
        across = x * ax + y * ay
        return across, x * ux + y * uy - self._rise_mm(across)

    def drawn(self, across_mm: float, up_mm: float) -> Point:
        """Return a spot seen from the pivots where it lies on the drawing."""
        _, (mx, my), (ax, ay), (ux, uy) = self._frame
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
