"""Where a look-alike part can be marked so that another one covers the mark once it is assembled."""

from dataclasses import dataclass
from functools import lru_cache
from math import dist
from typing import TYPE_CHECKING

from armorplan.geometry.areas import ring_area_mm2
from armorplan.geometry.covers.places import Laying, Place
from armorplan.geometry.widths import LIMP
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.pattern.pattern import Pattern

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

CLEAR_MM = 6.0
"""A mark stays so far from holes, slots and edges: leather tears and stretches there (common
practice, no source)."""
DOT_MM = 2.0
"""So wide is a punched mark."""
_EXACT_MM = 0.5
_NAMED = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkSpot:
    """A spot on a part that another part covers.

    Attributes:
        part: id of the part to be marked.
        at: the spot, in mm on its drawing.
        cover: id of the part that comes to lie over it.
        room_mm: how far from it the leather is covered and free all round.
        edge_mm: how far it lies from the part's edge.
        near: ids of the one or two nearest holes that the part is joined by, with how far their
            centres lie from the spot in mm.
    """

    part: str
    at: Point
    cover: str
    room_mm: float
    edge_mm: float
    near: tuple[tuple[str, float], ...] = ()


def mark_spot(pattern: Pattern, part_id: str) -> MarkSpot | None:
    """Return where a mark on a part has most room; ``None`` where nothing covers it far enough.

    Straps and keepers cover nothing for good, and a part that turns covers as it is drawn. An
    outline is drawn in by what its holes miss by.
    """
    part = pattern.part(part_id)
    if ring_area_mm2(part.outline) <= 0:
        return None
    laying = _laying(pattern)
    found = [
        spot
        for cover in pattern.parts
        if cover.kind not in LIMP and part_id in laying.pairs.get(cover.id, {})
        for place in laying.beneath(cover.id).get(part_id, ())
        if (spot := _spot(part, cover, place)) is not None
    ]
    return max(found, key=lambda each: (each.room_mm, each.cover), default=None)


@lru_cache(maxsize=4)
def _laying(pattern: Pattern) -> Laying:
    return Laying(pattern)


def _spot(part: Part, cover: Part, place: Place) -> MarkSpot | None:
    """Return the middle of the largest free circle under a cover, drawn on the part."""
    from shapely import Point as Dot
    from shapely import Polygon, maximum_inscribed_circle

    under: BaseGeometry = Polygon(place.onto_beneath(cover.outline)).buffer(-place.off_mm)
    free = Polygon(part.outline).buffer(0).intersection(under)
    for hole in part.holes:
        wide_mm = hole.diameter_mm / 2 + hole.travel_mm / 2
        free = free.difference(Dot(hole.centre).buffer(wide_mm))
    for slot in part.slots:
        free = free.difference(Polygon(slot.outline).buffer(0))
    for gap in cover.slots:
        free = free.difference(Polygon(place.onto_beneath(gap.outline)).buffer(0))
    pieces = [each for each in getattr(free, "geoms", [free]) if each.geom_type == "Polygon"]
    widest = max(pieces, key=lambda each: float(each.area), default=None)
    if widest is None or widest.is_empty:
        return None
    radius = maximum_inscribed_circle(widest, tolerance=_EXACT_MM)
    (x, y), _ = radius.coords
    if radius.length < CLEAR_MM + DOT_MM / 2:
        return None
    return MarkSpot(
        part=part.id,
        at=(round(x, 1), round(y, 1)),
        cover=cover.id,
        room_mm=round(radius.length, 1),
        edge_mm=round(float(Polygon(part.outline).exterior.distance(Dot(x, y))), 1),
        near=_near(part, (x, y)),
    )


def _near(part: Part, spot: Point) -> tuple[tuple[str, float], ...]:
    def away(hole: Hole) -> float:
        return dist(hole.centre, spot)

    nearest = sorted((hole for hole in part.holes if not hole.travel_mm), key=away)[:_NAMED]
    return tuple((hole.id, round(away(hole), 1)) for hole in nearest)
