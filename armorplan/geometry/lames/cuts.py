"""How far leather reaches along a line across a part."""

from functools import lru_cache
from itertools import pairwise

from armorplan.geometry.areas import ring_area_mm2
from armorplan.pattern.parts import Point, Ring

_LEAST_AREA_MM2 = 1.0


@lru_cache(maxsize=8192)
def cut(outline: Ring, at: Point, along: Point) -> tuple[float, float] | None:
    """Return the least and the most that a line through a spot runs in leather, in mm from it.

    ``None`` where the line meets no leather, or the outline has no area.
    """
    if ring_area_mm2(outline) < _LEAST_AREA_MM2:
        return None
    (x0, y0), (ax, ay) = at, along
    beside = [(x - x0) * ay - (y - y0) * ax for x, y in outline]
    ahead = [(x - x0) * ax + (y - y0) * ay for x, y in outline]
    ways: list[float] = []
    for here, there in pairwise((*range(len(outline)), 0)):
        one, other = beside[here], beside[there]
        if one == other == 0:
            ways += (ahead[here], ahead[there])
        elif min(one, other) <= 0 <= max(one, other):
            share = one / (one - other)
            ways.append(ahead[here] + share * (ahead[there] - ahead[here]))
    return (min(ways), max(ways)) if ways else None


def reach_mm(outline: Ring, at: Point, along: Point) -> float:
    """Return how far the nearer edge lies from a spot along a direction or against it, in mm.

    Nought where the spot lies beside the leather.
    """
    found = cut(outline, at, along)
    return 0.0 if found is None else max(0.0, min(-found[0], found[1]))
