"""Which part of a right piece is the mirror of which left one, hole for hole, and where they differ."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import pairwise
from math import dist
from typing import TYPE_CHECKING

from armorplan.pattern.parts import Hole, Part, Point, Ring

if TYPE_CHECKING:
    from armorplan.geometry.alike.outline_fit import Contour

_OUTLINE_MM = 5.0
"""Outlines that differ by more are no pair."""
_HOLE_MM = 3.0
"""A hole further off than this is another hole."""
_SIZE_MM = 0.6
TOLD_MM = 0.1
"""Differences from here on are told."""
_COPY_MM = 0.3
"""So much nearer not turned over, and a part is a copy."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """A left part and the right one that is its mirror, or its copy.

    Attributes:
        copied: the right one lies on the left one without being turned over.
        off_mm: the largest distance between their outlines.
        shapes: holes and slots of the right one by id, each with its like in the left one.
        holes_mm: by left hole, how far the right one's lies from its mirror.
        lonely: holes of the left one that have no like on the right.
        extra: holes of the right one that have no like on the left, by where they would lie there.
        turned: how many of its holes follow each other the other way round in the two.
    """

    left: str
    right: str
    copied: bool
    off_mm: float
    shapes: dict[str, str] = field(default_factory=dict)
    holes_mm: dict[str, float] = field(default_factory=dict)
    lonely: tuple[str, ...] = ()
    extra: dict[str, Point] = field(default_factory=dict)

    turned: int = 0

    @property
    def score(self) -> tuple[float, int]:
        """How well they fit, less is better: by mm, then by how the holes follow each other."""
        alone = _HOLE_MM * (len(self.lonely) + len(self.extra))
        return round(self.off_mm + sum(self.holes_mm.values()) + alone, 1), self.turned

    @property
    def is_exact(self) -> bool:
        """Tell whether nothing speaks against the pair."""
        return self.score <= (TOLD_MM, 0)


def hands_of(left: Sequence[Part], right: Sequence[Part]) -> list[Hands]:
    """Return the pairs of left and right parts, each part in one pair at the most.

    Those that fit best come first; of parts that are all alike the order they are written in tells.
    """
    taken: set[str] = set()
    exact: list[Hands] = []
    others: list[tuple[Hands, int]] = []
    for n, part in enumerate(right):
        order = sorted(range(len(left)), key=lambda at: abs(at - n))
        tried = ((_hands(left[at], part), abs(at - n)) for at in order if left[at].id not in taken)
        found: list[tuple[Hands, int]] = []
        for hands, far in tried:
            if hands is not None:
                found.append((hands, far))
                if hands.is_exact:
                    break
        if found and found[-1][0].is_exact:
            exact.append(found[-1][0])
            taken.add(found[-1][0].left)
        else:
            others += found
    return [*exact, *_best(others, taken)]


def _best(others: list[tuple[Hands, int]], taken: set[str]) -> Iterator[Hands]:
    """Yield the pairs that fit best, each part once."""
    for hands, _ in sorted(others, key=lambda each: (each[0].score, each[1])):
        if not taken & {hands.left, f"right {hands.right}"}:
            taken |= {hands.left, f"right {hands.right}"}
            yield hands


def _hands(left: Part, right: Part) -> Hands | None:
    if left.kind is not right.kind or not left.outline or not right.outline:
        return None
    best = min(_laid(left, right, mirrored=True), key=lambda way: way.score, default=None)
    if best is not None and best.is_exact:
        return best
    copied = min(_laid(left, right, mirrored=False), key=lambda way: way.score, default=None)
    if best is None or copied is None:
        return best or copied
    return copied if copied.score[0] + _COPY_MM < best.score[0] else best


@lru_cache(maxsize=512)
def _contour(ring: Ring) -> "Contour":
    from armorplan.geometry.alike.outline_fit import Contour

    return Contour(ring)


def _laid(left: Part, right: Part, *, mirrored: bool) -> Iterator[Hands]:
    """Yield the ways in which the right part lies on the left one."""
    import numpy as np

    from armorplan.geometry.alike.outline_fit import fits

    one, other = _contour(left.outline), _contour(right.outline)
    if any(
        abs(a - b) > 2 * _OUTLINE_MM for a, b in zip(one.sizes[:2], other.sizes[:2], strict=True)
    ):
        return
    marks = {hole.id: hole.centre for hole in right.holes}
    marks |= {slot.id: _middle(slot.outline) for slot in right.slots}
    spots = np.array([complex(*spot) for spot in marks.values()]) - other.centre
    for pose in fits(one, other, _OUTLINE_MM, mirrored=mirrored):
        if pose.miss_mm <= _OUTLINE_MM:
            there = pose.lay(spots) + one.centre
            laid = {name: (z.real, z.imag) for name, z in zip(marks, there, strict=True)}
            yield _matched(left, right, laid, pose.miss_mm, copied=not mirrored)


def _middle(ring: Sequence[Point]) -> Point:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _matched(
    left: Part, right: Part, laid: dict[str, Point], off_mm: float, *, copied: bool
) -> Hands:
    shapes: dict[str, str] = {}
    missed: dict[str, float] = {}
    holes = {hole.id: hole for hole in right.holes}
    for hole in left.holes:
        near = [
            (dist(hole.centre, laid[name]), name)
            for name, each in holes.items()
            if name not in shapes and _alike(hole, each)
        ]
        far, name = min(near, default=(_HOLE_MM, ""))
        if far < _HOLE_MM:
            shapes[name], missed[hole.id] = hole.id, far
    extra = {name: laid[name] for name in holes if name not in shapes}
    for slot in left.slots:
        middle = _middle(slot.outline)
        spots = [(dist(middle, laid[s.id]), s.id) for s in right.slots if s.id not in shapes]
        far, name = min(spots, default=(_HOLE_MM, ""))
        if name and far < _HOLE_MM:
            shapes[name] = slot.id
    return Hands(
        left=left.id,
        right=right.id,
        copied=copied,
        off_mm=off_mm,
        shapes=shapes,
        holes_mm=missed,
        lonely=tuple(hole.id for hole in left.holes if hole.id not in missed),
        extra=extra,
        turned=_turns(left, right, shapes),
    )


def _turns(left: Part, right: Part, shapes: dict[str, str]) -> int:
    """Count the holes that stand before one which they follow in the other part."""
    place = {hole.id: at for at, hole in enumerate(left.holes)}
    order = [place[shapes[hole.id]] for hole in right.holes if hole.id in shapes]
    return sum(a > b for a, b in pairwise(order))


def _alike(one: Hole, other: Hole) -> bool:
    return (
        abs(one.diameter_mm - other.diameter_mm) <= _SIZE_MM
        and abs(one.travel_mm - other.travel_mm) <= _HOLE_MM
    )
