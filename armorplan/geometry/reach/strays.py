"""Joints that a seam lists though they lie in another row: three edges would meet in the one seam."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import dist, inf

from armorplan.geometry.widths import STIFF
from armorplan.pattern.joining import Seam
from armorplan.pattern.pattern import Pattern

_Plates = frozenset[str]
_LEAST = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Strays:
    """Joints of a seam that hold the two plates of another one, and lie in its row.

    Attributes:
        seam: lists them.
        to: holds the same two plates as they do.
        joints: plain ids, as the seam lists them.
        mate: the plate of theirs that the seam does not hold otherwise.
        own: the plate that the rest of the seam holds in its stead.
    """

    seam: Seam
    to: Seam
    joints: tuple[str, ...]
    mate: str
    own: str


def strays_of(pattern: Pattern, seams: Iterable[Seam] | None = None) -> Iterator[Strays]:
    """Yield joints that sit in the wrong seam, by seam and by the one in whose row they lie.

    Such a joint holds other plates than most of its seam does, just those that most of another seam
    does, and on the plate that both share it lies nearer to that other one.

    Args:
        pattern: as drawn.
        seams: the seams that are looked at; all of them if not told.
    """
    for seam in pattern.seams if seams is None else seams:
        main = _main(pattern, seam)
        odd = {joint: held for joint in seam.joints if (held := _plates(pattern, joint)) != main}
        if len(main) == _LEAST and odd:
            yield from _strays_in(pattern, seam, main, odd)


def _strays_in(
    pattern: Pattern, seam: Seam, main: _Plates, odd: Mapping[str, _Plates]
) -> Iterator[Strays]:
    for to in pattern.seams:
        there = frozenset[str]() if to is seam else _main(pattern, to)
        if len(there) != _LEAST or len(main & there) != 1 or there not in odd.values():
            continue
        joints = tuple(
            joint
            for joint, held in odd.items()
            if held == there and _is_nearer(pattern, joint, seam, to)
        )
        if joints:
            (mate,), (own,) = there - main, main - there
            yield Strays(seam=seam, to=to, joints=joints, mate=mate, own=own)


def put_right(pattern: Pattern) -> Pattern:
    """Return a pattern in which each joint is listed by the seam in whose row it lies."""
    found = list(strays_of(pattern))
    if not found:
        return pattern
    listed = {seam.id: list(seam.joints) for seam in pattern.seams}
    for strays in found:
        for joint in strays.joints:
            listed[strays.seam.id].remove(joint)
        listed[strays.to.id] = _joined(pattern, listed[strays.to.id], list(strays.joints))
    seams = (replace(seam, joints=tuple(listed[seam.id])) for seam in pattern.seams)
    return replace(pattern, seams=tuple(seams))


def _plates(pattern: Pattern, joint: str) -> _Plates:
    return frozenset(p for p in pattern.stack_parts(joint) if pattern.part(p).kind in STIFF)


def _main(pattern: Pattern, seam: Seam) -> _Plates:
    """Return the plates that more than half of a seam's joints hold; none where no two do."""
    counts = Counter(_plates(pattern, joint) for joint in seam.joints)
    plates, count = max(counts.items(), key=lambda each: each[1], default=(frozenset(), 0))
    return plates if 2 * count > len(seam.joints) else frozenset()


def _is_nearer(pattern: Pattern, joint: str, seam: Seam, to: Seam) -> bool:
    held = _plates(pattern, joint)
    rest = [each for each in seam.joints if _plates(pattern, each) != held]
    return _nearest_mm(pattern, joint, to.joints) < _nearest_mm(pattern, joint, rest)


def _nearest_mm(pattern: Pattern, joint: str, others: tuple[str, ...] | list[str]) -> float:
    """Return how far a joint lies from the nearest of some others on a plate that both pass."""
    here = [pattern.hole(hole) for hole in pattern.joint(joint).stack]
    there = [pattern.hole(hole) for other in others for hole in pattern.joint(other).stack]
    spans = (dist(a.centre, b.centre) for a in here for b in there if a.part == b.part)
    return min(spans, default=inf)


def _joined(pattern: Pattern, row: list[str], strays: list[str]) -> list[str]:
    """Return a row with stray joints at the end that they are nearest to, the nearest beside it."""
    at_front = _end_mm(pattern, strays, row[0]) < _end_mm(pattern, strays, row[-1])
    end = row[0] if at_front else row[-1]
    strays.sort(key=lambda joint: _nearest_mm(pattern, joint, [end]))
    return [*reversed(strays), *row] if at_front else [*row, *strays]


def _end_mm(pattern: Pattern, strays: list[str], end: str) -> float:
    return min(_nearest_mm(pattern, joint, [end]) for joint in strays)
