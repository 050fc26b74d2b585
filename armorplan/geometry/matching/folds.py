"""Straps that close on themselves: folded round a buckle's bar, or end to end into a keeper."""

from collections.abc import Collection, Iterator, Sequence

from armorplan.geometry.areas import rectangle_mm, ring_area_mm2
from armorplan.geometry.matching.chains import LIKE_MM
from armorplan.geometry.matching.laying import Laid
from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.widths import STRAP_SHAPE
from armorplan.pattern.parts import Hole, Part, Slot

_FOLD = 6.0
"""Points of two holes as far from a buckle's slot on either side."""
_LOOP = 4.5
"""Points of a strap whose only two holes lie at its ends."""
_AMID_MM = 2.0
"""The slot may lie so far out of the middle (common practice, no source)."""
_LOOP_SHARE = 0.6
_PAIR = 2


def folded(
    parts: Sequence[Part], taken: Collection[str] = (), misfit_mm: float = 0.5
) -> Iterator[Laid]:
    """Yield holes of a strap that come to lie on each other when it is folded, each pair once."""
    for at, part in enumerate(parts):
        if not ring_area_mm2(part.outline):
            continue
        long_mm, wide_mm = rectangle_mm(part.outline)
        if long_mm < STRAP_SHAPE * wide_mm:
            continue
        free = [h for h in part.holes if not h.travel_mm and h.id not in taken]
        found = [fold for slot in part.slots if (fold := _round_slot(free, slot, misfit_mm))]
        if not found and len(free) == _PAIR and _alike(*free):
            apart_mm = abs(_at(free[0]) - _at(free[1]))
            found = [(free[0], free[1], 0.0)] if apart_mm >= _LOOP_SHARE * long_mm else []
        points = _FOLD if part.slots else _LOOP
        yield from (_laid(at, one, other, off_mm, points=points) for one, other, off_mm in found)


def _round_slot(
    holes: Sequence[Hole], slot: Slot, misfit_mm: float
) -> tuple[Hole, Hole, float] | None:
    """Return the two holes nearest a slot that lie on either side of it, as far from it."""
    corners = [complex(*corner) for corner in slot.outline]
    if not corners:
        return None
    middle = sum(corners) / len(corners)
    one = min(holes, key=lambda hole: abs(_at(hole) - middle), default=None)
    if one is None:
        return None
    way = (_at(one) - middle).conjugate()
    beyond = [hole for hole in holes if ((_at(hole) - middle) * way).real < 0]
    other = min(beyond, key=lambda hole: abs(_at(hole) - middle), default=None)
    if other is None or not _alike(one, other):
        return None
    off_mm = abs(_at(one) + _at(other) - 2 * middle)
    return (one, other, off_mm) if off_mm <= max(_AMID_MM, misfit_mm) else None


def _at(hole: Hole) -> complex:
    return complex(*hole.centre)


def _alike(one: Hole, other: Hole) -> bool:
    return abs(one.diameter_mm - other.diameter_mm) <= LIKE_MM


def _laid(at: int, one: Hole, other: Hole, off_mm: float, *, points: float) -> Laid:
    return Laid(
        first=at,
        second=at,
        pairs=((one.id, other.id),),
        meeting=Meeting.HOLE,
        off_mm=off_mm,
        points=points,
    )
