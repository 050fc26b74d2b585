"""Which fastener heads a part hides once it is fixed.

A part fixed on another by two or more joints, and outermost of the two in each of them, is placed
on it in the flat, and through it on what lies beneath that. Limits, all on the side of finding
less: a part held by one joint can still turn and is not placed (``Part.hides`` declares what it
hides); joints that slide place nothing, and neither does glue or a seam without single holes; parts that a joint passes twice are not placed by that joint; an outline is drawn in by the
most that its holes miss, since a curved row puts it only roughly; a strap or keeper hides heads
only between its own fixings, beyond them it folds away.

Two parts fixed on the same third one may overlap there. Which of them lies outside is told by the
stacks, if need be through others in between; where they do not tell, the heads are not counted as
hidden, and ``open_heads`` returns them.
"""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.placing import Fit, fit
from armorplan.geometry.widths import LIMP
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import Part, Point
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

_LEAST_CORNERS = 3

_Placed = dict[str, tuple[Fit, ...]]
_Pairs = dict[str, dict[str, list[str]]]


class _Head(NamedTuple):
    """The head of a joint: where it lies on one of the parts that the joint passes, in mm."""

    joint: str
    stack: tuple[str, ...]
    centre: Point
    radius_mm: float

    @property
    def lies_on(self) -> str:
        """The outermost part of the stack: a cover of it hides the head."""
        return self.stack[0]


class Overlap(NamedTuple):
    """A head that a part lies over: per cent of it, and the part that the head lies on."""

    cover: str
    joint: str
    covered_pct: float
    lies_on: str


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
    if part.kind not in LIMP:
        return whole
    return whole.intersection(MultiPoint(fixings).convex_hull.buffer(FIXED_MM))


def _heads_at(pattern: Pattern, shelf: Shelf) -> dict[str, list[_Head]]:
    """Return for each part the heads of the joints that pass it, in the pattern's order."""
    heads = {fastener.id: fastener.head_mm for fastener in shelf.fasteners if fastener.head_mm > 0}
    found: dict[str, list[_Head]] = defaultdict(list)
    for joint in pattern.joints:
        if joint.fastener not in heads or not joint.stack:
            continue
        stack, radius_mm = pattern.stack_parts(joint.id), heads[joint.fastener] / 2
        outermost, *others = map(pattern.hole, joint.stack)
        beneath = [hole for hole in others if stack.count(hole.part) == 1]
        for hole in (outermost, *beneath):
            if not hole.travel_mm:
                found[hole.part].append(_Head(joint.id, stack, hole.centre, radius_mm))
    return found


def _outside(pattern: Pattern) -> dict[str, set[str]]:
    """Return for each part those that lie inside it by any stack, or through others in between."""
    below: dict[str, set[str]] = defaultdict(set)
    for joint in pattern.joints:
        passed = pattern.stack_parts(joint.id)
        for outer, inner in combinations(passed, 2):
            below[outer].add(inner)
    return {part: _reached(part, below) for part in tuple(below)}


def _reached(part: str, below: dict[str, set[str]]) -> set[str]:
    reached: set[str] = set()
    front = [part]
    while front:
        new = below.get(front.pop(), set()) - reached
        reached |= new
        front += new
    return reached


def _over(
    part: Part, placed: _Placed, lying: "BaseGeometry", heads_at: dict[str, list[_Head]]
) -> Iterator[Overlap]:
    """Yield the heads that a part lies over, each once: as the part beneath it nearest tells."""
    from shapely import Point as Spot

    seen: set[str] = set()
    for inner, fits in placed.items():
        sure = lying.buffer(-sum(laid.worst_mm for laid in fits))
        for head in heads_at.get(inner, ()):
            told_better = head.lies_on != inner and head.lies_on in placed
            if part.id in head.stack or head.joint in seen or told_better:
                continue
            centre = _into_cover(head.centre, fits)
            if _far(centre, head.radius_mm, sure.bounds):
                continue
            spot = Spot(centre).buffer(head.radius_mm)
            covered_pct = 100 * spot.intersection(sure).area / spot.area
            if covered_pct > COVERED_PCT:
                seen.add(head.joint)
                yield Overlap(part.id, head.joint, round(covered_pct, 1), head.lies_on)


def _far(centre: Point, radius_mm: float, bounds: tuple[float, float, float, float]) -> bool:
    """Tell whether a head lies beside the box round an outline; quick, where most heads do."""
    (x, y), (left, top, right, bottom) = centre, bounds
    outside_mm = max(left - x, x - right, top - y, y - bottom)
    return not outside_mm < radius_mm


def _overlaps(pattern: Pattern, shelf: Shelf) -> Iterator[tuple[Overlap, bool | None]]:
    """Yield heads that parts lie over, and whether these lie outside them; ``None``: open."""
    pairs, heads_at, outside = _pairs(pattern), _heads_at(pattern, shelf), _outside(pattern)
    for part in pattern.parts:
        placed = _beneath(pattern, part.id, pairs)
        if not placed or len(part.outline) < _LEAST_CORNERS:
            continue
        held = {joint for inner in placed for joint in pairs[part.id].get(inner, ())}
        lying = _lying(part, _holes_in(pattern, part.id, sorted(held)))
        for over in _over(part, placed, lying, heads_at):
            below = over.lies_on in outside.get(part.id, ())
            above = part.id in outside.get(over.lies_on, ())
            if over.lies_on in placed or below != above:
                yield over, over.lies_on in placed or below
            elif not below:
                yield over, None


def covered_heads(pattern: Pattern, shelf: Shelf) -> tuple[tuple[str, str, float], ...]:
    """Return (cover, joint, per cent of the head hidden) for each head that a part would hide.

    The head is the fastener's, at the outermost hole of its stack. A joint whose fastener the
    shelf does not know has no head here; checking tells of it.
    """
    found = _overlaps(pattern, shelf)
    return tuple((o.cover, o.joint, o.covered_pct) for o, hides in found if hides)


def open_heads(pattern: Pattern, shelf: Shelf) -> tuple[Overlap, ...]:
    """Return heads that a part would hide if it lay outside the part they lie on: no stack tells."""
    return tuple(over for over, hides in _overlaps(pattern, shelf) if hides is None)
