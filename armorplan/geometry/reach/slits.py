"""Where a row gapes for good: between neighbouring joints that sit far apart, and past its ends.

Such a slit lets a tool in like an open row does, as wide as the nearest joints made leave it, and it
stays when the whole row is set. How far apart its places lie does not hang on the tools of a shelf.
"""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from math import ceil, dist, inf
from statistics import median
from typing import NamedTuple

from armorplan.geometry.reach.frames import BEYOND
from armorplan.geometry.reach.laps import straight_on_mm
from armorplan.geometry.reach.model import Gap
from armorplan.geometry.reach.part_net import leather
from armorplan.geometry.reach.shells import (
    Leg,
    Line,
    Rung,
    ShellCut,
    common,
    span_mm,
)
from armorplan.pattern.parts import Point

MOST_JOINTS = 500
"""In a shell of more joints the net is coarser, and far ways through rows are left out."""
LEAST_MM = 60.0
"""Between joints nearer to each other than this no tool goes in: half of it gapes some 10 mm."""
APART_MM = 12.0
"""Places in a slit lie no further apart than this, but where there would be too many."""
WIDE_APART_MM = 30.0
"""In a shell of very many joints they lie as far apart as this, and no further however many."""
_MOST = 40
"""In one slit there are no more than so many, but where they would lie further apart than that."""


_TWO = 2
ASIDE = 0.1
"""A joint that lies off the way straight on by no more than this share of it goes on in that row."""


class _End(NamedTuple):
    """An end of a row: its last joint, where it sits, and which way it goes on, on each plate."""

    number: int
    at_mm: float
    sense: int
    ways: tuple[tuple[Leg, Point, Point], ...]


@lru_cache(maxsize=256)
def slits(cut: ShellCut) -> dict[str, tuple[Gap, ...]]:
    """Return by row where it gapes for good, in the order along it; rows that do not are left out."""
    holes = _Holes(cut)
    large = sum(len(line.rungs) for line in cut.lines) + len(cut.seats) > MOST_JOINTS
    apart_mm = WIDE_APART_MM if large else APART_MM
    found = {
        line.id: (*_between(line, apart_mm), *_beyond(line, holes, apart_mm)) for line in cut.lines
    }
    return {
        row: tuple(sorted(each, key=lambda gap: gap.at_mm)) for row, each in found.items() if each
    }


def _between(line: Line, apart_mm: float) -> Iterator[Gap]:
    at_mm = 0.0
    for number, (one, other) in enumerate(pairwise(line.rungs), start=1):
        length_mm = span_mm(one, other) or 0.0
        for share in _shares(length_mm, apart_mm):
            yield Gap(
                name=f"{line.id}:{number}+{share * length_mm:.0f}",
                at_mm=at_mm + share * length_mm,
                between=(number, number + 1),
                spots=tuple((leg[0], _along(a, b, share)) for leg, a, b in common(one, other)),
            )
        at_mm += length_mm


def _shares(length_mm: float, apart_mm: float) -> list[float]:
    if length_mm < LEAST_MM:
        return []
    count = ceil(min(length_mm / apart_mm, max(_MOST, length_mm / WIDE_APART_MM)) - 1e-9)
    return [step / count for step in range(1, count)]


def _along(one: Point, other: Point, share: float) -> Point:
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


class _Holes:
    """Where the rows of a shell pass its plates, and how far these go on."""

    def __init__(self, cut: ShellCut) -> None:
        self._areas = {p.part: whole.area for p in cut.parts if (whole := leather(p.ring))}
        self._on: dict[str, list[tuple[str, Point]]] = {}
        for line in cut.lines:
            for rung in line.rungs:
                for (part, _), spot in rung.legs:
                    self._on.setdefault(part, []).append((line.id, spot))

    def are_nearer(self, row: str, spots: Iterable[tuple[str, Point]], off_mm: float) -> bool:
        """Tell whether on each of some plates a joint of another row sits nearer than so much."""
        return all(
            any(
                other != row and dist(hole, spot) < off_mm - 1e-6 for other, hole in self._on[part]
            )
            for part, spot in spots
        )

    def on_mm(self, row: str, end: _End, most_mm: float) -> float:
        """Return how far past its end a row is looked at: to the next one straight on, or the edge."""
        if any(leg[0] not in self._areas for leg, _, _ in end.ways):
            return 0.0
        edge_mm = min(straight_on_mm(self._areas[leg[0]], a, b) for leg, a, b in end.ways)
        facing_mm = min(self._facing_mm(row, leg[0], (a, b)) for leg, a, b in end.ways)
        return facing_mm if facing_mm < edge_mm else min(edge_mm, most_mm)

    def _facing_mm(self, row: str, part: str, way: tuple[Point, Point]) -> float:
        """Return how far straight on the next joint of another row sits on a plate; infinite: none."""
        (x, y), last = way
        length = dist(*way)
        ux, uy = (last[0] - x) / length, (last[1] - y) / length
        found = inf
        for other, hole in self._on[part]:
            dx, dy = hole[0] - last[0], hole[1] - last[1]
            on_mm = dx * ux + dy * uy
            if other != row and 0 < on_mm < found and abs(dx * uy - dy * ux) <= ASIDE * on_mm:
                found = on_mm
        return found


def _beyond(line: Line, holes: _Holes, apart_mm: float) -> Iterator[Gap]:
    """Yield places past the ends of a row, as far as its plates are taken to lie on each other there.

    Where a joint of another row is nearer on all plates, it is that row's to say. Up to one straight on
    the places are the same as if both rows were one.
    """
    if line.closed or len(line.rungs) < _TWO:
        return
    spans = [span_mm(one, other) or 0.0 for one, other in pairwise(line.rungs)]
    most_mm = BEYOND * median(spans)
    for end in _ends(line, sum(spans)):
        on_mm = holes.on_mm(line.id, end, most_mm) if len(end.ways) >= _TWO else 0.0
        for share in _shares(on_mm, apart_mm):
            off_mm = share * on_mm
            spots = tuple((leg[0], _on(a, b, off_mm)) for leg, a, b in end.ways)
            if off_mm > most_mm or holes.are_nearer(line.id, spots, off_mm):
                break
            yield Gap(
                name=f"{line.id}:{end.number}{'+' if end.sense > 0 else '-'}{off_mm:.0f}",
                at_mm=end.at_mm + end.sense * off_mm,
                between=(end.number, 0),
                spots=spots,
            )


def _ends(line: Line, length_mm: float) -> Iterator[_End]:
    yield _End(1, 0.0, -1, _ways(line.rungs[1], line.rungs[0]))
    yield _End(len(line.rungs), length_mm, 1, _ways(*line.rungs[-2:]))


def _ways(before: Rung, last: Rung) -> tuple[tuple[Leg, Point, Point], ...]:
    return tuple((leg, a, b) for leg, a, b in common(before, last) if dist(a, b) > 0)


def _on(before: Point, last: Point, off_mm: float) -> Point:
    return _along(last, before, -off_mm / dist(before, last))
