"""What of each plate is left where a lap that lies under or on its neighbour counts once.

Two plates that a row holds lie on each other on both sides of it. What of a plate lies beyond its
own row, and there on what its neighbour keeps, is wall a second time. Without it the plates meet
along their rows and make up the finished surface once.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import dist, isfinite
from typing import TYPE_CHECKING

from armorplan.geometry.reach.frames import Frame, laid_beside, of_line
from armorplan.geometry.reach.part_net import leather
from armorplan.geometry.reach.shells import Leg, Line, ShellCut
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from shapely.geometry import LineString
    from shapely.geometry.base import BaseGeometry

_FAR_MM = 5000.0
_SLACK_MM = 0.5
_HAIR_MM = 1e-3
"""So little is taken off all round, that no piece touches itself in a single spot."""
_LEAST_MM2 = 2.0
_COVERED = 0.95
"""A lap that lies on its neighbour by this share of its area goes whole: strips beside a row that
turns leave small gaps between them."""

_Areas = dict[str, "BaseGeometry"]


def once(cut: ShellCut) -> _Areas:
    """Return by plate the area of it that makes up the finished surface; laps count on one plate.

    A lap is left out only where the other plate of its row keeps leather under it: what is left is
    never less than the surface.
    """
    areas = {part.part: whole.area for part in cut.parts if (whole := leather(part.ring))}
    beyond = [
        (line, leg, lap)
        for line in cut.lines
        for leg in dict.fromkeys(leg for rung in line.rungs for leg, _ in rung.legs)
        if leg[0] in areas
        for lap in _beyond(areas[leg[0]], _row(line, leg), closed=line.closed)
    ]
    sure = _without(areas, [(leg[0], lap) for _, leg, lap in beyond])
    turned = {part.part: part.turned for part in cut.parts}
    held = {line.id: of_line(line, turned) for line in cut.lines}
    gone = [(leg[0], _double(lap, leg, held[line.id], sure)) for line, leg, lap in beyond]
    return _without(areas, gone)


def _without(areas: _Areas, gone: "list[tuple[str, BaseGeometry]]") -> _Areas:
    from shapely import union_all

    less: dict[str, list[BaseGeometry]] = {}
    for part, area in gone:
        if not area.is_empty:
            less.setdefault(part, []).append(area)
    return {
        part: area.difference(union_all(less[part])).buffer(-_HAIR_MM) if part in less else area
        for part, area in areas.items()
    }


def _row(line: Line, leg: Leg) -> list[Point]:
    """Return where a row passes a plate, each place once."""
    spots = [spot for rung in line.rungs if (spot := rung.on(leg)) and all(map(isfinite, spot))]
    return [
        spot for at, spot in enumerate(spots) if not at or dist(spot, spots[at - 1]) > _SLACK_MM
    ]


def _beyond(area: "BaseGeometry", row: list[Point], *, closed: bool) -> "Iterator[BaseGeometry]":
    if len(row) < 2:  # noqa: PLR2004 - one hole has no direction
        return
    yield from (face for face in parted(area, row, closed=closed)[:-1] if face.area > _LEAST_MM2)


def parted(
    area: "BaseGeometry", row: list[Point], *, closed: bool = False
) -> "list[BaseGeometry]":
    """Return the pieces into which a row, lengthened straight to the outline, cuts a plate.

    The largest is the last.
    """
    from shapely import LineString, get_parts
    from shapely.ops import split

    way = LineString((*row, row[0])) if closed else lengthened(area, row)
    return sorted(get_parts(split(area, way)).tolist(), key=lambda face: face.area)


def lengthened(area: "BaseGeometry", row: list[Point]) -> "LineString":
    """Return a row with both its ends led on straight to the outline."""
    from shapely import LineString

    before, after = _ray(area, row[1], row[0]), _ray(area, row[-2], row[-1])
    return LineString((before, *row, after))


def straight_on_mm(area: "BaseGeometry", start: Point, end: Point) -> float:
    """Return how far a plate goes on straight from one spot through another, from that one on."""
    return max(0.0, dist(end, _ray(area, start, end)) - _SLACK_MM)


def _ray(area: "BaseGeometry", start: Point, end: Point) -> Point:
    """Return a spot a little beyond where the way from one spot through another leaves the plate."""
    from shapely import LineString, get_coordinates, get_parts
    from shapely import Point as Place

    length = dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    ray = LineString((end, (end[0] + _FAR_MM * ux, end[1] + _FAR_MM * uy)))
    for piece in get_parts(ray.intersection(area)).tolist():
        if piece.distance(Place(end)) < _SLACK_MM and piece.length > 0:
            far_mm = max(dist(end, spot) for spot in get_coordinates(piece).tolist()) + _SLACK_MM
            return end[0] + far_mm * ux, end[1] + far_mm * uy
    return end[0] + _SLACK_MM * ux, end[1] + _SLACK_MM * uy


def deep_mm(area: "BaseGeometry", row: list[Point], sign: int) -> list[float]:
    """Return how far a plate goes on square to each spacing of a row, on one side of it.

    ``sign`` is that of a turn towards that side.
    """
    from shapely import LineString, get_parts
    from shapely import Point as Place

    found = []
    for (x0, y0), (x1, y1) in pairwise(row):
        length, mx, my = dist((x0, y0), (x1, y1)), (x0 + x1) / 2, (y0 + y1) / 2
        nx, ny = -sign * _FAR_MM * (y1 - y0) / length, sign * _FAR_MM * (x1 - x0) / length
        on = LineString(((mx, my), (mx + nx, my + ny))).intersection(area)
        near = (p.length for p in get_parts(on).tolist() if p.distance(Place(mx, my)) < _SLACK_MM)
        found.append(max(near, default=0.0))
    return found


def _double(
    lap: "BaseGeometry", leg: Leg, held: tuple[Frame, ...], sure: _Areas
) -> "BaseGeometry":
    """Return what of a lap lies on leather that the other plates of its row keep."""
    from shapely import union_all

    under = [
        laid_beside(sure[frame.there[0]], frame)
        for frame in held
        if frame.here == leg and frame.there[0] in sure
    ]
    covered = lap.intersection(union_all(under).buffer(_SLACK_MM))
    return lap if covered.area >= _COVERED * lap.area else covered
