"""Where a part comes to lie on those beneath it: pairs that joints lay down, and their places.

A part fixed on another by two or more joints, and outermost of the two in each of them, is placed
on it in the flat, and through it on what lies beneath that. Where several seams hold the two and
no one place fits all of them (a ring, a dish), each seam places what lies nearest to it. Limits,
all on the side of finding less: a part held by one joint can still turn and is not placed; joints
that slide place nothing, and neither does glue or a seam without single holes; parts that a joint
passes twice are not placed by that joint; holes that lie in one spot place nothing.
"""

from cmath import exp
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from itertools import combinations
from math import dist, radians
from typing import NamedTuple

from armorplan.geometry.placing import fit
from armorplan.pattern.joining import Motion
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

HOPS = 2
"""How many layers down a cover is followed: what it lies on, and what that lies on."""
WELL_MM = 0.5
"""Up to here punch and leather make up what holes miss by, and one place fits all seams."""
_SPREAD_MM = 1.0
"""Holes nearer together than this say nothing about how a part is turned."""

Pairs = dict[str, dict[str, list[str]]]
"""Outer part -> inner part -> joints that hold them."""


class Place(NamedTuple):
    """How the drawing of a part beneath lies in that of its cover: a turn, then a shift.

    ``mirrored`` tells that the two are drawn from unlike faces: it is turned over first, its x
    kept and its y reversed. ``off_mm`` is the most that its holes then miss by, ``holes`` where they lie on the part
    beneath.
    """

    turn: complex
    shift: complex
    off_mm: float = 0.0
    holes: tuple[Point, ...] = ()
    mirrored: bool = False

    def into_cover(self, point: Point) -> Point:
        """Return a spot of the part beneath in the drawing of its cover."""
        at = self.turn * _faced(complex(*point), over=self.mirrored) + self.shift
        return at.real, at.imag

    def onto_beneath(self, spots: Iterable[Point]) -> tuple[Point, ...]:
        """Return spots of the cover in the drawing of the part beneath it."""
        back = self.turn.conjugate()
        laid = (_faced((complex(*spot) - self.shift) * back, over=self.mirrored) for spot in spots)
        return tuple((at.real, at.imag) for at in laid)

    def before(self, upper: "Place") -> "Place":
        """Return the way through a part in between, whose place in the cover is ``upper``."""
        turn = upper.turn * _faced(self.turn, over=upper.mirrored)
        shift = upper.turn * _faced(self.shift, over=upper.mirrored) + upper.shift
        mirrored = self.mirrored != upper.mirrored
        return Place(turn, shift, self.off_mm + upper.off_mm, self.holes, mirrored)

    def from_mm(self, point: Point) -> float:
        """Return how far in mm a spot of the part beneath lies from the nearest hole."""
        return min((dist(point, hole) for hole in self.holes), default=0.0)


def _faced(spot: complex, *, over: bool) -> complex:
    return spot.conjugate() if over else spot


Places = dict[str, tuple[Place, ...]]
"""The parts beneath a cover with their places, one for each seam where one does not fit all."""
_HERE = Place(1.0, 0.0)


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


class Laying:
    """Where the parts of a pattern come to lie on each other."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.pairs: Pairs = laid_pairs(pattern)
        self._seam_of = {joint: seam.id for seam in pattern.seams for joint in seam.joints}
        self._known: dict[tuple[str, str], tuple[tuple[Place, Point], ...]] = {}

    def beneath(self, cover: str) -> Places:
        """Return the parts under a cover with their places in the cover's drawing."""
        placed: Places = {cover: (_HERE,)}
        front = [cover]
        for _ in range(HOPS):
            reached: list[str] = []
            for outer in front:
                for inner in self.pairs.get(outer, {}):
                    if inner in placed:
                        continue
                    if laid := tuple(self._through(outer, inner, placed[outer])):
                        placed[inner] = laid
                        reached.append(inner)
            front = reached
        del placed[cover]
        return placed

    def _through(self, outer: str, inner: str, uppers: tuple[Place, ...]) -> Iterator[Place]:
        for place, middle in self._pair(outer, inner):
            upper = min(uppers, key=lambda each: each.from_mm(middle))
            yield place.before(upper)

    def _pair(self, outer: str, inner: str) -> tuple[tuple[Place, Point], ...]:
        """Return the places of a part on one right beneath it, with their middles on the outer."""
        if (outer, inner) not in self._known:
            self._known[outer, inner] = tuple(self._places(outer, inner))
        return self._known[outer, inner]

    def _places(self, outer: str, inner: str) -> list[tuple[Place, Point]]:
        joints = self.pairs[outer][inner]
        whole = self._place(outer, inner, joints)
        if whole is None or whole[0].off_mm <= WELL_MM:
            return [] if whole is None else [whole]
        by_seam: dict[str, list[str]] = defaultdict(list)
        for joint in joints:
            by_seam[self._seam_of.get(joint, "")].append(joint)
        each = [self._place(outer, inner, held) for held in by_seam.values()]
        placed = [one for one in each if one is not None]
        return placed if len(placed) > 1 else [whole]

    def _place(self, outer: str, inner: str, joints: list[str]) -> tuple[Place, Point] | None:
        on_outer, on_inner = (holes_in(self.pattern, part, joints) for part in (outer, inner))
        spread = (max(dist(spots[0], spot) for spot in spots) for spots in (on_outer, on_inner))
        mirrored = self._is_turned(outer) != self._is_turned(inner)
        faced = [(x, -y) for x, y in on_inner] if mirrored else on_inner
        laid = fit(on_outer, faced) if min(spread) > _SPREAD_MM else None
        if laid is None:
            return None
        x, y = (sum(values) / len(on_outer) for values in zip(*on_outer, strict=True))
        turn = exp(1j * radians(laid.rotation_deg))
        shift = complex(*laid.shift)
        return Place(turn, shift, laid.worst_mm, tuple(on_inner), mirrored), (x, y)

    def _is_turned(self, part: str) -> bool:
        return self.pattern.part(part).drawn_from_inside


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
