"""Parts that are easily mixed up: twins, mirror twins and near-twins of flat outline."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from math import pi
from typing import NamedTuple

import numpy as np

from armorplan.geometry.alike.outline_fit import EXACT_MM, Contour, Pose, fits, likelier_over
from armorplan.geometry.alike.punched import Punched
from armorplan.geometry.areas import ring_area_mm2
from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Part

TWIN_MM = 0.1
"""Outlines nearer than this are one shape: no knife holds a tenth of a millimetre."""
NEAR_TWIN_MM = 5.0
"""Up to here two parts are mixed up on the bench (common practice, no source)."""
NEAR_TWIN_SHARE = 0.05
"""... and up to this share of a part's longest extent: 2 mm tell a 20 mm disc from its like, but
not a 400 mm strap (common practice, no source)."""
NEIGHBOURS = 4
"""Of many shapes that are alike, each is laid on the likest of those before it: a part that is
mixed up with one further off is mixed up with what lies between them first."""
MOST_FITS = 2_000
"""Shapes are laid on each other this often, some ms each; what is beyond is not compared. 300
parts, each a near twin of others, need about half of it."""
_SAME_MM = 2 * EXACT_MM
"""Parts as near as this are compared with others once, for all of them."""
_PUNCHED_MM = 2 * TWIN_MM
"""Their holes lie as far from the middle as that: each within that, and the middle a little off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAlike:
    """Two parts that look alike.

    Attributes:
        first: id of the part that comes first in the pattern.
        second: id of the other.
        difference_mm: the largest distance between their outlines when the one is laid on the
            other as well as can be. Where the outlines are one, the largest difference between
            their holes; a hole without its like counts with its own size.
        mirrored: they lie best on each other when one is turned over.
        by_holes: the outlines are one, and only holes or slots tell the parts apart.
        holes: how many holes the first and the second have.
        slots: how many slots they have, those that a joint slides in among them.
    """

    first: str
    second: str
    difference_mm: float
    mirrored: bool
    by_holes: bool = False
    holes: tuple[int, int] = (0, 0)
    slots: tuple[int, int] = (0, 0)

    @property
    def is_twin(self) -> bool:
        """Tell whether nothing tells the two apart but, where mirrored, their hand."""
        return self.difference_mm <= TWIN_MM

    @property
    def difference_words(self) -> str:
        """Say what differs: how many holes or slots, first against second; else by how many mm."""
        counted = (("hole", self.holes), ("slot", self.slots))
        unlike = [_against(what, *both) for what, both in counted if both[0] != both[1]]
        return " and ".join(unlike) or f"by {self.difference_mm:.1f} mm"


def _against(what: str, one: int, other: int) -> str:
    if not one:
        return f"no {what} against {other}"
    return f"{one} {what}{'' if one == 1 else 's'} against {other or 'none'}"


class _Miss(NamedTuple):
    """What two parts miss by, laid one way: their outlines, and their holes where these are one."""

    outline_mm: float = float("inf")
    holes_mm: float = 0.0

    @property
    def difference_mm(self) -> float:
        return max(self)

    def beats(self, other: "_Miss") -> bool:
        """Tell whether this is nearer by more than the flattening of curves explains."""
        slack_mm = TWIN_MM / 2
        if abs(self.outline_mm - other.outline_mm) > slack_mm:
            return self.outline_mm < other.outline_mm
        return self.holes_mm < other.holes_mm - slack_mm


_Hands = tuple[_Miss, _Miss]
"""What two parts miss by as they are, and with the second turned over."""
_APART: _Hands = (_Miss(), _Miss())


class _Shape(NamedTuple):
    contour: Contour
    punched: Punched


@lru_cache(maxsize=1024)
def _shape(part: Part) -> _Shape:
    contour = Contour(part.outline)
    return _Shape(contour, Punched(part, contour.centre))


