"""Straps that follow a girth: longer or shorter between their holes, as wide as they were."""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import dist
from typing import NamedTuple

from armorplan.geometry.sizing.clusters import END_MM
from armorplan.geometry.sizing.model import Factors
from armorplan.geometry.sizing.stretches import Gap, Lengthening, long_way
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, Point
from armorplan.pattern.pattern import Pattern

_ROUND_HOLE_MM = 5.0
"""So much leather round a hole or slot keeps its shape."""
_TIP_MM = 20.0
"""So much of an end keeps its shape."""
_LEAST_MM = 1.0
_NONE_MM = 0.01


class _Stop(NamedTuple):
    """Something on a strap that keeps its shape, from one place along it to another."""

    start: float
    end: float
    hole: str = ""


class Lengthened(NamedTuple):
    """How a strap grows, and what could not be."""

    stretch: Lengthening
    findings: tuple[Finding, ...]


def lengthened(
    pattern: Pattern, part: Part, factors: Factors, spots: Mapping[str, Point]
) -> Lengthened:
    """Return how a strap grows.

    Where two of its rivets sit far from each other on one plate it follows that plate; what it
    bridges beyond follows the girth, in its longest stretch without holes.

    Args:
        pattern: as it was drawn.
        part: the strap.
        factors: ``around`` is that of its length.
        spots: where the holes of the plates come to lie.
    """
    strap = _Strap(pattern, part)
    asked = dict(strap.asked_by_plates(spots))
    rest_mm = strap.bridged_mm() * (factors.around - 1.0)
    findings: tuple[Finding, ...] = ()
    if abs(rest_mm) > _NONE_MM:
        free = strap.longest_free(set(asked))
        if free is None or free.end - free.start + rest_mm < _LEAST_MM:
            findings = (_no_room(part, rest_mm),)
        else:
            asked[free] = rest_mm
    gaps = tuple(Gap(start=g.start, end=g.end, by_mm=by) for g, by in sorted(asked.items()))
    whole = sum(gap.by_mm for gap in gaps)
    return Lengthened(Lengthening(along=strap.way, gaps=gaps, before_mm=-whole / 2), findings)


class _Strap:
    """A strap with what lies along it."""

    def __init__(self, pattern: Pattern, part: Part) -> None:
        self._pattern, self._part = pattern, part
        self.way = self._outward(long_way(part.outline))
        self._stops = sorted(self._all_stops())

    def _place(self, point: Point) -> float:
        return point[0] * self.way[0] + point[1] * self.way[1]

    def _outward(self, way: Point) -> Point:
        """Return the long way, from the end that is riveted on to the one with the free holes."""
        self.way = way
        held, free = self._held(), self._free()
        if not held or not free:
            return way
        ahead = sum(free) / len(free) >= sum(held) / len(held)
        return way if ahead else (-way[0], -way[1])

    def _held(self) -> list[float]:
        joined = {hole for joint in self._pattern.joints for hole in joint.stack}
        return [self._place(h.centre) for h in self._part.holes if h.id in joined]

    def _free(self) -> list[float]:
        joined = {hole for joint in self._pattern.joints for hole in joint.stack}
        return [self._place(h.centre) for h in self._part.holes if h.id not in joined]

    def _all_stops(self) -> Iterator[_Stop]:
        ends = [self._place(corner) for corner in self._part.outline]
        yield _Stop(min(ends), min(ends) + _TIP_MM)
        yield _Stop(max(ends) - _TIP_MM, max(ends))
        for hole in self._part.holes:
            at = [self._place(end) for end in hole.ends]
            half = hole.diameter_mm / 2 + _ROUND_HOLE_MM
            yield _Stop(min(at) - half, max(at) + half, hole.id)
        for slot in self._part.slots:
            at = [self._place(corner) for corner in slot.outline]
            yield _Stop(min(at) - _ROUND_HOLE_MM, max(at) + _ROUND_HOLE_MM)

    def bridged_mm(self) -> float:
        """Return how much of it bridges the limb: from its last rivet to the middle of its free holes."""
        ends = [self._place(corner) for corner in self._part.outline]
        held, free = self._held(), self._free()
        start = max(held) if held else min(ends)
        end = sum(free) / len(free) if free else max(ends)
        return abs(end - start)

    def asked_by_plates(self, spots: Mapping[str, Point]) -> Iterator[tuple[_Stop, float]]:
        """Yield stretches between rivets far apart on one plate, with what that plate asks of each."""
        seats = sorted(self._seats(), key=lambda seat: seat[0])
        for (place, hole, plates), (other, there, others) in pairwise(seats):
            shared = sorted(plates.keys() & others.keys())
            if not shared or other - place <= END_MM:
                continue
            here, end = plates[shared[0]], others[shared[0]]
            before = dist(self._pattern.hole(here).centre, self._pattern.hole(end).centre)
            by_mm = dist(spots[here], spots[end]) - before
            between = self._between(hole, there)
            if between is not None:
                yield between, by_mm

    def _seats(self) -> Iterator[tuple[float, str, dict[str, str]]]:
        """Yield each riveted hole: its place, its id, and the plates' holes it sits on."""
        for joint in self._pattern.joints:
            holes = [self._pattern.hole(hole) for hole in joint.stack]
            own = [hole for hole in holes if hole.part == self._part.id]
            if len(own) == 1:
                plates = {h.part: h.id for h in holes if h.part != self._part.id}
                yield self._place(own[0].centre), own[0].id, plates

    def _between(self, hole: str, other: str) -> _Stop | None:
        ends = {stop.hole: stop for stop in self._stops if stop.hole}
        found = [f for f in self._stretches() if ends[hole].end <= f.start + _NONE_MM]
        found = [f for f in found if f.end <= ends[other].start + _NONE_MM]
        return max(found, key=lambda f: f.end - f.start, default=None)

    def longest_free(self, taken: set[_Stop]) -> _Stop | None:
        """Return the longest stretch without holes that no plate asks anything of."""
        free = [f for f in self._stretches() if f not in taken and not self._holds_end(f)]
        return max(free, key=lambda f: f.end - f.start, default=None)

    def _holds_end(self, stretch: _Stop) -> bool:
        """Tell whether a stretch lies between rivets of one end, or before all of them."""
        held = self._held()
        return bool(held) and stretch.end <= max(held)

    def _stretches(self) -> Iterator[_Stop]:
        reach = self._stops[0].end
        for stop in self._stops[1:]:
            if stop.start > reach + _LEAST_MM:
                yield _Stop(reach, stop.start)
            reach = max(reach, stop.end)


def _no_room(part: Part, by_mm: float) -> Finding:
    way = "longer" if by_mm > 0 else "shorter"
    return Finding(
        code="strap-keeps-length",
        severity=Severity.WARNING,
        text=f"{part.name.capitalize()} wants to be {abs(by_mm):.1f} mm {way}, and has no stretch "
        "without holes long enough to give it.",
        remedy="Draw it anew for this wearer, or move its holes together.",
        about=(part.id,),
    )
