"""Where the ends of an outer layer come to lie: bent, it reaches less far round than the inner one."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import dist, hypot

from armorplan.geometry.bends.lines import CORNERS
from armorplan.geometry.bends.rows import ONE_PLACE_MM, hole_in
from armorplan.geometry.bends.slides import LayerSlide
from armorplan.geometry.bends.ways import Way
from armorplan.geometry.edge_rule import edge_rule, least_edge_mm
from armorplan.geometry.sources import CIRCLE, MEASURED
from armorplan.kernel.figures import Figure
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole, Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """What the nearer end of an outer layer has beyond its last hole, where the middle is in place.

    Attributes:
        back_mm: how far each end falls back on the inner layer: half of the slide.
        flat_mm: from the end hole to the edge beyond it, as the outer layer is drawn.
        hole: that hole.
        stack_mm: how thick the stack through it is.
    """

    back_mm: float
    flat_mm: float
    hole: Hole
    stack_mm: float

    @property
    def bent_mm(self) -> float:
        """From the end hole to the edge, where the hole is punched once both layers are bent."""
        return self.flat_mm - self.back_mm


def ends_of(pattern: Pattern, slide: LayerSlide, way: Way) -> Ends | None:
    """Return what the ends of an outer layer come to; ``None`` where its holes stay as drawn."""
    if not way.parts_holes or not slide.total_mm:
        return None
    outline = pattern.part(slide.outer).outline
    found = [
        (room_mm, joint)
        for joint, hole, far in _end_holes(pattern, slide)
        if (room_mm := _room_mm(outline, hole.centre, far)) is not None
    ]
    if not found:
        return None
    flat_mm, joint = min(found)
    hole = hole_in(pattern, joint, slide.outer)
    stack_mm = sum(pattern.part(part).thickness_mm for part in pattern.stack_parts(joint))
    return Ends(back_mm=slide.total_mm / 2, flat_mm=flat_mm, hole=hole, stack_mm=stack_mm)


def _end_holes(pattern: Pattern, slide: LayerSlide) -> Iterator[tuple[str, Hole, Point]]:
    """Yield the joints at either end, their holes, and where the same row has its other end."""
    placed = [(slide.places_mm[at], joint) for at, joint in enumerate(slide.joints)]
    ends = [
        [joint for place, joint in placed if abs(place - end) <= ONE_PLACE_MM]
        for end in (slide.places_mm[0], slide.places_mm[-1])
    ]
    for here, there in (ends, reversed(ends)):
        others = [hole_in(pattern, joint, slide.outer).centre for joint in there]
        for joint in here:
            hole = hole_in(pattern, joint, slide.outer)
            yield joint, hole, min(others, key=lambda far: dist(far, hole.centre))


@lru_cache(maxsize=2048)
def _room_mm(outline: Ring, spot: Point, other: Point) -> float | None:
    """Return how far it is from a hole to the edge, on the way from the other end of its row."""
    from shapely import LinearRing, LineString, distance
    from shapely import Point as Spot

    long_mm = dist(spot, other)
    if len(outline) < CORNERS or not long_mm:
        return None
    reach = sum(hypot(*corner) for corner in outline) + hypot(*spot)
    (x, y), (dx, dy) = spot, ((spot[0] - other[0]) / long_mm, (spot[1] - other[1]) / long_mm)
    edge = LinearRing(outline).intersection(LineString([spot, (x + dx * reach, y + dy * reach)]))
    return None if edge.is_empty else float(distance(edge, Spot(spot)))


def ends_words(outer: str, inner: str, ends: Ends) -> str:
    """Say how far the ends fall back, and what their holes keep."""
    back = (
        f"Where the middle is in its place, each end of {outer} falls {ends.back_mm:.1f} mm back on "
        f"{inner} once bent"
    )
    if ends.bent_mm <= 0:
        return f"{back}, past its end hole: draw {outer} {2 * ends.back_mm:.1f} mm longer."
    return (
        f"{back}, and its end hole comes to lie {ends.bent_mm:.1f} mm from the edge: draw {outer} "
        f"{2 * ends.back_mm:.1f} mm longer to keep the {ends.flat_mm:.1f} mm it has flat."
    )


def ends_figures(ends: Ends) -> tuple[Figure, ...]:
    """Return what the end hole keeps, with the way it was come by."""
    return (
        Figure(
            name=f"end hole '{ends.hole.id}' to the edge, once bent",
            value=ends.bent_mm,
            unit="mm",
            formula=f"as drawn, less half of the slide = {ends.flat_mm:.1f} - {ends.back_mm:.1f} = "
            f"{ends.bent_mm:.1f} mm",
            source=f"{CIRCLE}; {MEASURED}",
        ),
    )


def ends_finding(
    outer: tuple[str, str], ends: Ends, about: tuple[str, ...], constants: Constants
) -> Finding | None:
    """Return that an end hole comes too near the edge only because the layer is bent.

    Args:
        outer: name of the outer layer and of the inner one.
        ends: what its ends come to.
        about: ids of what it speaks of.
        constants: numbers of the bench.
    """
    least_mm = least_edge_mm(ends.hole.diameter_mm, ends.stack_mm)
    slack_mm = constants.misfit.value
    if ends.bent_mm > least_mm - slack_mm or ends.flat_mm <= least_mm - slack_mm:
        return None
    name, inner = outer
    where = (
        f"hole '{ends.hole.id}' then lies {ends.bent_mm:.1f} mm from its edge"
        if ends.bent_mm > 0
        else f"hole '{ends.hole.id}' would lie beyond its edge"
    )
    return Finding(
        code="hole-near-edge",
        severity=Severity.WARNING,
        text=f"Once bent, each end of {name} falls {ends.back_mm:.1f} mm back on {inner}: {where}; "
        f"{least_mm:.1f} mm is the least: {edge_rule(ends.hole.diameter_mm, ends.stack_mm)}.",
        remedy=f"Draw {name} {2 * ends.back_mm:.1f} mm longer.",
        about=(*about, ends.hole.id),
    )
