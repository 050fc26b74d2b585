"""Leather, edges and holes of a part, for the take-off and for the minutes of a step."""

from functools import lru_cache
from itertools import pairwise
from math import dist, pi
from typing import TYPE_CHECKING

from armorplan.kernel.units import MM2_PER_DM2
from armorplan.pattern.parts import Part, Ring

if TYPE_CHECKING:
    import shapely


def ring_area_mm2(ring: Ring) -> float:
    """Return the area in mm² that a closed outline encloses, whichever way it runs."""
    doubled = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise((*ring, *ring[:1])))
    return abs(doubled) / 2


def ring_length_mm(ring: Ring) -> float:
    """Return the length in mm of a closed outline."""
    return sum(dist(a, b) for a, b in pairwise((*ring, *ring[:1])))


def part_area_mm2(part: Part) -> float:
    """Return the leather left in a cut part in mm²: its outline without holes and slots."""
    holes = sum(
        pi * hole.diameter_mm**2 / 4 + hole.diameter_mm * hole.travel_mm for hole in part.holes
    )
    slots = sum(ring_area_mm2(slot.outline) for slot in part.slots)
    return ring_area_mm2(part.outline) - holes - slots


def outline_dm2(part: Part) -> float:
    """Return the area in dm² inside one part's outline, holes and slots not taken off."""
    return ring_area_mm2(part.outline) / MM2_PER_DM2


def edge_length_mm(part: Part) -> float:
    """Return the length in mm of the edges to cut and dress: the outline and every slot."""
    return ring_length_mm(part.outline) + sum(ring_length_mm(s.outline) for s in part.slots)


@lru_cache(maxsize=2048)
def ring_shape(ring: Ring) -> "shapely.Polygon":
    """Return a closed outline as a shape, made once: shapes do not change."""
    import shapely

    return shapely.Polygon(ring)


@lru_cache(maxsize=2048)
def rectangle_mm(ring: Ring) -> tuple[float, float]:
    """Return the longer and the shorter side in mm of the smallest rectangle round an outline."""
    from shapely import get_coordinates, oriented_envelope

    corners = get_coordinates(oriented_envelope(ring_shape(ring))).tolist()
    one, other = dist(corners[0], corners[1]), dist(corners[1], corners[2])
    return max(one, other), min(one, other)
