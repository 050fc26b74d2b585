"""Where a part comes to lie on those beneath it: pairs that joints lay down, and their fits.

A part fixed on another by two or more joints, and outermost of the two in each of them, is placed
on it in the flat, and through it on what lies beneath that. Limits, all on the side of finding
less: a part held by one joint can still turn and is not placed; joints that slide place nothing,
and neither does glue or a seam without single holes; parts that a joint passes twice are not
placed by that joint; holes that lie in one spot place nothing.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable
from itertools import combinations
from math import cos, dist, radians, sin

from armorplan.geometry.placing import Fit, fit
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

HOPS = 2
"""How many layers down a cover is followed: what it lies on, and what that lies on."""
_SPREAD_MM = 1.0
"""Holes nearer together than this say nothing about how a part is turned."""

Fits = tuple[Fit, ...]
"""The way from the drawing of a part beneath into that of its cover, fit by fit."""
Pairs = dict[str, dict[str, list[str]]]
"""Outer part -> inner part -> joints that hold them."""


def laid_pairs(pattern: Pattern) -> Pairs:
    """Return the joints that lay each part on another; woven pairs are left out."""
    found: Pairs = defaultdict(lambda: defaultdict(list))
    for joint in pattern.joints:
        if joint.motion is Motion.SLIDING or not joint.stack:
            continue
        passed = pattern.stack_parts(joint.id)
        once = [part for part in passed if passed.count(part) == 1]
        for outer, inner in combinations(once, 2):
            found[outer][inner].append(joint.id)
    return {
        outer: {
            inner: joints for inner, joints in held.items() if outer not in found.get(inner, {})
        }
        for outer, held in sorted(found.items())
    }


def holes_in(pattern: Pattern, part_id: str, joints: Iterable[str]) -> list[Point]:
    """Return the centres of the holes in which joints pass a part."""
    in_stacks = (pattern.hole(hole) for joint in joints for hole in pattern.joint(joint).stack)
    return [hole.centre for hole in in_stacks if hole.part == part_id]


def _laid(pattern: Pattern, outer: str, inner: str, joints: list[str]) -> Fit | None:
    on_outer, on_inner = (holes_in(pattern, part, joints) for part in (outer, inner))
    spread = (max(dist(spots[0], spot) for spot in spots) for spots in (on_outer, on_inner))
    return fit(on_outer, on_inner) if min(spread) > _SPREAD_MM else None


def parts_beneath(pattern: Pattern, cover: str, pairs: Pairs) -> dict[str, Fits]:
    """Return the parts under a cover with the fits that lead from each into the cover's drawing."""
    placed: dict[str, Fits] = {cover: ()}
    front = [cover]
    for _ in range(HOPS):
        reached: list[str] = []
        for outer in front:
            for inner, joints in pairs.get(outer, {}).items():
                if inner in placed:
                    continue
                laid = _laid(pattern, outer, inner, joints)
                if laid is not None:
                    placed[inner] = (laid, *placed[outer])
                    reached.append(inner)
        front = reached
    del placed[cover]
    return placed


def into_cover(point: Point, fits: Fits) -> Point:
    """Return a spot of a part beneath in the drawing of its cover."""
    for laid in fits:
        point = laid.place(point)
    return point


def onto_beneath(point: Point, fits: Fits) -> Point:
    """Return a spot of a cover in the drawing of a part beneath it."""
    for laid in reversed(fits):
        turn = radians(laid.rotation_deg)
        x, y = point[0] - laid.shift[0], point[1] - laid.shift[1]
        point = (x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn))
    return point


def told_inside(pattern: Pattern) -> Callable[[str], set[str]]:
    """Return how to ask for the parts that lie inside one, by stacks or by the maker's word.

    Through others in between, too.
    """
    below: dict[str, set[str]] = defaultdict(set)
    for joint in pattern.joints:
        for outer, inner in combinations(pattern.stack_parts(joint.id), 2):
            below[outer].add(inner)
    for part in pattern.parts:
        below[part.id].update(part.lies_over)
    known: dict[str, set[str]] = {}

    def inside(part: str) -> set[str]:
        if part not in known:
            known[part] = _reached(part, below)
        return known[part]

    return inside


def _reached(part: str, below: dict[str, set[str]]) -> set[str]:
    reached: set[str] = set()
    front = [part]
    while front:
        new = below.get(front.pop(), set()) - reached
        reached |= new
        front += new
    return reached
