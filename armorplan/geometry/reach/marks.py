"""What reach shows on the flat parts: mouths as bands along their edges, a joint with its way in."""

from collections.abc import Iterator
from itertools import groupby, pairwise
from math import cos, dist, pi, sin

from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.reach.model import Rim, Shell, Through, Way
from armorplan.geometry.reach.threaded import threaded_spots
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

_BAND_MM = 1.5
_RING_MM = 6.0
_CORNERS = 8
_STRAIGHT_MM = 1.0
"""A way that is no longer than the straight line by so much is drawn as one."""
_LEAST = 2


def mouth_marks(shell: Shell) -> Iterator[Mark]:
    """Yield a band along the edge of each mouth, part by part, with its width."""
    for rim in shell.rims:
        label = f"mouth {rim.opening_mm:.0f} mm"
        for part, spots in groupby(rim.spots, key=lambda spot: spot[0]):
            line = [spot for _, spot in spots]
            if len(line) >= _LEAST:
                yield Mark(kind=MarkKind.ZONE, part=part, spots=_band(line), label=label)
                label = ""


def _band(line: list[Point]) -> tuple[Point, ...]:
    from shapely import LineString, get_coordinates

    band = LineString(line).simplify(_BAND_MM / 2).buffer(_BAND_MM, quad_segs=1)
    return tuple((x, y) for x, y in get_coordinates(band.exterior).tolist())


def way_marks(
    pattern: Pattern, shell: Shell, joint: str, way: Way | None, severity: Severity | None
) -> Iterator[Mark]:
    """Yield the joint, and the way in to it as a span where it runs straight over one part."""
    spots = _spots(pattern, shell, joint)
    if not spots:
        return
    (part, at), label = spots[0], "" if way is None else f"{way.along_mm:.0f} mm in"
    if way is not None:
        for part_id, spot in spots:
            start = _start(pattern, shell, way, part_id, spot)
            if start is not None and dist(start, spot) <= way.along_mm + _STRAIGHT_MM:
                yield Mark(
                    kind=MarkKind.SPAN,
                    part=part_id,
                    spots=(start, spot),
                    label=f"{way.along_mm:.0f} mm",
                    severity=severity,
                )
                part, at, label = part_id, spot, ""
                break
    ring = tuple(
        (
            at[0] + _RING_MM * cos(2 * pi * n / _CORNERS),
            at[1] + _RING_MM * sin(2 * pi * n / _CORNERS),
        )
        for n in range(_CORNERS)
    )
    yield Mark(kind=MarkKind.ZONE, part=part, spots=ring, label=label, severity=severity)


def _spots(pattern: Pattern, shell: Shell, joint: str) -> list[tuple[str, Point]]:
    holes = (pattern.hole(hole) for hole in pattern.joint(joint).stack)
    spots = [(hole.part, hole.centre) for hole in holes]
    behind = threaded_spots(pattern).get(joint, ())
    return [(part, spot) for part, spot in (*spots, *behind) if part in shell.parts]


def _start(pattern: Pattern, shell: Shell, way: Way, part: str, spot: Point) -> Point | None:
    """Return where on a part the way goes in, nearest to a spot; ``None`` where it does elsewhere."""
    if way.through is Through.ROW:
        spots = gap_spots(shell, way) if way.gap else _spots(pattern, shell, way.name)
        found = [at for owner, at in spots if owner == part]
        return min(found, key=lambda at: dist(at, spot), default=None)
    found = [
        _nearest(one[1], other[1], spot)
        for one, other in pairwise(_rim(shell, way.name).spots)
        if one[0] == other[0] == part
    ]
    return min(found, key=lambda at: dist(at, spot), default=None)


def gap_spots(shell: Shell, way: Way) -> tuple[tuple[str, Point], ...]:
    """Return where a gap lies on each plate."""
    return next(
        gap.spots
        for row in shell.rows
        if row.id == way.row
        for gap in row.gaps
        if gap.name == way.name
    )


def _nearest(start: Point, end: Point, spot: Point) -> Point:
    """Return the spot of a stretch that lies nearest to another."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length2 = dx * dx + dy * dy
    if not length2:
        return start
    share = ((spot[0] - start[0]) * dx + (spot[1] - start[1]) * dy) / length2
    share = min(1.0, max(0.0, share))
    return (start[0] + share * dx, start[1] + share * dy)


def _rim(shell: Shell, name: str) -> Rim:
    return next(rim for rim in shell.rims if rim.id == name)
