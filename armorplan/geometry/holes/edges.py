"""Holes that would tear: too near an edge, a slot or another hole of the same part."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import combinations
from math import dist, hypot, inf
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.edge_rule import EDGE_LEAST_MM, least_edge_mm
from armorplan.geometry.widths import across_mm, ahead_mm, is_strap
from armorplan.pattern.parts import Hole, Part, Point, Ring, heading
from armorplan.pattern.pattern import Pattern

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

PITCH_DIAMETERS = 3.0
"""Hole to hole, in diameters at least: NAVEDTRA 14018 (manual title from memory)."""
STRAP_DIAMETERS = 1.0
"""In the middle of a strap a hole may take up half its width (common practice, no source)."""
MIDDLE_MM = 1.0
"""A hole as near to the middle line of a strap as this stands in it (common practice, no source)."""
_FEW = 30
_LOOK_DEG = 15
_LEAST_CORNERS = 3
_SLACK_MM = 0.05
"""Curves are flattened, and centres written, to some hundredths of a millimetre."""


@lru_cache(maxsize=2048)
def edge_distances_mm(part: Part) -> tuple[float, ...]:
    """Return for each hole the distance in mm from its centre to the nearest outline or slot.

    Of a slot that a joint slides in, the nearest spot the fastener can come to counts. Infinity
    where a part has no edge.
    """
    from shapely import distance, linestrings

    if not part.holes:
        return ()
    edges = _edges(_rings(part))
    if edges.is_empty:
        return tuple(inf for _ in part.holes)
    spots = linestrings([hole.ends for hole in part.holes])
    return tuple(float(d) for d in distance(edges, spots))


def _rings(part: Part) -> tuple[Ring, ...]:
    """Return the outline of a part, then those of its slots."""
    return (part.outline, *(slot.outline for slot in part.slots))


@lru_cache(maxsize=512)
def _leather(rings: tuple[Ring, ...]) -> "BaseGeometry":
    from shapely import Polygon

    whole, *cut = (
        Polygon(ring if len(ring) >= _LEAST_CORNERS else ()).buffer(0) for ring in rings
    )
    leather: BaseGeometry = whole
    for slot in cut:
        leather = leather.difference(slot)
    return leather


@lru_cache(maxsize=512)
def _edges(rings: tuple[Ring, ...]) -> "BaseGeometry":
    """Return the closed edges of a part; what has no three corners is none."""
    from shapely import MultiLineString

    return MultiLineString([(*ring, ring[0]) for ring in rings if len(ring) >= _LEAST_CORNERS])


def _apart_mm(one: Hole, other: Hole) -> float:
    """Return the least distance in mm between where two fasteners can stand."""
    if not one.travel_mm and not other.travel_mm:
        return dist(one.centre, other.centre)
    from shapely import LineString

    return float(LineString(one.ends).distance(LineString(other.ends)))


def stacks_mm(pattern: Pattern) -> dict[str, float]:
    """Return for each hole that a joint uses the thickest stack through it, in mm."""
    thickest: dict[str, float] = defaultdict(float)
    for joint in pattern.joints:
        stack_mm = sum(pattern.part(p).thickness_mm for p in pattern.stack_parts(joint.id))
        for hole in joint.stack:
            thickest[hole] = max(thickest[hole], stack_mm)
    return thickest


class Near(NamedTuple):
    """A hole too near an edge: how far it lies from it, and how far it should, in mm.

    ``stack_mm`` is the thickest stack through it, ``edge`` the nearest spot of the edge, ``inward``
    where the hole should lie.
    """

    hole: Hole
    stack_mm: float
    edge_mm: float
    least_mm: float
    in_middle: bool
    edge: Point
    inward: Point

    @property
    def lacks_mm(self) -> float:
        """By how many mm it lies too near."""
        return self.least_mm - self.edge_mm


def near_edges(
    part: Part, stacks: Mapping[str, float], *, slack_mm: float = 0.0
) -> tuple[Near, ...]:
    """Return the holes of a part that lie too near an edge, the worst first.

    A hole outside its part is another matter, and the reader's to tell.

    Args:
        part: the part.
        stacks: for each hole the thickest stack through it, in mm.
        slack_mm: nearer by less than this is no matter: nobody marks leather finer.
    """
    found = []
    for hole, edge_mm in zip(part.holes, edge_distances_mm(part), strict=True):
        stack_mm = stacks.get(hole.id, 0.0)
        asked = _asked(part, hole, edge_mm, least_edge_mm(hole.diameter_mm, stack_mm))
        if asked is None or asked[1] - asked[0] < slack_mm:
            continue
        if (way := _way_in(part, hole)) is not None:
            found.append(_near(hole, stack_mm, asked, way))
    return tuple(sorted(found, key=lambda each: -each.lacks_mm))


_Asked = tuple[float, float, bool]
"""How far a hole lies from an edge, how far it should, in mm; and whether that is the middle."""


def _asked(part: Part, hole: Hole, edge_mm: float, least_mm: float) -> _Asked | None:
    """Return what is asked of a hole too near an edge; in the middle of a strap no edge is too near.

    Only a hole wider than half of the strap is. The strap's end is judged as every other edge.
    """
    if edge_mm >= least_mm - _SLACK_MM:
        return None
    across = across_mm(part, hole.centre) if is_strap(part) and not hole.travel_mm else None
    middle_mm = inf if across is None else sum(across) / 2
    if middle_mm - MIDDLE_MM >= least_mm:
        return edge_mm, least_mm, False
    enough_mm = max(middle_mm - MIDDLE_MM, STRAP_DIAMETERS * hole.diameter_mm)
    ahead = ahead_mm(part, hole.centre)
    if ahead is not None and ahead < least_mm - _SLACK_MM:
        return ahead, least_mm, False
    if edge_mm >= enough_mm - _SLACK_MM:
        return None
    if middle_mm >= least_mm:
        return edge_mm, least_mm, False
    return edge_mm, max(middle_mm, STRAP_DIAMETERS * hole.diameter_mm), True


def _near(hole: Hole, stack_mm: float, asked: _Asked, way: tuple[Point, Point]) -> Near:
    (edge_mm, least_mm, in_middle), (edge, (dx, dy)) = asked, way
    lacks_mm, (x, y) = least_mm - edge_mm, hole.centre
    inward = (x + dx * lacks_mm, y + dy * lacks_mm)
    return Near(hole, stack_mm, edge_mm, least_mm, in_middle, edge, inward)


def _way_in(part: Part, hole: Hole) -> tuple[Point, Point] | None:
    """Return the spot of the edge nearest to a hole and the way from it inward, of length 1.

    ``None`` where the hole lies outside its part, or right on an edge of which no side is inside.
    """
    from shapely import LineString, get_coordinates, shortest_line
    from shapely import Point as Spot

    rings = _rings(part)
    line = shortest_line(LineString(hole.ends), _edges(rings))
    (x, y), (ex, ey) = get_coordinates(line).tolist()
    leather = _leather(rings)
    far_mm = hypot(x - ex, y - ey)
    if far_mm > _SLACK_MM:
        inside = bool(leather.contains(Spot(x, y)))
        return ((ex, ey), ((x - ex) / far_mm, (y - ey) / far_mm)) if inside else None
    for deg in range(0, 360, _LOOK_DEG):
        dx, dy = heading(deg)
        if leather.contains(Spot(x + dx * EDGE_LEAST_MM, y + dy * EDGE_LEAST_MM)):
            return (ex, ey), (dx, dy)
    return None


class Close(NamedTuple):
    """Two holes nearer to each other than three diameters, in mm."""

    one: Hole
    other: Hole
    apart_mm: float
    least_mm: float

    @property
    def lacks_mm(self) -> float:
        """By how many mm they lie too near each other."""
        return self.least_mm - self.apart_mm


def too_close(part: Part) -> Iterator[Close]:
    """Yield the pairs of holes of a part that lie too near each other."""
    for one, other in _neighbours(part.holes):
        apart_mm = _apart_mm(one, other)
        least_mm = PITCH_DIAMETERS * max(one.diameter_mm, other.diameter_mm)
        if apart_mm < least_mm - _SLACK_MM:
            yield Close(one, other, apart_mm, least_mm)


def _neighbours(holes: tuple[Hole, ...]) -> Iterator[tuple[Hole, Hole]]:
    """Yield pairs of holes; of very many only such as lie near each other from left to right."""
    if len(holes) <= _FEW:
        yield from combinations(holes, 2)
        return
    least_mm = PITCH_DIAMETERS * max(hole.diameter_mm for hole in holes)
    reach_mm = least_mm + max(hole.travel_mm for hole in holes)
    across = sorted(holes, key=lambda hole: (hole.centre, hole.id))
    for at, one in enumerate(across):
        for other in across[at + 1 :]:
            if other.centre[0] - one.centre[0] > reach_mm:
                break
            yield one, other