class _Moulds:
    """Shapes without their twins, and how each part compares with the mould it was cut to."""

    def __init__(
        self, shapes: Sequence[_Shape], within_mm: float, should_stop: ShouldStop
    ) -> None:
        self._shapes = shapes
        self._within_mm = within_mm
        self._sizes = np.array([s.contour.sizes for s in shapes]).reshape(-1, 4)
        self._tones = np.array([s.contour.tones for s in shapes])
        self._fits_left = MOST_FITS
        self._hands: dict[tuple[int, int], _Hands] = {}
        self._handless: set[int] = set()
        """Moulds that lie on themselves turned over."""
        self.moulds: list[int] = []
        self.mould_of: list[tuple[int, bool]] = []
        """For each shape its mould, and whether it is that mould turned over."""
        for at in range(len(shapes)):
            go_on(should_stop)
            self.mould_of.append(self._put(at))

    def _put(self, at: int) -> tuple[int, bool]:
        """Give a shape its mould; where there is none, make it one and compare it with the rest."""
        for mould in self._likely(at, _SAME_MM):
            if self._fits_left <= 0:
                break
            if not self._shapes[mould].punched.may_be(self._shapes[at].punched, _PUNCHED_MM):
                continue
            hands = self._compared(mould, at, _SAME_MM)
            over = hands[1].beats(hands[0])
            if hands[over].difference_mm <= _SAME_MM:
                return mould, over
        for mould in self._likely(at, self._within_mm)[:NEIGHBOURS]:
            if self._fits_left <= 0:
                break
            self._hands[mould, at] = self._compared(mould, at, self._within_mm)
        self.moulds.append(at)
        shape = self._shapes[at]
        over_itself = _missed(shape, shape, TWIN_MM, mirrored=True)
        self._hands[at, at] = (_Miss(0.0), over_itself)
        if over_itself.difference_mm <= _SAME_MM:
            self._handless.add(at)
        return at, False

    def _likely(self, at: int, within_mm: float) -> list[int]:
        """Return the moulds that can be like a shape by size and hull, the likest first.

        Where outlines lie within d of each other, their hulls do: the hulls' lengths differ by no
        more than 2πd (Steiner 1840), the extents by 2d, their tones by d, and the areas by
        length × d + πd².
        """
        if not self.moulds:
            return []
        sizes, own = self._sizes[self.moulds], self._sizes[at]
        away = np.abs(sizes - own)
        limit = np.minimum(within_mm, NEAR_TWIN_SHARE * np.minimum(sizes[:, 0], own[0]))
        limit += TWIN_MM
        may = (away[:, 0] <= 2 * limit) & (away[:, 1] <= 2 * pi * limit)
        may &= away[:, 2] <= np.maximum(sizes[:, 3], own[3]) * limit + pi * limit**2
        apart = np.linalg.norm(self._tones[self.moulds] - self._tones[at], axis=1)
        may &= apart <= limit
        order = np.argsort(np.where(may, apart, np.inf), kind="stable")
        return [self.moulds[i] for i in order[: int(may.sum())]]

    def _compared(self, one: int, other: int, within_mm: float) -> _Hands:
        """Return what two shapes miss by, either way up."""
        self._fits_left -= 1
        first, second = self._shapes[one], self._shapes[other]
        return _laid(first, second, within_mm, handless=one in self._handless)

    def hands(self, one: int, other: int, *, turned: bool) -> _Hands:
        """Return what two moulds miss by, or a mould and itself, the other turned over or not."""
        plain, over = self._hands.get((min(one, other), max(one, other)), _APART)
        return (over, plain) if turned else (plain, over)


def look_alikes(
    parts: Sequence[Part],
    *,
    within_mm: float = NEAR_TWIN_MM,
    should_stop: ShouldStop = never,
) -> tuple[LookAlike, ...]:
    """Return the pairs of parts whose outlines, turned and turned over at will, are nearly one.

    Args:
        parts: parts with their outlines, in the pattern's order.
        within_mm: outlines may differ by this much, and by no more than ``NEAR_TWIN_SHARE`` of the
            smaller part's longest extent. Holes may differ by more where outlines are one.
        should_stop: asked at each part; where it says so, the comparing ends.

    Raises:
        StoppedError: it was no longer wanted.
    """
    flat = [part for part in parts if ring_area_mm2(part.outline) > 0]
    return tuple(_pairs(flat, _Moulds([_shape(part) for part in flat], within_mm, should_stop)))


