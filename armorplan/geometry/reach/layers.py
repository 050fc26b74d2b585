"""Which rows of a shell only lay plates flat on each other, so that they close nothing.

The plates are laid out in the flat, one by one, by rows whose holes in both plates are alike. A
further row whose holes then lie on each other as well draws the plates into no shape: layers, or
plates laid round one corner. A row whose holes do not come together bends them round.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from math import dist
from typing import NamedTuple

from armorplan.geometry.covers.places import WELL_MM
from armorplan.geometry.placing import Fit, fit
from armorplan.geometry.reach.model import FLAT_LINK, Link
from armorplan.geometry.reach.shells import Leg, Line
from armorplan.pattern.parts import Point

_TWO = 2


class _Tie(NamedTuple):
    """A row between two plates, with where its joints pass both."""

    row: str
    one: str
    other: str
    spots: tuple[tuple[Point, Point], ...]

    def back(self) -> "_Tie":
        return _Tie(self.row, self.other, self.one, tuple((b, a) for a, b in self.spots))


def links(lines: Iterable[Line], turned: Mapping[str, bool]) -> dict[str, tuple[Link, ...]]:
    """Return by row between which plates it is, and whether it only lays them on each other.

    Args:
        lines: the rows of a shell.
        turned: by plate whether it is drawn from its inner face: such a plate is laid face down.
    """
    ties = [tie for line in lines for tie in _ties(line, turned)]
    laid = _laid(ties)
    bent: dict[tuple[str, str], list[list[_Tie]]] = defaultdict(list)
    found: dict[str, list[Link]] = defaultdict(list)
    for tie in ties:
        if _meets(tie, laid):
            found[tie.row].append(Link(tie.one, tie.other, FLAT_LINK))
            continue
        heaps = bent[tie.one, tie.other]
        heap = next((heap for heap in heaps if _alike([*heap, tie])), None)
        if heap is None:
            heap = []
            heaps.append(heap)
        heap.append(tie)
        draws = f"{heap[0].row}:{tie.one}:{tie.other}:{heaps.index(heap)}"
        found[tie.row].append(Link(tie.one, tie.other, draws))
    return {row: tuple(each) for row, each in found.items()}


def _ties(line: Line, turned: Mapping[str, bool]) -> Iterator[_Tie]:
    """Yield a row between each two plates next to each other.

    A strip between both edges of one plate lies on each of them in its own way.
    """
    held: dict[tuple[Leg, Leg], list[tuple[Point, Point]]] = defaultdict(list)
    for rung in line.rungs:
        for (one, a), (other, b) in pairwise(rung.legs):
            ends = (one, _seen(a, turned[one[0]])), (other, _seen(b, turned[other[0]]))
            (first, p), (second, q) = sorted(ends, key=lambda end: end[0])
            held[first, second].append((p, q))
    for (first, second), spots in held.items():
        yield _Tie(line.id, first[0], second[0], tuple(spots))


def _seen(spot: Point, turned: bool) -> Point:  # noqa: FBT001
    return (-spot[0], spot[1]) if turned else spot


def _alike(ties: Iterable[_Tie]) -> Fit | None:
    """Return how the other plate lies on the one by all these rows; ``None`` where it does not."""
    spots = [both for tie in ties for both in tie.spots]
    if len(spots) < _TWO:
        return None
    found = fit([a for a, _ in spots], [b for _, b in spots])
    return found if found is not None and found.worst_mm <= WELL_MM else None


def _laid(ties: list[_Tie]) -> dict[str, tuple[int, tuple[Fit, ...]]]:
    """Return by plate which layout it is laid in, and by what turns and shifts, the first first."""
    between: dict[str, list[_Tie]] = defaultdict(list)
    for tie in ties:
        if tie.one != tie.other:
            between[tie.one].append(tie)
            between[tie.other].append(tie.back())
    laid: dict[str, tuple[int, tuple[Fit, ...]]] = {}
    for start in between:
        if start in laid:
            continue
        heap, laid[start], left = len(laid), (len(laid), ()), [start]
        while left:
            here = left.pop(0)
            for other, fitted in _neighbours(between[here]):
                if other not in laid:
                    laid[other] = heap, (fitted, *laid[here][1])
                    left.append(other)
    return laid


def _neighbours(ties: list[_Tie]) -> Iterator[tuple[str, Fit]]:
    """Yield plates that lie flat on one, by all rows between the two or else by one of them."""
    by_other: dict[str, list[_Tie]] = defaultdict(list)
    for tie in ties:
        by_other[tie.other].append(tie)
    for other, held in by_other.items():
        tries = [held, *([tie] for tie in held)]
        fitted = next((found for each in tries if (found := _alike(each)) is not None), None)
        if fitted is not None:
            yield other, fitted


def _meets(tie: _Tie, laid: Mapping[str, tuple[int, tuple[Fit, ...]]]) -> bool:
    """Tell whether the holes of a row lie on each other in the layout."""
    if tie.one == tie.other or tie.one not in laid or tie.other not in laid:
        return False
    (heap, on_one), (other_heap, on_other) = laid[tie.one], laid[tie.other]
    return heap == other_heap and all(
        dist(_placed(a, on_one), _placed(b, on_other)) <= WELL_MM for a, b in tie.spots
    )


def _placed(spot: Point, steps: Iterable[Fit]) -> Point:
    for step in steps:
        spot = step.place(spot)
    return spot
