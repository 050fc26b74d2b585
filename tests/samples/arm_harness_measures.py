"""The measures of the arm and what follows from them: radii, slides, overlaps and cones.

A measure of the arm is taken over the padded sleeve. The plates nest: each layer of the elbow lies
half a thickness of itself and half of its neighbour outside the one under it, so that over its half
turn it is longer by π times that distance and the pivots of all layers lie on one axis. Six joints
share the whole bend; the edge at the back slides by radius × angle, and so much and a cover that is
kept lie under the plate outside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import cos, hypot, pi, radians, sin

from samples.shapes import Point

OUNCE_MM = 25.4 / 64
PLATE_MM, LAME_MM = 4.0, 9 * OUNCE_MM
STRAP_MM, TRIM_MM = 3.0, 2.4

JOINTS = 6
COVER_MM = 13.0
"""What still lies under the next plate when the arm is bent to the end."""
PIVOTS_APART_MM = 20.0
COP_PIVOTS_MM = 34.0
"""Between the two pivots at one end of a lame, and of the cop."""
END_MM = 15.0
"""Leather round a pivot, from its centre to the edge."""
SLOT_ROOM_MM = 14.0
"""What a plate with a slot reaches higher, so that the slot does not run out of it."""
RIM_MM = 12.0
"""From an edge to the post behind it."""
LEATHER_EASE_MM = 2.0
"""What the leather of the back is longer between two rivets, so that it does not stop the lames early."""
LEATHER_ON_PLATE_MM = 30.0
"""How far above its pivots the upper plate holds the leather of the back."""
LOW_MM = 8.0
"""How far the upper plate reaches below its pivots at the back."""
WIDE = radians(90)
"""From the middle of the back to a pivot."""

TURNING_MM, TUBULAR_MM, CAP_MM, SCREW_MM = 5.5, 4.0, 3.5, 5.0
BURR_MM, LIGHT_BURR_MM, SMALL_CAP_MM = 3.6, 3.0, 3.0
"""Holes: turning post, tubular rivet, double cap, clamping post; copper rivets; small double cap."""


@dataclass(frozen=True)
class Cone:
    """A plate as a piece of a cone with its apex below, seen from outside and cut flat.

    Attributes:
        low_mm, high_mm: radii to the middle of the leather at its lower and upper end.
        tall_mm: its length along the limb.
    """

    low_mm: float
    high_mm: float
    tall_mm: float

    @property
    def slant_mm(self) -> float:
        """Its length along the leather: solid geometry, s = sqrt(h² + (R - r)²)."""
        return hypot(self.tall_mm, self.high_mm - self.low_mm)

    @property
    def lean(self) -> float:
        """Sine of half the angle at the apex: how the turn round the limb shrinks in the flat."""
        return (self.high_mm - self.low_mm) / self.slant_mm

    def radius_mm(self, up_mm: float) -> float:
        """Return the radius at a height along the leather."""
        return self.low_mm + up_mm * self.lean

    def turn(self, up_mm: float, along_mm: float) -> float:
        """Return the angle round the limb that a length of leather at a height takes up."""
        return along_mm / self.radius_mm(up_mm)

    def bow_mm(self, up_mm: float) -> float:
        """Return how far a level line bows in the flat, between its middle and its pivots.

        Bent, the line is level again: then nothing of this is left.
        """
        return self.flat(up_mm, WIDE)[1] - self.flat(up_mm, 0.0)[1]

    def flat(self, up_mm: float, turn: float, *, out_mm: float = 0.0) -> Point:
        """Return where a spot lies in the flat: its height and its angle round the limb.

        A layer that lies ``out_mm`` further out is the same cone with its apex lower: its spots
        lie on a larger circle, and so further apart along the girth.
        """
        first = (self.low_mm + out_mm * cos_of(self.lean)) / self.lean
        around = first + up_mm
        return around * sin(turn * self.lean), first - around * cos(turn * self.lean)


def cos_of(sine: float) -> float:
    """Return the cosine of an angle below a right one, from its sine."""
    return (1 - sine * sine) ** 0.5


@dataclass(frozen=True, kw_only=True)
class Arm:
    """An arm over its padded sleeve, in mm; those of a watchman of middle height."""

    upper_girth_mm: float = 340.0
    above_elbow_mm: float = 290.0
    below_elbow_mm: float = 320.0
    wrist_girth_mm: float = 225.0
    upper_length_mm: float = 125.0
    forearm_length_mm: float = 190.0
    bend_deg: float = 140.0

    @cached_property
    def layers_mm(self) -> dict[str, float]:
        """Radii to the middle of each layer at the elbow, from the upper plate to the forearm."""
        upper = self.above_elbow_mm / (2 * pi) + PLATE_MM / 2
        step = (PLATE_MM + LAME_MM) / 2
        top = upper + step
        cop = top + 3 * LAME_MM
        return {
            "upper_plate": upper,
            "top_lame": top,
            "second_lame": top + LAME_MM,
            "third_lame": top + 2 * LAME_MM,
            "cop": cop,
            "lower_lame": cop - LAME_MM,
            "lower_plate": cop - LAME_MM - step,
        }

    @property
    def share(self) -> float:
        """The angle by which each of the joints turns."""
        return radians(self.bend_deg / JOINTS)

    def half_mm(self, layer: str) -> float:
        """Return half of what lies between the two pivots of a layer, along the leather."""
        return WIDE * self.layers_mm[layer]

    def slide_mm(self, outer: str) -> float:
        """Return what the edge under a layer travels from a straight arm to a bent one."""
        return self.layers_mm[outer] * self.share

    def overlap_mm(self, outer: str) -> float:
        """Return what has to lie under a layer while the arm is straight."""
        return self.slide_mm(outer) + COVER_MM

    @cached_property
    def upper_cone(self) -> Cone:
        high_mm = self.upper_girth_mm / (2 * pi) + PLATE_MM / 2
        return Cone(self.layers_mm["upper_plate"], high_mm, self.upper_length_mm)

    @cached_property
    def lower_cone(self) -> Cone:
        low_mm = self.wrist_girth_mm / (2 * pi) + PLATE_MM / 2
        return Cone(low_mm, self.layers_mm["lower_plate"], self.forearm_length_mm)


WATCHMAN = Arm()