def has_hand(part: Part) -> bool:
    """Tell whether a part, holes and all, is another when it is turned over: it has a left and a right."""
    shape = _shape(part)
    return _missed(shape, shape, TWIN_MM, mirrored=True).difference_mm > _SAME_MM


def _pairs(parts: Sequence[Part], moulds: _Moulds) -> Iterator[LookAlike]:
    known: dict[tuple[int, int, bool], tuple[float, bool, bool] | None] = {}
    cut_to = list(zip((part.id for part in parts), moulds.mould_of, strict=True))
    slots = {p.id: len(p.slots) + sum(h.travel_mm > 0 for h in p.holes) for p in parts}
    holes = {p.id: len(p.holes) + len(p.slots) - slots[p.id] for p in parts}
    for (first, (one, over)), (second, (other, turned)) in combinations(cut_to, 2):
        key = (one, other, over != turned)
        if key not in known:
            known[key] = _told(moulds.hands(one, other, turned=over != turned))
        if (told := known[key]) is not None:
            difference_mm, mirrored, by_holes = told
            yield LookAlike(
                first=first,
                second=second,
                difference_mm=difference_mm,
                mirrored=mirrored,
                by_holes=by_holes,
                holes=(holes[first], holes[second]),
                slots=(slots[first], slots[second]),
            )


def _told(hands: _Hands) -> tuple[float, bool, bool] | None:
    """Return the difference in mm, whether it is mirrored, and whether only the holes differ."""
    plain, over = hands
    mirrored = over.beats(plain)
    miss = over if mirrored else plain
    if miss.outline_mm == float("inf"):
        return None
    return round(miss.difference_mm, 2), mirrored, miss.holes_mm > TWIN_MM


@lru_cache(maxsize=4096)
def _laid(first: _Shape, second: _Shape, within_mm: float, *, handless: bool) -> _Hands:
    """Return what two shapes miss by, either way up; shapes are told apart by being one object."""
    extent_mm = min(first.contour.extent_mm, second.contour.extent_mm)
    limit_mm = min(within_mm, NEAR_TWIN_SHARE * extent_mm)
    if handless:
        plain = _missed(first, second, limit_mm, mirrored=False)
        return plain, plain
    likelier = likelier_over(first.contour, second.contour)
    better = _missed(first, second, limit_mm, mirrored=likelier)
    if better.difference_mm <= _SAME_MM and not likelier:
        return better, better
    # The other way up only counts where it lies nearer, or as near with its holes.
    least_mm = min(limit_mm, better.outline_mm + TWIN_MM)
    other_way = _missed(first, second, least_mm, mirrored=not likelier)
    return (other_way, better) if likelier else (better, other_way)


def _missed(first: _Shape, second: _Shape, limit_mm: float, *, mirrored: bool) -> _Miss:
    """Return what two shapes miss by, the second turned over or not; beyond the limit, infinity."""
    poses = fits(first.contour, second.contour, limit_mm, mirrored=mirrored)
    if not poses or poses[0].miss_mm > limit_mm + TWIN_MM / 2:
        return _Miss()
    nearest_mm = poses[0].miss_mm
    if nearest_mm > TWIN_MM:
        return _Miss(nearest_mm)
    return _Miss(nearest_mm, _holes_miss_mm(first, second, poses))


def _holes_miss_mm(first: _Shape, second: _Shape, poses: Sequence[Pose]) -> float:
    """Return what the holes miss by in the pose, of all that fit, in which they miss least."""
    fitting = [pose for pose in poses if pose.miss_mm <= TWIN_MM]
    by_holes = first.punched.turns_onto(second.punched, fitting[0])
    if by_holes:
        tried = (first.contour.laid(second.contour, pose) for pose in by_holes)
        fitting += [pose for pose in tried if pose.miss_mm <= TWIN_MM]
    return min(first.punched.miss_mm(second.punched, pose) for pose in fitting)
