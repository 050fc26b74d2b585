"""Strips and lames whose holes follow another layer: their ends stay as far from the last holes."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from armorplan.geometry.sizing.model import Factors
from armorplan.pattern.parts import Part, PartKind, Point, heading
from armorplan.pattern.pattern import Pattern

_LEAST_HOLES = 2
_SAME_MM = 0.05
_MOST = 0.15
"""Beyond this share of its size a part is another one, and stays as its measures make it."""


def with_ends_kept(
    before: Pattern, made: Pattern, factors: Mapping[str, Factors]
) -> dict[str, Factors]:
    """Return the factors with which trims reach as far beyond their rows as they were drawn.

    Holes of a trim follow the plate that it lies on, and outer pivots of a lame the inner ones, so
    they move otherwise than the part would grow. The part is made longer or shorter by as much.

    Args:
        before: as it was drawn.
        made: in its new size, by these factors.
        factors: of each part that follows a measure.
    """
    found = dict(factors)
    for part_id, one in factors.items():
        was, now = before.part(part_id), made.part(part_id)
        ups, across = (_share(was, now, axis) for axis in _axes(was))
        if was.kind is PartKind.TRIM and one.along != 1.0:
            found[part_id] = replace(found[part_id], along=one.along * ups)
        if was.kind in (PartKind.TRIM, PartKind.LAME) and one.around != 1.0:
            found[part_id] = replace(found[part_id], around=one.around * across)
    return found


def _axes(part: Part) -> tuple[Point, Point]:
    """Return the directions along up and across it."""
    ux, uy = heading(part.up_deg)
    return (ux, uy), (uy, -ux)


def _share(was: Part, now: Part, axis: Point) -> float:
    """Return by how much larger a part has to be for its ends to stay as far from its holes."""
    if min(len(was.holes), len(now.holes)) < _LEAST_HOLES:
        return 1.0
    long_mm = _span_mm(now.outline, axis)
    more = _beyond_mm(was, axis) - _beyond_mm(now, axis)
    if abs(more) <= _SAME_MM or abs(more) > _MOST * long_mm:
        return 1.0
    return (long_mm + more) / long_mm


def _beyond_mm(part: Part, axis: Point) -> float:
    """Return how much longer a part is than its holes lie apart, both ends together."""
    return _span_mm(part.outline, axis) - _span_mm([hole.centre for hole in part.holes], axis)


def _span_mm(points: Sequence[Point], axis: Point) -> float:
    places = [x * axis[0] + y * axis[1] for x, y in points]
    return max(places) - min(places)
