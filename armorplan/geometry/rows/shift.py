"""Which hole of a row is out: two rows that should be spaced alike, told apart by their spacings.

Both rows are laid straight on each other. What explains all spacings with one movement is told: a
hole, all holes beyond a spacing, an evenly longer row, a row read from the wrong end. Nothing else
is guessed: then each spacing that misses is told by itself.
"""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from functools import lru_cache
from itertools import pairwise
from statistics import median
from typing import NamedTuple

Spans = tuple[float, ...]
"""The spacings of a row in mm, neighbour by neighbour."""

_FEWEST = 3
_SHARE = 3
"""Up to one hole in so many may be out before no row can be made out that they are out of."""
_CLEARER = 4.0
"""So many times more even a row has to become by moving its hole before that one is called out."""


class Wrong(StrEnum):
    """What is wrong between two rows."""

    HOLE = "hole"
    BEYOND = "all holes beyond"
    LONGER = "evenly longer"
    OTHER_WAY = "the other way round"
    SPACING = "spacing"


class Fault(NamedTuple):
    """What is wrong with one row against another.

    Attributes:
        at: the first hole that is out, counted from 0; of a spacing the hole before it.
        until: the last hole that is out.
        off_mm: how far too far towards the end of the row the holes lie on the second row; of an
            evenly longer row and of a spacing how much longer it is there, each.
    """

    wrong: Wrong
    at: int
    until: int
    off_mm: float


@lru_cache(maxsize=4096)
def faults(
    first: Spans, second: Spans, misfit_mm: float, bad_misfit_mm: float
) -> tuple[Fault, ...]:
    """Return what is wrong with the second row against the first; nothing where all agrees.

    Up to ``misfit_mm`` a spacing may differ; ``bad_misfit_mm`` tells uneven spacings from even.
    """
    differ = tuple(b - a for a, b in zip(first, second, strict=True))
    if _most(differ) <= misfit_mm:
        return ()
    if _other_way(first, second, misfit_mm, bad_misfit_mm):
        return (Fault(Wrong.OTHER_WAY, 0, len(first), _most(differ)),)
    single = [
        each for each in _single(differ, misfit_mm) if _most(_left(differ, each)) <= misfit_mm
    ]
    if single:
        return (min(single, key=lambda each: _squares(_left(differ, each))),)
    several = _several(differ, misfit_mm)
    if several:
        return several
    return tuple(
        Fault(Wrong.SPACING, at, at + 1, off)
        for at, off in enumerate(differ)
        if abs(off) > misfit_mm
    )


def reads_alike(spans: Spans, bad_misfit_mm: float) -> bool:
    """Tell whether spacings read alike from both ends: they cannot say which way round it goes."""
    return _most([a - b for a, b in zip(spans, spans[::-1], strict=True)]) <= bad_misfit_mm


def _other_way(first: Spans, second: Spans, misfit_mm: float, bad_misfit_mm: float) -> bool:
    turned = [b - a for a, b in zip(first, second[::-1], strict=True)]
    uneven = not reads_alike(first, bad_misfit_mm) and not reads_alike(second, bad_misfit_mm)
    return uneven and _most(turned) <= misfit_mm


def _most(differ: Sequence[float]) -> float:
    return max((abs(each) for each in differ), default=0.0)


def _squares(differ: Sequence[float]) -> float:
    return sum(each * each for each in differ)


def moved(spans: Spans, fault: Fault, by_mm: float) -> Spans:
    """Return spacings once the holes of a fault have been moved towards the end of the row by mm."""
    left = list(spans)
    if fault.wrong is Wrong.LONGER:
        return tuple(span + by_mm for span in spans)
    if fault.wrong is Wrong.SPACING:
        left[fault.at] += by_mm
        return tuple(left)
    if fault.at > 0:
        left[fault.at - 1] += by_mm
    if fault.until < len(spans):
        left[fault.until] -= by_mm
    return tuple(left)


def left_over(differ: Spans, found: Sequence[Fault]) -> float:
    """Return the sum of the squared differences in mm² that faults leave unexplained."""
    for fault in found:
        if fault.wrong is not Wrong.OTHER_WAY:
            differ = _left(differ, fault)
    return _squares(differ)


def _left(differ: Spans, fault: Fault) -> Spans:
    return moved(differ, fault, -fault.off_mm)


def _single(differ: Spans, misfit_mm: float) -> Iterator[Fault]:
    """Yield each way in which one movement may explain the differences of spacing."""
    last = len(differ)
    if last + 1 < _FEWEST:
        return
    if abs(sum(differ) / last) > misfit_mm:
        yield Fault(Wrong.LONGER, 0, last, sum(differ) / last)
    yield Fault(Wrong.HOLE, 0, 0, -differ[0])
    yield Fault(Wrong.HOLE, last, last, differ[-1])
    for at, (before, after) in enumerate(pairwise(differ), start=1):
        yield Fault(Wrong.HOLE, at, at, (before - after) / 2)
    for at in range(1, last - 1):
        front = at + 1 <= (last + 1) / 2 - 1
        yield (
            Fault(Wrong.BEYOND, 0, at, -differ[at])
            if front
            else Fault(Wrong.BEYOND, at + 1, last, differ[at])
        )


def _several(differ: Spans, misfit_mm: float) -> tuple[Fault, ...]:
    """Return the few holes that are out of a row of many; nothing where no row can be made out."""
    places = [0.0]
    for each in differ:
        places.append(places[-1] + each)
    middle = median(places)
    out = [at for at, place in enumerate(places) if abs(place - middle) > misfit_mm]
    if len(out) * _SHARE > len(places):
        return ()
    found = tuple(Fault(Wrong.HOLE, at, at, places[at] - middle) for at in out)
    for fault in found:
        differ = _left(differ, fault)
    return found if _most(differ) <= misfit_mm else ()


def _roughness(spans: Spans) -> float:
    return _squares([there - here for here, there in pairwise(spans)])


def whose(first: Spans, second: Spans, fault: Fault) -> int | None:
    """Return 0 or 1 for the row whose holes are out; ``None`` where either may be.

    The row that is uneven there, and even once its holes are moved, is the one to mend.
    """
    if fault.wrong in {Wrong.LONGER, Wrong.OTHER_WAY, Wrong.SPACING}:
        return None
    evener = [
        _roughness(row) > _CLEARER * _roughness(moved(row, fault, by_mm))
        for row, by_mm in ((first, fault.off_mm), (second, -fault.off_mm))
    ]
    return None if evener[0] == evener[1] else evener.index(True)
