"""Outlines of the slots of a part, those that a fastener slides in among them."""

from collections.abc import Iterator
from math import cos, pi, radians, sin

from armorplan.pattern.parts import Hole, Part, Ring

_ROUND = 8
"""So many corners has the round end of a slot."""


def slot_rings(part: Part, *, corners: int = _ROUND) -> Iterator[Ring]:
    """Yield the slots of a part, those that a fastener slides in last; lengths in mm.

    Args:
        part: as the pattern draws it.
        corners: of each round end that is not drawn.
    """
    yield from (slot.outline for slot in part.slots)
    yield from (_slide(hole, corners) for hole in part.holes if hole.travel_mm)


def _slide(hole: Hole, corners: int) -> Ring:
    """Return the outline of a slot with round ends, as wide as its fastener's hole."""
    (x, y), radius, half = hole.centre, hole.diameter_mm / 2, hole.travel_mm / 2
    way = radians(hole.travel_deg)
    turns = [pi * step / corners - pi / 2 for step in range(corners + 1)]
    right = [(half + radius * cos(turn), radius * sin(turn)) for turn in turns]
    ring = [*right, *((-along, -across) for along, across in right)]
    return tuple(
        (x + along * cos(way) - across * sin(way), y - along * sin(way) - across * cos(way))
        for along, across in ring
    )
