"""Which fastener heads and holes a part hides once it is fixed.

Where a part comes to lie, and the limits of that, stand in ``cover_places``. ``Part.hides``
declares what shapes cannot tell.

Two parts fixed on the same third one may overlap there. Which of them lies outside is told by the
stacks, if need be through others in between, or by the maker (``Part.lies_over``); where neither
tells, the heads are not counted as hidden, and ``open_heads`` returns them.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from armorplan.geometry.covers.areas import Hidden, Lower, Spot, laid_over
from armorplan.geometry.covers.places import (
    Laying,
    Place,
    Places,
    holes_in,
    told_inside,
)
from armorplan.geometry.widths import LIMP
from armorplan.pattern.joining import JointKind
from armorplan.pattern.parts import Hole, Part, Point, Ring
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.shelf import Shelf


class Overlap(NamedTuple):
    """A head that a part lies over: per cent of it, and the part that the head lies on."""

    cover: str
    joint: str
    covered_pct: float
    lies_on: str


class Head(NamedTuple):
    """A head that a cover lies over, where it lies on the part beneath.

    ``outside`` tells whether the cover lies outside it; ``None``: nothing tells.
    """

    over: Overlap
    outside: bool | None
    areas: tuple[Ring, ...]


class Covering(NamedTuple):
    """A part where it lies on one beneath it, and what it hides there.

    ``joints`` hold the two together; empty where others lie in between. ``off_mm`` is by how much
    the holes that place it miss at most, ``ghost`` where its edge comes to lie.
    """

    cover: str
    beneath: str
    joints: tuple[str, ...]
    off_mm: float
    heads: tuple[Head, ...]
    holes: tuple[Hidden, ...]
    ghost: tuple[Ring, ...]


class _Scene:
    """What of a pattern lies where: pairs, heads and holes, asked for once for all covers."""

    def __init__(self, pattern: Pattern, shelf: Shelf) -> None:
        self.pattern = pattern
        self.laying = Laying(pattern)
        self.inside: Callable[[str], set[str]] = told_inside(pattern)
        self.sizes = {f.id: f.head_mm for f in shelf.fasteners if f.head_mm > 0}
        self.stacks = {joint.id: pattern.stack_parts(joint.id) for joint in pattern.joints}
        self.users: dict[str, list[str]] = defaultdict(list)
        self.passing: dict[str, list[Point]] = defaultdict(list)
        self._heads: dict[str, list[Spot]] = defaultdict(list)
        for joint in pattern.joints:
            for hole in joint.stack:
                self.users[hole].append(joint.id)
                at = pattern.hole(hole)
                self.passing[at.part].append(at.centre)
            if joint.fastener in self.sizes and joint.stack:
                self._put_heads(joint.id, joint.stack, self.sizes[joint.fastener] / 2)

    def _put_heads(self, joint: str, holes: tuple[str, ...], radius_mm: float) -> None:
        stack = self.stacks[joint]
        outermost, *others = map(self.pattern.hole, holes)
        beneath = [hole for hole in others if stack.count(hole.part) == 1]
        for hole in (outermost, *beneath):
            if not hole.travel_mm:
                self._heads[hole.part].append(Spot(joint, hole.centre, radius_mm))

    def lowers(self, cover: str, part: Part, placed: Places) -> Iterator[Lower]:
        """Yield a part beneath at each of its places, with what lies nearest to that one there.

        Heads are those that this part tells best, holes those that no head will fill.
        """
        heads = [
            spot
            for spot in self._heads.get(part.id, ())
            if cover not in self.stacks[spot.name] and self._told_here(spot.name, part.id, placed)
        ]
        holes = [
            Spot(hole.id, hole.centre, hole.diameter_mm / 2)
            for hole in part.holes
            if not hole.travel_mm and self._open(hole.id, cover)
        ]
        fast = tuple(self.passing.get(part.id, ())) if part.kind in LIMP else ()
        places = placed[part.id]
        for place in places:
            near_heads, near_holes = (_nearest(spots, place, places) for spots in (heads, holes))
            yield Lower(part.id, place, near_heads, near_holes, fast)

    def _told_here(self, joint: str, part: str, placed: Places) -> bool:
        lies_on = self.stacks[joint][0]
        return lies_on == part or lies_on not in placed

    def _open(self, hole: str, cover: str) -> bool:
        """Tell whether a hole is still to be reached at the end: nothing or a lace goes through."""
        return all(
            cover not in self.stacks[joint] and self.pattern.joint(joint).kind is JointKind.LACE
            for joint in self.users.get(hole, ())
        )

    def free_holes(self, part: Part) -> tuple[Hole, ...]:
        """Return the holes of a part that no joint fills."""
        return tuple(h for h in part.holes if not self.users.get(h.id) and h.diameter_mm > 0)

    def outside(self, cover: str, lies_on: str, placed: Places) -> bool | None:
        """Tell whether a cover lies outside a part; ``None`` where nothing tells."""
        below = lies_on in placed or lies_on in self.inside(cover)
        above = lies_on not in placed and cover in self.inside(lies_on)
        return below if below != above else (False if below else None)


def _nearest(spots: Iterable[Spot], place: Place, places: tuple[Place, ...]) -> tuple[Spot, ...]:
    """Return the spots that lie nearest to one place of all that a part has."""
    if len(places) == 1:
        return tuple(spots)
    return tuple(
        spot for spot in spots if min(places, key=lambda each: each.from_mm(spot.centre)) is place
    )


def coverings(pattern: Pattern, shelf: Shelf) -> Iterator[Covering]:
    """Yield each part where it lies on each part beneath it, with what it lies over there."""
    scene = _Scene(pattern, shelf)
    for cover in pattern.parts:
        placed = scene.laying.beneath(cover.id)
        if placed:
            yield from _of_cover(scene, cover, placed)


def _of_cover(scene: _Scene, cover: Part, placed: Places) -> Iterator[Covering]:
    pattern, held = scene.pattern, scene.laying.pairs[cover.id]
    fixing = sorted({joint for inner in placed for joint in held.get(inner, ())})
    fixings = tuple(holes_in(pattern, cover.id, fixing))
    gaps, seen = scene.free_holes(cover), set[str]()
    for inner, places in placed.items():
        lowers = scene.lowers(cover.id, pattern.part(inner), placed)
        laid = [laid_over(cover, fixings, gaps, lower) for lower in lowers]
        found = [over for over in laid if over is not None]
        if not found:
            continue
        fresh = [hidden for over in found for hidden in over.heads if hidden.name not in seen]
        seen |= {hidden.name for hidden in fresh}
        yield Covering(
            cover=cover.id,
            beneath=inner,
            joints=tuple(held.get(inner, ())),
            off_mm=max(place.off_mm for place in places),
            heads=tuple(_heads(scene, cover.id, placed, fresh)),
            holes=tuple(hole for over in found for hole in over.holes),
            ghost=tuple(ring for over in found for ring in over.ghost),
        )


def _heads(scene: _Scene, cover: str, placed: Places, fresh: list[Hidden]) -> Iterator[Head]:
    for joint, covered_pct, areas in fresh:
        lies_on = scene.stacks[joint][0]
        over = Overlap(cover, joint, covered_pct, lies_on)
        yield Head(over, scene.outside(cover, lies_on, placed), areas)


def covered_heads(pattern: Pattern, shelf: Shelf) -> tuple[tuple[str, str, float], ...]:
    """Return (cover, joint, per cent of the head hidden) for each head that a part would hide.

    The head is the fastener's, at the outermost hole of its stack. A joint whose fastener the
    shelf does not know has no head here; checking tells of it.
    """
    heads = (head for laid in coverings(pattern, shelf) for head in laid.heads)
    return tuple((o.cover, o.joint, o.covered_pct) for o, outside, _ in heads if outside)


def open_heads(pattern: Pattern, shelf: Shelf) -> tuple[Overlap, ...]:
    """Return heads that a part would hide if it lay outside the part they lie on: nothing tells."""
    heads = (head for laid in coverings(pattern, shelf) for head in laid.heads)
    return tuple(over for over, outside, _ in heads if outside is None)
