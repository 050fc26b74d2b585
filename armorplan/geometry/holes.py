"""Holes that would tear: too near an edge, a slot or another hole of the same part."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations, islice
from math import cos, dist, radians, sin

from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.pattern.pattern import Pattern

EDGE_DIAMETERS = 2.0
"""Hole centre to edge, in diameters at least: FAA AC 43.13-1B, par. 4-57 and 4-58."""
EDGE_STACKS = 1.5
"""Hole centre to edge, in thicknesses of the stack (common practice, no source; from memory)."""
EDGE_ENOUGH_MM = 10.0
"""A thick stack asks for no more than this: 8–10 mm is usual at a strap's end (common practice)."""
EDGE_LEAST_MM = 6.0
"""Nearer than this the awl already tears leather (common practice, no source; from memory)."""
PITCH_DIAMETERS = 3.0
"""Hole to hole, in diameters at least: NAVEDTRA 14018 (manual title from memory)."""
MOST_TOLD = 50
"""Pairs of holes told of one part, each with its mm; beyond it something else is wrong."""
_FEW = 300
_SLACK_MM = 0.05
"""Curves are flattened, and centres written, to some hundredths of a millimetre."""


def least_edge_mm(diameter_mm: float, stack_mm: float = 0.0) -> float:
    """Return the least distance in mm from a hole's centre to an edge."""
    by_stack_mm = min(EDGE_STACKS * stack_mm, EDGE_ENOUGH_MM)
    return max(EDGE_DIAMETERS * diameter_mm, by_stack_mm, EDGE_LEAST_MM)


def edge_distances_mm(part: Part) -> tuple[float, ...]:
    """Return for each hole the distance in mm from its centre to the nearest outline or slot.

    Of a slot that a joint slides in, the nearest spot the fastener can come to counts.
    """
    from shapely import LinearRing, MultiLineString, distance, linestrings

    if not part.holes:
        return ()
    rings = [LinearRing(ring) for ring in (part.outline, *(s.outline for s in part.slots))]
    spots = linestrings([_run(hole) for hole in part.holes])
    return tuple(float(d) for d in distance(MultiLineString(rings), spots))


def _run(hole: Hole) -> tuple[Point, Point]:
    """Return the two ends of where the fastener can stand; of a round hole both are its centre."""
    (x, y), half_mm = hole.centre, hole.travel_mm / 2
    # The drawing's y runs down the page, angles count upward from the right.
    dx, dy = half_mm * cos(radians(hole.travel_deg)), -half_mm * sin(radians(hole.travel_deg))
    return (x - dx, y - dy), (x + dx, y + dy)


def _apart_mm(one: Hole, other: Hole) -> float:
    """Return the least distance in mm between where two fasteners can stand."""
    if not one.travel_mm and not other.travel_mm:
        return dist(one.centre, other.centre)
    from shapely import LineString

    return float(LineString(_run(one)).distance(LineString(_run(other))))


def stacks_mm(pattern: Pattern) -> dict[str, float]:
    """Return for each hole that a joint uses the thickest stack through it, in mm."""
    thickest: dict[str, float] = defaultdict(float)
    for joint in pattern.joints:
        stack_mm = sum(pattern.part(p).thickness_mm for p in pattern.stack_parts(joint.id))
        for hole in joint.stack:
            thickest[hole] = max(thickest[hole], stack_mm)
    return thickest


def _near_edge(part: Part, hole: Hole, edge_mm: float, least_mm: float) -> Finding:
    return Finding(
        code="hole-near-edge",
        severity=Severity.WARNING,
        text=(
            f"Hole '{hole.id}' in {part.name} lies {edge_mm:.1f} mm from the nearest edge; "
            f"{least_mm:.1f} mm is the least for its size and stack."
        ),
        remedy=f"Move it {least_mm - edge_mm:.1f} mm inward, or widen {part.name} there.",
        about=(part.id, hole.id),
    )


def _near_hole(part: Part, one: Hole, other: Hole) -> Finding | None:
    apart_mm = _apart_mm(one, other)
    least_mm = PITCH_DIAMETERS * max(one.diameter_mm, other.diameter_mm)
    if apart_mm >= least_mm - _SLACK_MM:
        return None
    return Finding(
        code="holes-too-close",
        severity=Severity.WARNING,
        text=(
            f"Holes '{one.id}' and '{other.id}' in {part.name} are {apart_mm:.1f} mm apart; "
            f"{least_mm:.1f} mm, three diameters, is the least."
        ),
        remedy=f"Move one of them {least_mm - apart_mm:.1f} mm away, or use one hole for both.",
        about=(part.id, one.id, other.id),
    )


def _neighbours(holes: tuple[Hole, ...]) -> Iterator[tuple[Hole, Hole]]:
    """Yield pairs of holes; of very many only such as lie near each other from left to right."""
    if len(holes) <= _FEW:
        yield from combinations(holes, 2)
        return
    least_mm = PITCH_DIAMETERS * max(hole.diameter_mm for hole in holes)
    reach_mm = least_mm + max(hole.travel_mm for hole in holes)
    across = sorted(holes, key=lambda hole: (hole.centre, hole.id))
    for at, one in enumerate(across):
        for other in across[at + 1 :]:
            if other.centre[0] - one.centre[0] > reach_mm:
                break
            yield one, other


def _more_near_holes(part: Part) -> Finding:
    return Finding(
        code="holes-too-close",
        severity=Severity.WARNING,
        text=f"More than {MOST_TOLD} pairs of holes in {part.name} are less than three diameters apart.",
        remedy="Look whether circles were drawn more than once, or are no holes.",
        about=(part.id,),
    )


def hole_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield holes nearer to an edge, a slot or each other than leather bears, with mm."""
    stacks = stacks_mm(pattern)
    for part in pattern.parts:
        for hole, edge_mm in zip(part.holes, edge_distances_mm(part), strict=True):
            least_mm = least_edge_mm(hole.diameter_mm, stacks.get(hole.id, 0.0))
            if edge_mm < least_mm - _SLACK_MM:
                yield _near_edge(part, hole, edge_mm, least_mm)
        near = (_near_hole(part, one, other) for one, other in _neighbours(part.holes))
        told = (found for found in near if found is not None)
        yield from islice(told, MOST_TOLD)
        if next(told, None) is not None:
            yield _more_near_holes(part)
