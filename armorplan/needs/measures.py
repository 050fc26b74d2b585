"""Measures that the take-off shares: areas in dm², boxes, spares, and money."""

from math import ceil, dist

from shapely import Polygon, get_coordinates

from armorplan.geometry.areas import ring_area_mm2, ring_length_mm
from armorplan.pattern.parts import Part, Ring

MM2_PER_DM2 = 10_000.0
MM_PER_M = 1_000.0
SPARE_PCT = 10.0
LEAST_SPARES = 2
"""A tenth more fasteners, two at least: some lean or are drilled out (common practice, no source)."""


def spares(count: int) -> int:
    """Return how many fasteners to have beside those that are set."""
    return max(LEAST_SPARES, ceil(count * SPARE_PCT / 100)) if count else 0


def outline_dm2(part: Part) -> float:
    """Return the area in dm² inside one part's outline, holes and slots not taken off."""
    return ring_area_mm2(part.outline) / MM2_PER_DM2


def outline_m(part: Part) -> float:
    """Return the length in m of one part's outline, slots left out."""
    return ring_length_mm(part.outline) / MM_PER_M


def box_mm(outline: Ring) -> tuple[float, float]:
    """Return length and width in mm of the smallest box around an outline, however it is turned."""
    corners = get_coordinates(Polygon(outline).minimum_rotated_rectangle).tolist()
    sides = dist(corners[0], corners[1]), dist(corners[1], corners[2])
    return max(sides), min(sides)


def priced(amount: float | None, price: float | None) -> float | None:
    """Return what an amount costs, or ``None`` where amount or price is not known."""
    return None if amount is None or price is None else amount * price
