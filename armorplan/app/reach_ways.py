"""A tool's way in over the flat parts: the opening as it stands then, and the line to the joint."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from heapq import heappop, heappush
from math import hypot, isfinite

from armorplan.app.reach_rows import Opening
from armorplan.geometry.reach.marks import gap_spots
from armorplan.geometry.reach.model import Margin, Shell, Through, Way
from armorplan.geometry.reach.threaded import threaded_spots
from armorplan.geometry.reach.words import is_at_most, way_words
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

Leg = tuple[str, Point, Point]
"""The part it crosses, where it comes on it, and where it leaves it; in mm on the drawing."""


def opening_of(
    shell: Shell, margin: Margin, *, joint: str, made: Collection[str]
) -> Opening | None:
    """Return where a tool goes in to a joint once others are made; all ids plain.

    Rims are laid on the finished shell. While none of its rows is begun there is no mouth yet, and
    the tool comes from the edge; a mouth of which a row stands open has its width only in the end.
    """
    way, wide_mm = margin.way, margin.opening_mm
    if way is None:
        return None
    if way.through is Through.ROW:
        name = next((row.name for row in shell.rows if row.id == way.row), way.row)
        is_bounded = wide_mm is not None and isfinite(wide_mm)
        words = way_words(way, {way.row: name})
        return Opening(words=words, wide_mm=wide_mm if is_bounded else None, row=way.row)
    rows = [frozenset(row.joints) for row in shell.rows]
    if all(row.isdisjoint(made) for row in rows):
        return Opening(words="from the edge")
    is_shut = all(row.issubset({*made, joint}) for row in rows)
    at_most = any(is_at_most(shell, rim) for rim in shell.rims if rim.id == way.name)
    return Opening(words="by the mouth", wide_mm=wide_mm, at_most=at_most, once_shut=not is_shut)


@dataclass(slots=True)
class _Ground:
    """The holes of a shell's rows, part by part, and where the way may end."""

    spots: Mapping[str, Mapping[str, Point]]
    """By joint, its hole on each part."""
    on: dict[str, list[str]] = field(default_factory=dict)
    ends: dict[str, list[Point]] = field(default_factory=dict)

    def near(self, joint: str) -> Iterator[tuple[str, Leg]]:
        """Yield what can be gone to straight from a joint: another joint, or an end (no name)."""
        for part, here in self.spots[joint].items():
            for other in self.on.get(part, ()):
                if other != joint:
                    yield other, (part, here, self.spots[other][part])
            closest = min(self.ends.get(part, ()), key=lambda p: _apart(here, p), default=None)
            if closest is not None:
                yield "", (part, here, closest)


def _apart(one: Point, other: Point) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


def _holes(pattern: Pattern, joint: str) -> dict[str, Point]:
    found: dict[str, Point] = {}
    for hole_id in pattern.joint(joint).stack:
        hole = pattern.hole(hole_id)
        found.setdefault(hole.part, hole.centre)
    return found | dict(threaded_spots(pattern).get(joint, ()))


def _ground(pattern: Pattern, shell: Shell, joint: str, way: Way) -> _Ground:
    crossed = tuple(dict.fromkeys((*(j for row in shell.rows for j in row.joints), joint)))
    ground = _Ground({name: _holes(pattern, name) for name in crossed})
    if way.gap:
        ground.spots = {**ground.spots, way.name: dict(gap_spots(shell, way))}
    for name, spots in ground.spots.items():
        for part in spots:
            ground.on.setdefault(part, []).append(name)
    rims = [rim for rim in shell.rims if way.through is Through.RIM and rim.id == way.name]
    for part, spot in (spot for rim in rims for spot in rim.spots):
        ground.ends.setdefault(part, []).append(spot)
    return ground


def way_legs(pattern: Pattern, shell: Shell, joint: str, way: Way) -> tuple[Leg, ...]:
    """Return the straight legs of a way in, from the opening to the joint; none where it has none.

    They cross from part to part at joints of rows, the shortest way of this kind: it shows where
    a tool comes in; how long the way is, ``way.along_mm`` says.
    """
    ground = _ground(pattern, shell, joint, way)
    goal = "" if way.through is Through.RIM else way.name
    if goal == joint:
        return ()
    came: dict[str, tuple[str, Leg]] = {}
    done: set[str] = set()
    heap: list[tuple[float, str]] = [(0.0, joint)]
    length = {joint: 0.0}
    while heap:
        far, here = heappop(heap)
        if here == goal:
            return tuple(_back(came, goal, joint))
        if here in done or here not in ground.spots:
            continue
        done.add(here)
        for there, leg in ground.near(here):
            onward = far + _apart(leg[1], leg[2])
            if onward < length.get(there, float("inf")):
                length[there], came[there] = onward, (here, leg)
                heappush(heap, (onward, there))
    return ()


def _back(came: Mapping[str, tuple[str, Leg]], goal: str, joint: str) -> Iterable[Leg]:
    here = goal
    while here != joint:
        here, (part, inner, outer) = came[here]
        yield part, outer, inner
