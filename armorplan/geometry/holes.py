"""Holes that would tear: too near an edge, a slot or another hole of the same part."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations, islice
from math import cos, dist, radians, sin
from typing import NamedTuple

from armorplan.geometry.told import listed
from armorplan.geometry.widths import across_mm, ahead_mm, is_strap
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
STRAP_DIAMETERS = 1.0
"""In the middle of a strap a hole may take up half its width (common practice, no source)."""
MIDDLE_MM = 1.0
"""A hole as near to the middle line of a strap as this stands in it (common practice, no source)."""
MOST_COUNTED = 50
"""Pairs of holes counted in one part; beyond it something else is wrong."""
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


class _Near(NamedTuple):
    """A hole too near an edge: how far it lies from it, and how far it should, in mm."""

    hole: Hole
    edge_mm: float
    least_mm: float
    in_middle: bool = False

    @property
    def lacks_mm(self) -> float:
        return self.least_mm - self.edge_mm


def _near_edge(part: Part, hole: Hole, edge_mm: float, least_mm: float) -> _Near | None:
    """Return a hole that is too near an edge; in the middle of a strap no edge is too near.

    Only a hole wider than half of the strap is. The strap's end is judged as every other edge.
    """
    if edge_mm >= least_mm - _SLACK_MM:
        return None
    across = across_mm(part, hole.centre) if is_strap(part) and not hole.travel_mm else None
    if across is None or sum(across) / 2 >= least_mm:
        return _Near(hole, edge_mm, least_mm)
    middle_mm = sum(across) / 2
    enough_mm = max(middle_mm - MIDDLE_MM, STRAP_DIAMETERS * hole.diameter_mm)
    ahead = ahead_mm(part, hole.centre)
    if ahead is not None and ahead < least_mm - _SLACK_MM:
        return _Near(hole, ahead, least_mm)
    if edge_mm >= enough_mm - _SLACK_MM:
        return None
    return _Near(hole, edge_mm, max(middle_mm, STRAP_DIAMETERS * hole.diameter_mm), in_middle=True)


def _near_edges(part: Part, near: list[_Near]) -> Finding:
    """Return one finding for all holes of a part that lie too near an edge, the worst first."""
    near = sorted(near, key=lambda each: -each.lacks_mm)
    worst = near[0]
    move = f"{worst.lacks_mm:.1f} mm{' inward' if not worst.in_middle else ' to the middle'}"
    if len(near) == 1:
        least = "the middle" if worst.in_middle else "the least for its size and stack"
        text = (
            f"Hole '{worst.hole.id}' in {part.name} lies {worst.edge_mm:.1f} mm from the nearest "
            f"edge; {worst.least_mm:.1f} mm is {least}."
        )
        remedy = f"Move it {move}, or widen {part.name} there."
    else:
        words = [f"'{n.hole.id}' {n.edge_mm:.1f} mm ({n.least_mm:.1f})" for n in near]
        text = (
            f"{len(near)} holes in {part.name} lie nearer to an edge than is the least for their "
            f"size and stack, in brackets: {listed(words)}."
        )
        remedy = f"Move them {move} at most, or widen {part.name} there."
    return Finding(
        code="hole-near-edge",
        severity=Severity.WARNING,
        text=text,
        remedy=remedy,
        about=(part.id, *(each.hole.id for each in near)),
    )


class _Close(NamedTuple):
    """Two holes nearer to each other than three diameters, in mm."""

    one: Hole
    other: Hole
    apart_mm: float
    least_mm: float

    @property
    def lacks_mm(self) -> float:
        return self.least_mm - self.apart_mm


def _near_hole(one: Hole, other: Hole) -> _Close | None:
    apart_mm = _apart_mm(one, other)
    least_mm = PITCH_DIAMETERS * max(one.diameter_mm, other.diameter_mm)
    return None if apart_mm >= least_mm - _SLACK_MM else _Close(one, other, apart_mm, least_mm)


def _near_holes(part: Part, close: list[_Close]) -> Finding:
    """Return one finding for all pairs of holes of a part that are too close, the worst first."""
    many = len(close) > MOST_COUNTED
    close = sorted(close[:MOST_COUNTED], key=lambda each: -each.lacks_mm)
    worst = close[0]
    words = [f"'{c.one.id}' and '{c.other.id}' {c.apart_mm:.1f} mm apart" for c in close]
    if len(close) == 1:
        text = (
            f"Holes '{worst.one.id}' and '{worst.other.id}' in {part.name} are "
            f"{worst.apart_mm:.1f} mm apart; {worst.least_mm:.1f} mm, three diameters, is the least."
        )
        remedy = f"Move one of them {worst.lacks_mm:.1f} mm away, or use one hole for both."
    else:
        text = (
            f"{'More than ' * many}{len(close)} pairs of holes in {part.name} are less than three "
            f"diameters apart: {listed(words, named=3)}."
        )
        remedy = (
            "Look whether circles were drawn more than once, or are no holes."
            if many
            else f"Move them {worst.lacks_mm:.1f} mm apart at most, or use one hole for two."
        )
    holes = dict.fromkeys(hole.id for c in close for hole in (c.one, c.other))
    return Finding(
        code="holes-too-close",
        severity=Severity.WARNING,
        text=text,
        remedy=remedy,
        about=(part.id, *holes),
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


def hole_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield parts with holes nearer to an edge, a slot or each other than leather bears, with mm."""
    stacks = stacks_mm(pattern)
    for part in pattern.parts:
        edges = zip(part.holes, edge_distances_mm(part), strict=True)
        near = [
            _near_edge(part, hole, mm, least_edge_mm(hole.diameter_mm, stacks.get(hole.id, 0.0)))
            for hole, mm in edges
        ]
        if too_near := [each for each in near if each is not None]:
            yield _near_edges(part, too_near)
        pairs = (_near_hole(one, other) for one, other in _neighbours(part.holes))
        told = (each for each in pairs if each is not None)
        if close := list(islice(told, MOST_COUNTED + 1)):
            yield _near_holes(part, close)
