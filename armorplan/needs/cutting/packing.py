"""Blanks laid side by side on as few beds as rectangle packing finds; no nesting of shapes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Any

from armorplan.needs.cutting.blanks import Blank
from armorplan.needs.cutting.model import Bed
from armorplan.pattern.parts import Point

_PER_MM = 10
"""The packer reckons in whole tenths of a mm, each blank rounded up and the bed down."""
_FEW = 60
"""Up to so many blanks every way of laying is tried; of more, the one that is usually best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a blank lies; ``quarter``: turned a quarter."""

    blank: Blank
    at_mm: Point
    quarter: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """Blanks on their beds, and those that no bed of that size holds."""

    beds: tuple[tuple[Spot, ...], ...]
    too_large: tuple[Blank, ...]


def packed(blanks: Sequence[Blank], bed: Bed) -> Packing:
    """Return blanks on beds, with the margin between them and round them.

    Maximal rectangles, the best of several orders and ways of choosing (Jylänki 2010, "A thousand
    ways to pack the bin"); the fewest beds win, then the shortest stretch of the last one.
    """
    room = _size((bed.wide_mm - bed.margin_mm, bed.high_mm - bed.margin_mm), floor)
    holds = {blank: _holds(_inflated(blank, bed), room, fixed=blank.fixed) for blank in blanks}
    ready = [blank for blank in blanks if holds[blank]]
    tries = (_laid(ready, bed, room, key, way) for key, way in _ways(len(ready)))
    best = min(tries, key=_cost, default=())
    return Packing(beds=best, too_large=tuple(blank for blank in blanks if not holds[blank]))


_Key = Callable[[Blank], tuple[float, ...]]


def _ways(count: int) -> list[tuple[_Key, str]]:
    """Return which orders and ways of choosing a place are tried."""
    orders: tuple[_Key, ...] = (
        lambda blank: (blank.size_mm[0] * blank.size_mm[1],),
        lambda blank: (max(blank.size_mm), min(blank.size_mm)),
        lambda blank: (min(blank.size_mm), max(blank.size_mm)),
        lambda blank: (sum(blank.size_mm),),
    )
    ways = ("MaxRectsBssf", "MaxRectsBl", "MaxRectsBaf")
    if count > _FEW:
        return [(orders[0], ways[0])]
    return [(order, way) for order in orders for way in ways]


def _laid(
    blanks: Sequence[Blank], bed: Bed, room: tuple[int, int], key: _Key, way: str
) -> tuple[tuple[Spot, ...], ...]:
    """Lay blanks by falling key, each in the first bed that has a place for it."""
    import rectpack

    kind = getattr(rectpack, way)
    open_beds: list[tuple[Any, list[Spot]]] = []
    for blank in sorted(blanks, key=key, reverse=True):
        spot = next((s for b, on in open_beds if (s := _put(b, on, blank, bed))), None)
        if spot is None:
            open_beds.append((kind(*room, rot=True), []))
            _put(*open_beds[-1], blank, bed)
    return tuple(tuple(spots) for _, spots in open_beds)


def _put(on_bed: Any, spots: list[Spot], blank: Blank, bed: Bed) -> Spot | None:
    """Put a blank on a bed where it has a place."""
    wide, high = _inflated(blank, bed)
    on_bed.rot = not blank.fixed
    found = on_bed.add_rect(wide, high)
    if found is None:
        return None
    at_mm = (bed.margin_mm + found.x / _PER_MM, bed.margin_mm + found.y / _PER_MM)
    spot = Spot(blank=blank, at_mm=at_mm, quarter=found.width != wide)
    spots.append(spot)
    return spot


def _inflated(blank: Blank, bed: Bed) -> tuple[int, int]:
    wide, high = blank.size_mm
    return _size((wide + bed.margin_mm, high + bed.margin_mm), ceil)


def _size(size_mm: tuple[float, float], rounded: Callable[[float], int]) -> tuple[int, int]:
    """Return a size in whole units of the packer; what is off by binary noise alone is not moved."""
    wide, high = (rounded(round(side * _PER_MM, 3)) for side in size_mm)
    return wide, high


def _holds(size: tuple[int, int], room: tuple[int, int], *, fixed: bool) -> bool:
    ways = (size,) if fixed else (size, size[::-1])
    return any(wide <= room[0] and high <= room[1] for wide, high in ways)


def _cost(beds: tuple[tuple[Spot, ...], ...]) -> tuple[float, float]:
    """Return how many beds it takes, and how much of the last is used along its shorter stretch."""
    if not beds:
        return 0, 0.0
    ends = [_end(spot) for spot in beds[-1]]
    return len(beds), max(x for x, _ in ends) * max(y for _, y in ends)


def _end(spot: Spot) -> Point:
    wide, high = spot.blank.size_mm
    if spot.quarter:
        wide, high = high, wide
    return spot.at_mm[0] + wide, spot.at_mm[1] + high
