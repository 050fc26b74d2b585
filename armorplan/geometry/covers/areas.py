"""How much of a head or hole lies under a part, in the drawing of that part."""

from collections.abc import Iterator
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.covers.places import Place
from armorplan.geometry.widths import LIMP
from armorplan.pattern.parts import Hole, Part, Point, Ring

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

COVERED_PCT = 5.0
"""A head hidden by less than this share of its area can still be set (common practice)."""
FIXED_MM = 10.0
"""How far round its fixings a strap lies fast; the usual edge distance of a strap's end."""
_LEAST_CORNERS = 3
_QUARTER = 10
"""Corners of a quarter of a head, which makes it some hundredths of a millimetre too small."""
_EXACT_MM = 0.05


class Spot(NamedTuple):
    """A head or a hole where it lies on a part, in mm on that part's drawing."""

    name: str
    centre: Point
    radius_mm: float


class Lower(NamedTuple):
    """A part beneath a cover, its place in the cover's drawing, and what may be hidden on it.

    ``fast`` are the fixings between which a strap lies fast; empty for parts that are not limp.
    """

    part: str
    place: Place
    heads: tuple[Spot, ...]
    holes: tuple[Spot, ...]
    fast: tuple[Point, ...] = ()


class Hidden(NamedTuple):
    """How much of a spot is hidden, in per cent, and the areas, on the drawing of its part."""

    name: str
    covered_pct: float
    areas: tuple[Ring, ...]


class Over(NamedTuple):
    """What a cover does to one part beneath it; ``ghost`` is where its edge comes to lie there."""

    heads: tuple[Hidden, ...]
    holes: tuple[Hidden, ...]
    ghost: tuple[Ring, ...]


@lru_cache(maxsize=2048)
def laid_over(
    cover: Part, fixings: tuple[Point, ...], open_holes: tuple[Hole, ...], lower: Lower
) -> Over | None:
    """Return what a cover hides of a part beneath it; ``None`` where it has no area.

    An outline is drawn in by the most that its holes miss, since a curved row puts it only
    roughly. A strap or keeper hides only what lies between its own fixings, beyond them it folds
    away. What shows through a slot or a free hole of the cover is not hidden.
    """
    if len(cover.outline) < _LEAST_CORNERS:
        return None
    lying = _lying(cover, fixings, open_holes)
    if lying.is_empty:
        return None
    near = _Near(lying, lower.place)
    return Over(
        heads=tuple(near.hidden(lower.heads)),
        holes=tuple(near.hidden(_held_fast(lower))),
        ghost=tuple(map(lower.place.onto_beneath, _rings(lying))),
    )


@lru_cache(maxsize=512)
def _lying(
    cover: Part, fixings: tuple[Point, ...], open_holes: tuple[Hole, ...]
) -> "BaseGeometry":
    """Return what of a cover lies fast: all of a plate, a strap between its fixings."""
    from shapely import MultiPoint, Point, Polygon, unary_union

    whole: BaseGeometry = Polygon(cover.outline).buffer(0)
    gaps = [Polygon(slot.outline).buffer(0) for slot in cover.slots if len(slot.outline) > 2]  # noqa: PLR2004
    gaps += [Point(hole.centre).buffer(hole.diameter_mm / 2) for hole in open_holes]
    if gaps:
        whole = whole.difference(unary_union(gaps))
    if cover.kind not in LIMP:
        return whole
    return whole.intersection(MultiPoint(fixings).convex_hull.buffer(FIXED_MM))


def _held_fast(lower: Lower) -> tuple[Spot, ...]:
    """Return the holes that lie where a part lies fast; the free end of a strap can be drawn out."""
    if not lower.fast or not lower.holes:
        return lower.holes
    from shapely import MultiPoint, Point

    fast = MultiPoint(lower.fast).convex_hull.buffer(FIXED_MM)
    return tuple(spot for spot in lower.holes if fast.contains(Point(spot.centre)))


class _Near:
    """A cover where it lies; drawn in by what it may be off, once something lies near it."""

    def __init__(self, lying: "BaseGeometry", place: Place) -> None:
        self._lying, self._place = lying, place

    @cached_property
    def _sure(self) -> "BaseGeometry":
        off_mm = self._place.off_mm
        return self._lying.buffer(-off_mm) if off_mm > _EXACT_MM else self._lying

    def hidden(self, spots: tuple[Spot, ...]) -> Iterator[Hidden]:
        """Yield what of some spots is hidden, where it is more than the least."""
        from shapely import Point

        for spot in spots:
            centre = self._place.into_cover(spot.centre)
            if spot.radius_mm <= 0 or _far(centre, spot.radius_mm, self._lying.bounds):
                continue
            disc = Point(centre).buffer(spot.radius_mm, quad_segs=_QUARTER)
            area = disc.intersection(self._sure)
            covered_pct = 100 * area.area / disc.area
            if covered_pct > COVERED_PCT:
                areas = tuple(map(self._place.onto_beneath, _rings(area)))
                yield Hidden(spot.name, round(covered_pct, 1), areas)


def _far(centre: Point, radius_mm: float, bounds: tuple[float, float, float, float]) -> bool:
    """Tell whether a head lies beside the box round an outline; quick, where most heads do."""
    (x, y), (left, top, right, bottom) = centre, bounds
    outside_mm = max(left - x, x - right, top - y, y - bottom)
    return not outside_mm < radius_mm


def _rings(area: "BaseGeometry") -> Iterator[Ring]:
    from shapely import get_coordinates, get_parts

    for piece in get_parts(area):
        if piece.geom_type == "Polygon" and not piece.is_empty:
            yield tuple((x, y) for x, y in get_coordinates(piece.exterior)[:-1].tolist())
