"""Where a row gapes for good: between neighbouring joints that sit far apart, and past its ends.

Such a slit lets a tool in like an open row does, as wide as the nearest joints made leave it, and it
stays when the whole row is set. How far apart its places lie does not hang on the tools of a shelf.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, dist
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


class _End(NamedTuple):
    """An end of a row: its last joint, where it sits, and which way it goes on, on each plate."""

    number: int
    at_mm: float
    sense: int
    ways: tuple[tuple[Leg, Point, Point], ...]


def slits(cut: ShellCut) -> dict[str, tuple[Gap, ...]]:
    """Return by row where it gapes for good, in the order along it; rows that do not are left out."""
    holes = _Holes(cut)
    large = sum(len(line.rungs) for line in cut.lines) + len(cut.seats) > MOST_JOINTS
    apart_mm = WIDE_APART_MM if large else APART_MM
    found = {
        line.id: (*_between(line, apart_mm), *_beyond(line, cut, (holes, apart_mm)))
        for line in cut.lines
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
    """Where the rows of a shell pass its plates."""

    def __init__(self, cut: ShellCut) -> None:
        self._on: dict[str, list[tuple[str, Point]]] = {}
        for line in cut.lines:
            for rung in line.rungs:
                for (part, _), spot in rung.legs:
                    self._on.setdefault(part, []).append((line.id, spot))

    def is_nearer(self, row: str, part: str, spot: Point, off_mm: float) -> bool:
        """Tell whether a joint of another row sits nearer to a spot of a plate than so much."""
        return any(
            other != row and dist(hole, spot) < off_mm - 1e-6
            for other, hole in self._on.get(part, ())
        )


def _beyond(line: Line, cut: ShellCut, given: tuple[_Holes, float]) -> Iterator[Gap]:
    """Yield places past the ends of a row, as far as its plates are taken to lie on each other there.

    Where a joint of another row is nearer on all plates, it is that row's to say.
    """
    if line.closed or len(line.rungs) < 2:  # noqa: PLR2004 - one joint points nowhere
        return
    holes, apart_mm = given
    areas = {part.part: whole.area for part in cut.parts if (whole := leather(part.ring))}
    spans = [span_mm(one, other) or 0.0 for one, other in pairwise(line.rungs)]
    for end in _ends(line, sum(spans)):
        if any(leg[0] not in areas for leg, _, _ in end.ways) or len(end.ways) < 2:  # noqa: PLR2004
            continue
        on_mm = min(straight_on_mm(areas[leg[0]], a, b) for leg, a, b in end.ways)
        on_mm = min(on_mm, BEYOND * median(spans))
        for share in _shares(on_mm, apart_mm):
            off_mm = share * on_mm
            spots = tuple((leg[0], _on(a, b, off_mm)) for leg, a, b in end.ways)
            if all(holes.is_nearer(line.id, part, spot, off_mm) for part, spot in spots):
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
