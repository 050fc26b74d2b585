"""How far leather reaches along a line across a part."""

from functools import lru_cache
from math import dist

from armorplan.geometry.areas import ring_area_mm2
from armorplan.pattern.parts import Point, Ring

_LEAST_AREA_MM2 = 1.0


@lru_cache(maxsize=8192)
def cut(outline: Ring, at: Point, along: Point) -> tuple[float, float] | None:
    """Return the least and the most that a line through a spot runs in leather, in mm from it.

    ``None`` where the line meets no leather, or the outline has no area.
    """
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
    found = cut(outline, at, along)
    return 0.0 if found is None else max(0.0, min(-found[0], found[1]))
