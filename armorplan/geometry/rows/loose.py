"""Rivets and pivots of no seam: which hold the same parts, and which of them make rows."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations, pairwise
from math import dist

from armorplan.geometry.rows.rungs import Rung, rung
from armorplan.geometry.stacks import POSTED
from armorplan.pattern.joining import Joint, Motion
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

_APART = 2.5
"""Rivets so many times farther apart than their neighbours are two groups, not one row."""
_MOST = 300
_LEAST = 2


def _stays(joint: Joint) -> bool:
    fixed = joint.motion is Motion.FIXED and not joint.placed_on_wearer
    return joint.kind in POSTED and fixed and bool(joint.stack)


def _sewn(pattern: Pattern) -> set[str]:
    """Return the joints of seams: what is not in one is loose."""
    return {joint for seam in pattern.seams for joint in seam.joints}


def together(pattern: Pattern) -> list[tuple[tuple[str, ...], list[str]]]:
    """Return parts, each with the joints of no seam that hold all of them, two or more."""
    sewn = _sewn(pattern)
    held: dict[tuple[str, str], list[str]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or not _stays(joint):
            continue
        passed = sorted(dict.fromkeys(pattern.stack_parts(joint.id)))
        pairs = combinations(passed, 2) if len(passed) > 1 else ((part, part) for part in passed)
        for pair in pairs:
            held[pair].append(joint.id)
    same: dict[tuple[str, ...], set[str]] = defaultdict(set)
    for pair, joints in held.items():
        if len(joints) >= _LEAST:
            same[tuple(joints)].update(pair)
    return [(tuple(sorted(parts)), list(joints)) for joints, parts in same.items()]


def lone_joints(
    pattern: Pattern,
) -> Iterator[tuple[tuple[str, str], str, tuple[Hole, Hole]]]:
    """Yield joints of no seam that alone hold two parts, and their holes in the outer and inner."""
    sewn = _sewn(pattern)
    held: dict[tuple[str, str], list[tuple[str, tuple[Hole, Hole]]]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or not _stays(joint):
            continue
        once = [(row.part, hole) for row, hole in rung(pattern, joint.id).items() if not row.nth]
        for (outer, one), (inner, other) in combinations(once, 2):
            held[outer, inner].append((joint.id, (one, other)))
    for pair, found in held.items():
        if len(found) == 1:
            yield pair, *found[0]


def pivots(pattern: Pattern) -> Iterator[tuple[tuple[str, str], list[tuple[str, Rung]]]]:
    """Yield two parts that just two turning joints of no seam hold, with the holes of either."""
    sewn = _sewn(pattern)
    held: dict[tuple[str, str], list[tuple[str, Rung]]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.id in sewn or joint.motion is not Motion.TURNING or joint.placed_on_wearer:
            continue
        found = {row: hole for row, hole in rung(pattern, joint.id).items() if not row.nth}
        for one, other in combinations(found, 2):
            held[one.part, other.part].append((joint.id, found))
    yield from ((parts, found) for parts, found in held.items() if len(found) == _LEAST)


def chains(pattern: Pattern, parts: tuple[str, ...], joints: list[str]) -> list[list[str]]:
    """Return loose joints in rows: one after the other along the shortest way through all.

    Where that way forks they are no row, and each is taken with its nearest alone.
    """
    spots = {joint: _spot(pattern, parts, joint) for joint in joints[:_MOST]}
    at = {joint: spot for joint, spot in spots.items() if spot is not None}
    links = _shortest_tree(at)
    ends: dict[str, list[str]] = {joint: [] for joint in at}
    for one, other in links:
        ends[one].append(other)
        ends[other].append(one)
    if any(len(near) > _LEAST for near in ends.values()):
        return [list(pair) for pair in _nearest(at)]
    start = next((joint for joint, near in ends.items() if len(near) == 1), None)
    return [] if start is None else _parted(_walk(start, ends), at)


def _spot(pattern: Pattern, parts: tuple[str, ...], joint: str) -> tuple[float, float] | None:
    found = rung(pattern, joint)
    return next((h.centre for part in parts for r, h in found.items() if r.part == part), None)


_Spots = dict[str, tuple[float, float]]


def _shortest_tree(at: _Spots) -> list[tuple[str, str]]:
    """Return the links of the shortest tree through all spots (Prim 1957)."""
    todo = list(at)
    if not todo:
        return []
    near = dict.fromkeys(todo[1:], todo[0])
    found: list[tuple[str, str]] = []
    while near:
        joint = min(near, key=lambda each: dist(at[each], at[near[each]]))
        found.append((near.pop(joint), joint))
        for other in near:
            if dist(at[other], at[joint]) < dist(at[other], at[near[other]]):
                near[other] = joint
    return found


def _walk(start: str, ends: dict[str, list[str]]) -> list[str]:
    way, last = [start], ""
    while True:
        onward = [joint for joint in ends[way[-1]] if joint != last]
        if not onward:
            return way
        last = way[-1]
        way.append(onward[0])


def _nearest(at: _Spots) -> list[tuple[str, str]]:
    found: dict[tuple[str, str], None] = {}
    for one in at:
        near = min((j for j in at if j != one), key=lambda other: dist(at[one], at[other]))
        found[min(one, near), max(one, near)] = None
    return list(found)


def _parted(way: list[str], at: _Spots) -> list[list[str]]:
    """Return a way cut where two groups of rivets lie far apart, each a row of its own."""
    links = [dist(at[a], at[b]) for a, b in pairwise(way)]
    cuts = [0]
    for place, link in enumerate(links, start=1):
        grouped = place - cuts[-1] >= _LEAST and len(way) - place >= _LEAST
        if grouped and link > _APART * max(links[place - 2], links[place]):
            cuts.append(place)
    return [way[a:b] for a, b in pairwise([*cuts, len(way)])]
