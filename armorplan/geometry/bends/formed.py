"""Developed and formed size: what a part measures flat, and what it measures once it is bent."""

from dataclasses import dataclass
from functools import lru_cache
from math import cos, radians, sin
from typing import TYPE_CHECKING

from armorplan.geometry.bends.allowance import WHOLE_TURN_DEG, allowance_mm, turn_deg
from armorplan.geometry.bends.lines import CORNERS, Across, Axis, across_axis
from armorplan.pattern.joining import Form
from armorplan.pattern.parts import Part, Point, Ring

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

_STEPS = 64
_OVER_MM = 0.5
"""A bend may be longer than its part by what is lost in drawing and bending (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """One part in one bend.

    Attributes:
        angle_deg: how far it is bent: as written, or where no angle is written all of it.
        allowance_mm: how much of the flat part is in the bend; ``None`` without radius or angle.
        axis: the line it bends about on this part; ``None``: it is not known where it lies.
        flat_mm: its size flat, across the axis and along it; ``None`` where no axis lies over it.
        edges_mm: how far its edges lie from the axis on either side, flat.
        legs_mm: what stays straight on either side.
        formed_mm: its size bent: width and depth of the section, the middle of the bend on top, and
            its height along the axis; ``None`` where not all is known, or it goes round more than once.
    """

    form: str
    part: str
    radius_mm: float | None
    angle_deg: float | None
    allowance_mm: float | None
    neutral: float
    axis: Axis | None
    flat_mm: tuple[float, float] | None
    edges_mm: tuple[float, float] | None
    legs_mm: tuple[float, float] | None
    formed_mm: tuple[float, float, float] | None

    @property
    def is_longer(self) -> bool:
        """Whether the bend takes more than the part has across its axis."""
        if self.allowance_mm is None or self.flat_mm is None:
            return False
        return self.allowance_mm > self.flat_mm[0] + _OVER_MM


@lru_cache(maxsize=2048)
def bent(form: Form, part: Part, neutral: float, axis: Axis | None) -> Bent:
    """Return what a part measures flat and in a bend.

    Args:
        form: a bend or fold.
        part: one of its parts.
        neutral: where its leather keeps its length, in thicknesses from inside.
        axis: where it bends on that part; ``None``: it is not known.
    """
    across = across_axis(axis) if axis and part.outline else None
    flat = _extents(part.outline, across) if across else None
    width_mm = flat[1] - flat[0] if flat else None
    angle_deg = form.angle_deg
    if angle_deg is None and width_mm is not None and form.radius_mm:
        angle_deg = turn_deg(
            width_mm, form.radius_mm, thickness_mm=part.thickness_mm, neutral=neutral
        )
    taken_mm = None
    if angle_deg is not None and form.radius_mm is not None:
        taken_mm = allowance_mm(
            angle_deg, form.radius_mm, thickness_mm=part.thickness_mm, neutral=neutral
        )
    edges = _edges(flat, across) if flat and across else None
    legs = _legs(edges, taken_mm) if edges and taken_mm is not None else None
    return Bent(
        form=form.id,
        part=part.id,
        radius_mm=form.radius_mm,
        angle_deg=angle_deg,
        allowance_mm=taken_mm,
        neutral=neutral,
        axis=axis if across else None,
        flat_mm=(width_mm, flat[2]) if flat and width_mm is not None else None,
        edges_mm=edges,
        legs_mm=legs,
        formed_mm=_formed(form, part, angle_deg, legs, flat[2])
        if legs and flat and angle_deg is not None
        else None,
    )


def _extents(outline: Ring, across: Across) -> tuple[float, float, float]:
    """Return where an outline begins and ends across an axis, and how long it is along it."""
    along = Across((across.unit[1], -across.unit[0]))
    places = [across.place_mm(spot) for spot in outline]
    lengths = [along.place_mm(spot) for spot in outline]
    return min(places), max(places), max(lengths) - min(lengths)


def _edges(flat: tuple[float, float, float], across: Across) -> tuple[float, float]:
    at_mm = across.axis_mm or 0.0
    return at_mm - flat[0], flat[1] - at_mm


def _legs(edges_mm: tuple[float, float], taken_mm: float) -> tuple[float, float]:
    first, second = edges_mm
    return max(0.0, first - taken_mm / 2), max(0.0, second - taken_mm / 2)


def _formed(
    form: Form, part: Part, angle_deg: float, legs_mm: tuple[float, float], height_mm: float
) -> tuple[float, float, float] | None:
    if form.radius_mm is None or not 0 < angle_deg <= WHOLE_TURN_DEG:
        return None
    faces = form.radius_mm, form.radius_mm + part.thickness_mm
    spots = [spot for face in faces for spot in section(face, angle_deg, legs_mm)]
    xs, ys = zip(*spots, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys), height_mm


def section(radius_mm: float, angle_deg: float, legs_mm: tuple[float, float]) -> list[Point]:
    """Return one face of a bent layer seen along its axis, the middle of the bend on top.

    Spots are in mm, y down the page, the centre of the bend at nought.
    """
    half = radians(angle_deg) / 2
    turns = [half * (2 * step / _STEPS - 1) for step in range(_STEPS + 1)]
    arc = [(radius_mm * sin(turn), -radius_mm * cos(turn)) for turn in turns]
    first, second = legs_mm
    start = arc[0][0] - first * cos(half), arc[0][1] + first * sin(half)
    end = arc[-1][0] + second * cos(half), arc[-1][1] + second * sin(half)
    return [start, *arc, end]


@lru_cache(maxsize=2048)
def bend_zone(outline: Ring, axis: Axis, taken_mm: float) -> tuple[Ring, ...]:
    """Return what of an outline lies in a bend: the strip on either side of its axis."""
    from shapely import Polygon, box
    from shapely.affinity import affine_transform

    across = across_axis(axis)
    if across is None or taken_mm <= 0 or len(outline) < CORNERS:
        return ()
    (ux, uy), at_mm = across.unit, across.axis_mm or 0.0
    reach = max(abs(x) + abs(y) for x, y in outline) * 2 + taken_mm
    strip = box(at_mm - taken_mm / 2, -reach, at_mm + taken_mm / 2, reach)
    laid = affine_transform(strip, [ux, uy, uy, -ux, 0.0, 0.0])
    return _rings(Polygon(outline).buffer(0).intersection(laid))


@lru_cache(maxsize=2048)
def axis_on(outline: Ring, axis: Axis) -> tuple[Point, Point] | None:
    """Return the stretch of an axis, drawn out at both ends, that lies over an outline."""
    from shapely import LineString, Polygon

    across = across_axis(axis)
    if across is None or len(outline) < CORNERS:
        return None
    (ux, uy), (x, y) = across.unit, axis[0]
    reach = max(abs(a) + abs(b) for a, b in (*outline, *axis)) * 4
    line = LineString([(x + uy * reach, y - ux * reach), (x - uy * reach, y + ux * reach)])
    over = Polygon(outline).buffer(0).intersection(line)
    if over.is_empty or over.length == 0:
        return None
    spots = [spot for each in getattr(over, "geoms", [over]) for spot in each.coords]
    along = sorted(spots, key=lambda spot: spot[0] * uy - spot[1] * ux)
    return (along[0][0], along[0][1]), (along[-1][0], along[-1][1])


def _rings(shape: "BaseGeometry") -> tuple[Ring, ...]:
    from shapely import Polygon

    found = getattr(shape, "geoms", [shape])
    areas = [each for each in found if isinstance(each, Polygon) and not each.is_empty]
    return tuple(tuple((x, y) for x, y in each.exterior.coords[:-1]) for each in areas)
