"""How wide a strap is where something sits in it."""

from functools import lru_cache
from math import dist, hypot
from typing import TYPE_CHECKING

from armorplan.geometry.areas import rectangle_mm, ring_area_mm2
from armorplan.pattern.parts import Part, PartKind, Point, Ring

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LIMP = frozenset({PartKind.STRAP, PartKind.KEEPER})
STIFF = frozenset({PartKind.PLATE, PartKind.LAME, PartKind.COP})
"""Parts that keep a shape of their own; straps, trims and linings follow what they are put on."""
STRAP_SHAPE = 5.0
"""A part this many times as long as it is wide may well be a strap (common practice)."""
_SAMPLES = 15
_TOUCH_MM = 0.01


def is_flat(part: Part) -> bool:
    """Tell whether a part has an outline with an area, so that it has a length and a width."""
    return ring_area_mm2(part.outline) > 0


def is_strap(part: Part) -> bool:
    """Tell whether a part is a strap: by its kind, or by its shape where no kind was told."""
    if part.kind in LIMP:
        return is_flat(part)
    if not is_flat(part):
        return False
    long_mm, wide_mm = rectangle_mm(part.outline)
    return part.kind is PartKind.PLATE and long_mm >= STRAP_SHAPE * wide_mm


@lru_cache(maxsize=1024)
def _box(ring: Ring) -> tuple[Point, Point, Point]:
    """Return a corner of the smallest rectangle round an outline, its long and its short side."""
    from shapely import Polygon, get_coordinates, oriented_envelope

    a, b, c = get_coordinates(oriented_envelope(Polygon(ring))).tolist()[:3]
    one, other = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
    if hypot(*one) >= hypot(*other):
        return (a[0], a[1]), one, other
    return (b[0], b[1]), other, (-one[0], -one[1])


@lru_cache(maxsize=4096)
def _cut(rings: tuple[Ring, ...], at: Point, along: Point) -> tuple[tuple[float, float], ...]:
    """Return the stretches of a line through a spot that lie in leather, in mm from the spot."""
    from shapely import LineString, Polygon, get_coordinates, get_parts

    length, reach = hypot(*along), 0.0
    for corner in rings[0]:
        reach = max(reach, dist(at, corner))
    ux, uy = along[0] / length, along[1] / length
    ends = [(at[0] + s * ux * reach, at[1] + s * uy * reach) for s in (-1, 1)]
    leather: BaseGeometry = Polygon(rings[0]).buffer(0)
    for slot in rings[1:]:
        leather = leather.difference(Polygon(slot).buffer(0))
    found = []
    for piece in get_parts(LineString(ends).intersection(leather)):
        spots = [(x - at[0]) * ux + (y - at[1]) * uy for x, y in get_coordinates(piece)]
        if spots:  # a line beside the leather meets it in one piece that is empty
            found.append((min(spots), max(spots)))
    return tuple(found)


def _here(cuts: tuple[tuple[float, float], ...]) -> tuple[float, float] | None:
    return next(((a, b) for a, b in cuts if a <= _TOUCH_MM and b >= -_TOUCH_MM), None)


def long_side(part: Part) -> Point:
    """Return the long side of the smallest rectangle round a part, in mm along x and y."""
    return _box(part.outline)[1]


def across_mm(part: Part, at: Point) -> tuple[float, float] | None:
    """Return how far both long edges of a strap lie from a spot in it, in mm; ``None`` outside."""
    _, _, short = _box(part.outline)
    cut = _here(_cut((part.outline,), at, short))
    return None if cut is None else (-cut[0], cut[1])


def ahead_mm(part: Part, at: Point) -> float | None:
    """Return how far the nearer end of a strap, or a slot in it, lies ahead of a spot, in mm."""
    _, along, _ = _box(part.outline)
    slots = (slot.outline for slot in part.slots if ring_area_mm2(slot.outline) > 0)
    cut = _here(_cut((part.outline, *slots), at, along))
    return None if cut is None else min(-cut[0], cut[1])


def width_mm(part: Part, at: Point | None = None) -> float:
    """Return how wide a strap is in mm: at a spot, or as it is over most of its length."""
    if at is not None and (here := across_mm(part, at)) is not None:
        return sum(here)
    (x, y), (ax, ay), (sx, sy) = _box(part.outline)
    widths = []
    for step in range(_SAMPLES):
        share = (step + 0.5) / _SAMPLES
        middle = (x + share * ax + sx / 2, y + share * ay + sy / 2)
        widths.append(sum(b - a for a, b in _cut((part.outline,), middle, (sx, sy))))
    return sorted(widths)[_SAMPLES // 2]
