"""The girth that seams make of flat parts: of one closed on itself, or of several in a ring.

A part between two rows that meet wraps a cylinder, or a cone where its rows are turned to each
other: then the way round is an arc about the spot where they would meet, of the angle between
them (geometry of the developed cone). Girths are those of the middle of the leather; inside, a
round shape is smaller by pi times the thickness.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, dist, pi, sin, tan
from typing import NamedTuple

from armorplan.geometry.row_bundles import Run
from armorplan.geometry.row_drawn import centres
from armorplan.geometry.row_shear import lie
from armorplan.geometry.widths import LIMP
from armorplan.kernel.figures import Figure
from armorplan.pattern.joining import FormKind
from armorplan.pattern.parts import Point, Ring
from armorplan.pattern.pattern import Pattern

_LEAST = 2
_STRAIGHT = 1e-6
SOURCE = "geometry of the developed cone"


class Ways(NamedTuple):
    """The way round through a part from row to row, in mm: at the first holes and at the last."""

    first_mm: float
    last_mm: float


@lru_cache(maxsize=512)
def ways(outline: Ring, one: tuple[Point, ...], other: tuple[Point, ...]) -> Ways | None:
    """Return the way through a part between two rows that run alike; ``None``: they do not tell.

    Of the two ways round the spot where the rows would meet, it is the one that lies in leather.
    """
    if min(dist(row[0], row[-1]) for row in (one, other)) == 0:
        return None
    turn = _turn(one, other)
    turns = (turn, turn - 2 * pi if turn > 0 else turn + 2 * pi)
    inside = [each for each in turns if _inside(outline, _half_way(one[0], other[0], each))]
    angle = abs(inside[0] if inside else turn)
    return Ways(*(_arc(dist(a, b), angle) for a, b in ((one[0], other[0]), (one[-1], other[-1]))))


def _turn(one: tuple[Point, ...], other: tuple[Point, ...]) -> float:
    """Return the angle from one row to the other in radians, from x towards y, -pi to pi."""
    (ax, ay), (bx, by) = ((r[-1][0] - r[0][0], r[-1][1] - r[0][1]) for r in (one, other))
    return atan2(ax * by - ay * bx, ax * bx + ay * by)


def _arc(chord_mm: float, angle: float) -> float:
    return chord_mm if angle < _STRAIGHT else chord_mm * (angle / 2) / abs(sin(angle / 2))


def _half_way(start: Point, end: Point, turn: float) -> Point:
    """Return the spot half way along the arc that leads from one spot to another by a turn."""
    mid = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    if abs(turn) < _STRAIGHT:
        return mid
    back = 1 / (2 * tan(turn / 2))
    centre = mid[0] - (end[1] - start[1]) * back, mid[1] + (end[0] - start[0]) * back
    x, y = start[0] - centre[0], start[1] - centre[1]
    c, s = cos(turn / 2), sin(turn / 2)
    return centre[0] + x * c - y * s, centre[1] + x * s + y * c


def _inside(ring: Ring, spot: Point) -> bool:
    """Tell whether a spot lies in an outline: a ray from it crosses the edge an odd number of times."""
    x, y = spot
    crossed = False
    for (ax, ay), (bx, by) in pairwise([*ring, *ring[:1]]):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            crossed = not crossed
    return crossed


class Girth(NamedTuple):
    """A closed shape: its parts in order round it, the ways through each, and the seams."""

    parts: tuple[str, ...]
    ways: tuple[Ways, ...]
    seams: tuple[str, ...]


def own_girth(pattern: Pattern, run: Run, seam: str) -> Girth | None:
    """Return the girth of a part that a seam closes on itself; ``None`` for straps and folds."""
    part = pattern.part(run.first.part)
    folded = any(f.kind is FormKind.FOLD and part.id in f.parts for f in pattern.forms)
    if run.first.part != run.second.part or part.kind in LIMP or folded:
        return None
    round_it = ways(part.outline, centres(run.on_first), centres(run.on_second))
    return None if round_it is None else Girth((part.id,), (round_it,), (seam,))


class _Edge(NamedTuple):
    """A seam between two parts of a ring."""

    seam: str
    run: Run

    def spots(self, part: str) -> tuple[Point, ...]:
        """Return its row on one of its parts."""
        return centres(self.run.on_first if part == self.run.first.part else self.run.on_second)

    def beyond(self, part: str) -> str:
        """Return the part on its other side."""
        one, other = self.run.first.part, self.run.second.part
        return other if part == one else one


def ring_girths(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> Iterator[Girth]:
    """Yield the rings that seams make of two or more stiff parts, each joined to just two others."""
    at = _rings(pattern, sewn)
    done: set[str] = set()
    for start in sorted(at):
        if start in done:
            continue
        way = _round(start, at)
        done.update(part for part, _ in way)
        girth = _girth(pattern, way) if len(way) >= _LEAST else None
        if girth is not None:
            yield girth


def _rings(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> dict[str, list[_Edge]]:
    """Return for each part of a ring its two seams; what hangs on one seam only is left out."""
    at: dict[str, list[_Edge]] = defaultdict(list)
    for edge in _edges(pattern, sewn):
        for row in (edge.run.first, edge.run.second):
            at[row.part].append(edge)
    ends = [part for part, edges in at.items() if len(edges) == 1]
    while ends:
        part = ends.pop()
        for edge in at.pop(part):
            beyond = edge.beyond(part)
            at[beyond].remove(edge)
            if len(at[beyond]) == 1:
                ends.append(beyond)
    return {part: edges for part, edges in at.items() if len(edges) == _LEAST}


def _edges(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> Iterable[_Edge]:
    """Return the seams between two stiff parts, each with its longest run."""
    longest: dict[tuple[str, ...], _Edge] = {}
    for seam, run in sewn:
        one, other = pattern.part(run.first.part), pattern.part(run.second.part)
        if one == other or one.kind in LIMP or other.kind in LIMP:
            continue
        key = (seam, *sorted((one.id, other.id)))
        if key not in longest or len(run.joints) > len(longest[key].run.joints):
            longest[key] = _Edge(seam, run)
    return longest.values()


def _round(start: str, at: dict[str, list[_Edge]]) -> list[tuple[str, _Edge]]:
    """Return the parts of a ring, each with the seam that leads on; empty where it does not close."""
    way: list[tuple[str, _Edge]] = []
    part, edge = start, at[start][0]
    while True:
        way.append((part, edge))
        part = edge.beyond(part)
        if part == start:
            return way
        if part not in at or any(part == seen for seen, _ in way):
            return []
        edge = next(each for each in at[part] if each is not edge)


def _girth(pattern: Pattern, way: list[tuple[str, _Edge]]) -> Girth | None:
    """Return the girth of a ring; ``None`` where its rows do not run round it in one sense."""
    if len(way) == _LEAST and not _is_tube(pattern, way):
        return None
    found: list[Ways] = []
    turned = False
    for (part, onward), (_, before) in zip(way, [way[-1], *way[:-1]], strict=True):
        one, other = before.spots(part), onward.spots(part)
        one = one[::-1] if turned else one
        if _crossed(one, other):
            other, turned = other[::-1], True
        else:
            turned = False
        through = ways(pattern.part(part).outline, one, other)
        if through is None or not _abreast(one, other):
            return None
        found.append(through)
    seams = tuple(edge.seam for _, edge in way)
    return None if turned else Girth(tuple(part for part, _ in way), tuple(found), seams)


def _abreast(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Tell whether rows lie on two sides of a part, not one after the other along one edge."""
    lies = lie(one, other)
    return lies is not None and abs(lies.shear_mm) < abs(lies.width_mm)


