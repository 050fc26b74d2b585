"""Parts with holes and slots out of shapes that were sorted; ids are the keys of the shapes."""

import re
from functools import lru_cache

from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.brought.model import Shape, ShapeKind, SortedOut
from armorplan.pattern.parts import Hole, Part, PartKind, Point, Ring, Slot

_COUNTED = re.compile(
    r"[\d#].*|(?:path|rect|circle|ellipse|polygon|polyline|line|use|g|shape|spline|layer|object|arc)?"
    r"[-_ ]?[0-9a-f]*(?:[-_ ][0-9a-f]*)*",
    re.IGNORECASE,
)
"""Ids that drawing programs and DXF handles count up, such as path1234-5 or 2F."""
ASSUMED_MM = 3.6
"""9 oz, until a leather is said (common practice, no source)."""


@lru_cache(maxsize=8)
def parts_of(found: SortedOut) -> tuple[Part, ...]:
    """Return a plate for each part that is drawn, in the order of the drawing."""
    inside: dict[str, list[Shape]] = {}
    for shape in found.shapes:
        inside.setdefault(shape.inside, []).append(shape)
    return tuple(
        _part(shape, inside.get(shape.key, []))
        for shape in found.shapes
        if shape.kind is ShapeKind.PART
    )


def _part(shape: Shape, inside: list[Shape]) -> Part:
    return Part(
        id=shape.key,
        name=shape.name or said_id(shape.key),
        piece="",
        kind=PartKind.PLATE,
        outline=shape.points,
        material="",
        thickness_mm=ASSUMED_MM,
        holes=tuple(_hole(each, shape.key) for each in inside if each.kind is ShapeKind.HOLE),
        slots=tuple(_slot(each, shape.key) for each in inside if each.kind is ShapeKind.SLOT),
    )


def said_id(key: str) -> str:
    """Return the key of a shape where it says something: a maker's id, not one a program counted."""
    return "" if _COUNTED.fullmatch(key) else key


def _hole(shape: Shape, part: str) -> Hole:
    centre, diameter_mm = shape.circle or (middle(shape.points), rectangle_mm(shape.points)[1])
    return Hole(id=shape.key, part=part, centre=centre, diameter_mm=diameter_mm)


def _slot(shape: Shape, part: str) -> Slot:
    long_mm, wide_mm = rectangle_mm(shape.points)
    return Slot(id=shape.key, part=part, outline=shape.points, length_mm=long_mm, width_mm=wide_mm)


def middle(ring: Ring) -> Point:
    """Return the middle of the box round an outline."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
