"""The girth that seams make of flat parts: of one closed on itself, or of several in a ring.

A part between two rows that meet wraps a cylinder, or a cone where its rows are turned to each
other: then the way round is an arc about the spot where they would meet, of the angle between
them (geometry of the developed cone). Girths are those of the middle of the leather; inside, a
round shape is smaller by pi times the thickness.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, dist, pi, sin, tan
from typing import NamedTuple

from armorplan.geometry.rows.bundles import Run
from armorplan.geometry.rows.drawn import centres
from armorplan.geometry.rows.rings import Way
from armorplan.geometry.rows.shear import lie
from armorplan.geometry.sources import CIRCLE
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


def ring_girth(pattern: Pattern, way: Way) -> Girth | None:
    """Return the girth of a ring; ``None`` where its rows do not run round it in one sense."""
    if len(way) == _LEAST and not _is_tube(pattern, way):
        return None
    found: list[Ways] = []
    turned = False
    for (part, onward), (_, before) in zip(way, (way[-1], *way[:-1]), strict=True):
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


def _is_tube(pattern: Pattern, way: Way) -> bool:
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
            source=CIRCLE,
        )


def said(pattern: Pattern, girth: Girth) -> str:
    """Return the girth as a sentence."""
    first, last = (sum(each) for each in zip(*girth.ways, strict=True))
    thick_mm = max(pattern.part(part).thickness_mm for part in girth.parts)
    return (
        f"Closed it is {first:.0f} mm round at the first hole and {last:.0f} mm at the last, in the "
        f"middle of the leather; inside, if round, {pi * thick_mm:.0f} mm less."
    )