def _crossed(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    straight = dist(one[0], other[0]) + dist(one[-1], other[-1])
    return dist(one[0], other[-1]) + dist(one[-1], other[0]) < straight


def _is_tube(pattern: Pattern, way: list[tuple[str, _Edge]]) -> bool:
    """Tell whether two parts joined by two rows make a tube: on each other they would be one layer."""
    sides = []
    for part_id, _ in way:
        part = pattern.part(part_id)
        lies = lie(*(edge.spots(part_id) for _, edge in way))
        if lies is None:
            return False
        sides.append((lies.width_mm > 0) != part.drawn_from_inside)
    return sides[0] != sides[1]


def figures(pattern: Pattern, girth: Girth) -> Iterator[Figure]:
    """Yield the girth at both ends of the rows, in the middle of the leather and inside it."""
    parts = [pattern.part(part) for part in girth.parts]
    thick_mm = max(part.thickness_mm for part in parts)
    for end, each in (
        ("first", [way.first_mm for way in girth.ways]),
        ("last", [way.last_mm for way in girth.ways]),
    ):
        round_mm = sum(each)
        said = " + ".join(f"{mm:.1f}" for mm in each)
        yield Figure(
            name=f"girth at the {end} hole, middle of the leather",
            value=round_mm,
            unit="mm",
            formula=said if len(each) == 1 else f"{said} = {round_mm:.1f}",
            source=SOURCE,
        )
        yield Figure(
            name=f"girth at the {end} hole, inside, if round",
            value=round_mm - pi * thick_mm,
            unit="mm",
            formula=f"{round_mm:.1f} - π × {thick_mm:g} = {round_mm - pi * thick_mm:.1f}",
            source="circle geometry",
        )


def said(pattern: Pattern, girth: Girth) -> str:
    """Return the girth as a sentence."""
    first, last = (sum(each) for each in zip(*girth.ways, strict=True))
    thick_mm = max(pattern.part(part).thickness_mm for part in girth.parts)
    return (
        f"Closed it is {first:.0f} mm round at the first hole and {last:.0f} mm at the last, in the "
        f"middle of the leather; inside, if round, {pi * thick_mm:.0f} mm less."
    )
