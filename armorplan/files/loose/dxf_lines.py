"""Corners of DXF entities in the numbers of the file, y still upward; curves flattened."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan, ceil, cos, dist, hypot, sin
from typing import TYPE_CHECKING, Any

from armorplan.files.loose.strokes import circle_ring, most_turn
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from ezdxf.entities.dxfgfx import DXFGraphic

_LEAST_PIECES = 8
_SHARE = 1 / 3000
"""How far chords may lie off an ellipse, in halves of its width: 0.05 % of its area go."""
_FINEST = 1 / 50
_FRAME = 16
"""A vertex of a fitted polyline that only pulls the curve (DXF reference, VERTEX, group 70)."""
_BULGE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Traced:
    """What one entity draws."""

    points: list[Point]
    closed: bool
    circle: tuple[Point, float] | None = None


def traced(entity: "DXFGraphic", flat: float) -> Traced | None:
    """Return what an entity draws, ``None`` where it is no line.

    Args:
        entity: it, in the coordinates of the whole drawing.
        flat: how far a chord may lie off its curve.
    """
    work = _TRACE.get(entity.dxftype())
    return work(entity, flat) if work else None


def _line(entity: Any, flat: float) -> Traced:  # noqa: ARG001 - one signature for all
    dxf = entity.dxf
    return Traced(points=_flat([dxf.start, dxf.end]), closed=False)


def _circle(entity: Any, flat: float) -> Traced:
    middle = entity.ocs().to_wcs(entity.dxf.center)
    centre, wide = (middle.x, middle.y), 2 * abs(entity.dxf.radius)
    if not wide:
        return Traced(points=[], closed=False)
    return Traced(points=list(circle_ring(centre, wide, flat)), closed=True, circle=(centre, wide))


def _arc(entity: Any, flat: float) -> Traced:
    radius = abs(entity.dxf.radius)
    if not radius:
        return Traced(points=[], closed=False)
    return Traced(points=_flat(entity.flattening(min(flat, radius / 4))), closed=False)


def _ellipse(entity: Any, flat: float) -> Traced:
    # Chords lie inside: of a small one they would take a share of its area that is felt.
    share = abs(entity.minor_axis.magnitude) * _SHARE
    fine = min(max(share, flat * _FINEST), flat)
    points = _flat(entity.flattening(fine, segments=_LEAST_PIECES))
    return _maybe_round(points)


def _spline(entity: Any, flat: float) -> Traced:
    points = _flat(entity.flattening(flat, segments=_LEAST_PIECES // 2))
    return _maybe_round(points, closed=bool(entity.closed))


def _maybe_round(points: list[Point], *, closed: bool = False) -> Traced:
    """Return what a curve draws; one that ends where it begins is closed."""
    size = max((hypot(x, y) for x, y in points), default=0.0)
    if len(points) > 3 and dist(points[0], points[-1]) <= 1e-9 * (1 + size):  # noqa: PLR2004
        return Traced(points=points[:-1], closed=True)
    return Traced(points=points, closed=closed)


def _light(entity: Any, flat: float) -> Traced:
    corners = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
    return _bulged(entity, corners, flat, closed=bool(entity.closed))


def _heavy(entity: Any, flat: float) -> Traced | None:
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        return None
    vertices = [v.dxf for v in entity.vertices if not v.dxf.flags & _FRAME]
    if entity.is_3d_polyline:
        points = _flat(v.location for v in vertices)
        return Traced(points=points, closed=bool(entity.is_closed))
    corners = [(v.location.x, v.location.y, v.get("bulge", 0.0)) for v in vertices]
    return _bulged(entity, corners, flat, closed=bool(entity.is_closed))


def _bulged(
    entity: Any, corners: list[tuple[float, float, float]], flat: float, *, closed: bool
) -> Traced:
    """Return a polyline whose pieces may be arcs, in the coordinates of the whole drawing."""
    around = [*corners, corners[0]] if closed and corners else corners
    points = [(x, y) for x, y, _ in around[:1]]
    for (x0, y0, bulge), (x1, y1, _) in pairwise(around):
        points += _arc_of_bulge((x0, y0), (x1, y1), bulge, flat)
        points.append((x1, y1))
    if closed and points:
        points.pop()
    plane = entity.ocs()
    if plane.transform:
        points = _flat(plane.points_to_wcs([(x, y, 0) for x, y in points]))
    return Traced(points=points, closed=closed)


def _arc_of_bulge(start: Point, end: Point, bulge: float, flat: float) -> Iterator[Point]:
    """Yield the corners strictly between the ends of an arc.

    A bulge is the tangent of a quarter of the angle the arc turns, above 0 to the left
    (DXF reference, LWPOLYLINE, group 42).
    """
    chord = dist(start, end)
    if abs(bulge) < _BULGE or not chord:
        return
    turn = 4 * atan(bulge)
    radius = chord / (2 * abs(sin(turn / 2)))
    # The centre lies beside the middle of the chord, by the share (1 - b²) / 4b of its length.
    share = (1 - bulge * bulge) / (4 * bulge)
    dx, dy = end[0] - start[0], end[1] - start[1]
    cx = (start[0] + end[0]) / 2 - share * dy
    cy = (start[1] + end[1]) / 2 + share * dx
    ux, uy = start[0] - cx, start[1] - cy
    count = max(ceil(abs(turn) / most_turn(radius, flat)), 1)
    for step in range(1, count):
        c, s = cos(turn * step / count), sin(turn * step / count)
        yield cx + c * ux - s * uy, cy + s * ux + c * uy


def _flat(points: "Iterable[Any]") -> list[Point]:
    return [(float(p[0]), float(p[1])) for p in points]


_TRACE: dict[str, Callable[[Any, float], Traced | None]] = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
    "LWPOLYLINE": _light,
    "POLYLINE": _heavy,
}
