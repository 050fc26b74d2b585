"""Which fastener heads a part hides once it is fixed.

A part fixed on another by two or more joints, and outermost of the two in each of them, is placed
on it in the flat, and through it on what lies beneath that. Limits, all on the side of finding
less: a part held by one joint can still turn and is not placed (``Part.hides`` declares what it
hides); joints that slide place nothing, and neither does glue or a seam without single holes; parts that a joint passes twice are not placed by that joint; an outline is drawn in by the
most that its holes miss, since a curved row puts it only roughly; a strap or keeper hides heads
only between its own fixings, beyond them it folds away.
"""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING

from armorplan.geometry.placing import Fit, fit
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import Part, PartKind, Point
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

COVERED_PCT = 5.0
"""A head hidden by less than this share of its area can still be set (common practice)."""
HOPS = 2
"""How many layers down a cover is followed: what it lies on, and what that lies on."""
FIXED_MM = 10.0
"""How far round its fixings a strap lies fast; the usual edge distance of a strap's end."""
_LIMP = frozenset({PartKind.STRAP, PartKind.KEEPER})
_LEAST_CORNERS = 3

_Placed = dict[str, tuple[Fit, ...]]
_Pairs = dict[str, dict[str, list[str]]]
_Head = tuple[str, tuple[str, ...], Point, float]
"""A joint, the parts of its stack, and its head: centre and radius in mm."""


def _pairs(pattern: Pattern) -> _Pairs:
    """Return outer part -> inner part -> joints that hold them; woven pairs are left out."""
    found: _Pairs = defaultdict(lambda: defaultdict(list))
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


def _holes_in(pattern: Pattern, part_id: str, joints: list[str]) -> list[Point]:
    in_stacks = (pattern.hole(hole) for joint in joints for hole in pattern.joint(joint).stack)
    return [hole.centre for hole in in_stacks if hole.part == part_id]


def _beneath(pattern: Pattern, cover: str, pairs: _Pairs) -> _Placed:
    """Return the parts under a cover with the fits that lead from each into the cover's frame."""
    placed: _Placed = {cover: ()}
    front = [cover]
    for _ in range(HOPS):
        reached: list[str] = []
        for outer in front:
            for inner, joints in pairs.get(outer, {}).items():
                laid = fit(_holes_in(pattern, outer, joints), _holes_in(pattern, inner, joints))
                if laid is not None and inner not in placed:
                    placed[inner] = (laid, *placed[outer])
                    reached.append(inner)
        front = reached
    del placed[cover]
    return placed


def _into_cover(point: Point, fits: tuple[Fit, ...]) -> Point:
    for laid in fits:
        point = laid.place(point)
    return point


def _lying(part: Part, fixings: list[Point]) -> "BaseGeometry":
    """Return what of a cover lies fast: all of a plate, a strap between its fixings."""
    from shapely import MultiPoint, Polygon

    whole = Polygon(part.outline).buffer(0)
    if part.kind not in _LIMP:
        return whole
    return whole.intersection(MultiPoint(fixings).convex_hull.buffer(FIXED_MM))


def _heads_on(pattern: Pattern, heads: dict[str, float]) -> dict[str, list[_Head]]:
    """Return the heads that lie on each part, in the pattern's order."""
    found: dict[str, list[_Head]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.fastener in heads and joint.stack:
            hole = pattern.hole(joint.stack[0])
            if hole.travel_mm:
                continue
            stack = pattern.stack_parts(joint.id)
            found[hole.part].append((joint.id, stack, hole.centre, heads[joint.fastener] / 2))
    return found


def _hidden_by(
    part: Part, placed: _Placed, lying: "BaseGeometry", heads_on: dict[str, list[_Head]]
) -> Iterator[tuple[str, str, float]]:
    from shapely import Point as Spot

    sure = {
        inner: lying.buffer(-sum(laid.worst_mm for laid in fits)) for inner, fits in placed.items()
    }
    for inner, fits in placed.items():
        for joint, stack, centre, radius_mm in heads_on.get(inner, ()):
            if part.id in stack:
                continue
            head = Spot(_into_cover(centre, fits)).buffer(radius_mm)
            covered_pct = 100 * head.intersection(sure[inner]).area / head.area
            if covered_pct > COVERED_PCT:
                yield part.id, joint, round(covered_pct, 1)


def covered_heads(pattern: Pattern, shelf: Shelf) -> tuple[tuple[str, str, float], ...]:
    """Return (cover, joint, per cent of the head hidden) for each head that a part would hide.

    The head is the fastener's, at the outermost hole of its stack. A joint whose fastener the
    shelf does not know has no head here; checking tells of it.
    """
    heads = {fastener.id: fastener.head_mm for fastener in shelf.fasteners if fastener.head_mm > 0}
    pairs, heads_on = _pairs(pattern), _heads_on(pattern, heads)
    found: list[tuple[str, str, float]] = []
    for part in pattern.parts:
        placed = _beneath(pattern, part.id, pairs)
        if not placed or len(part.outline) < _LEAST_CORNERS:
            continue
        held = {joint for inner in placed for joint in pairs[part.id].get(inner, ())}
        lying = _lying(part, _holes_in(pattern, part.id, sorted(held)))
        found += _hidden_by(part, placed, lying, heads_on)
    return tuple(found)
