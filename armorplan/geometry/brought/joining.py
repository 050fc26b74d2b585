"""Open lines are joined end to end to the lines that were meant."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import dist

from armorplan.geometry.brought.ends import EXACT_MM, Met, meeting
from armorplan.geometry.brought.lines import Drawn
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Point

_LEAST_CORNERS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """Lines after joining: how many ends were joined, the widest gap, where three or more met."""

    lines: tuple[Drawn, ...]
    count: int
    widest_mm: float
    junctions: tuple[Point, ...]


def joined(lines: Sequence[Drawn], tolerance_mm: float, should_stop: ShouldStop) -> Joined:
    """Join open lines whose ends lie within the tolerance of each other."""
    whole = [line for line in lines if line.closed]
    loose = [line for line in lines if not line.closed]
    met = meeting(loose, tolerance_mm, should_stop)
    used: set[int] = set()
    for first in _starts(len(loose), met):
        go_on(should_stop)
        if first not in used:
            walk = list(_walked(first, met))
            used.update(n // 2 * 2 for n in walk)
            used.update(n // 2 * 2 + 1 for n in walk)
            whole.append(_one(walk, loose, met))
    gaps = [gap for gap in met.apart_mm.values() if gap > EXACT_MM]
    return Joined(
        lines=tuple(sorted(whole, key=lambda line: line.order)),
        count=len(met.partner),
        widest_mm=max(gaps, default=0.0),
        junctions=met.junctions,
    )


def _starts(count: int, met: Met) -> Iterator[int]:
    """Yield ends to begin at: free ones first, then of each round the first."""
    yield from (end for end in range(2 * count) if end not in met.partner)
    yield from range(0, 2 * count, 2)


def _walked(first: int, met: Met) -> Iterator[int]:
    """Yield the ends at which lines are entered, one after the other."""
    entered = first
    while True:
        yield entered
        after = met.partner.get(entered ^ 1)
        if after is None or after == first:
            return
        entered = after


def _one(walk: Sequence[int], loose: Sequence[Drawn], met: Met) -> Drawn:
    if len(walk) == 1 and not {walk[0], walk[0] ^ 1} & met.partner.keys():
        return loose[walk[0] // 2]
    points: list[Point] = []
    for entered in walk:
        line = loose[entered // 2]
        corners = line.points[::-1] if entered % 2 else line.points
        if points:
            _meet(points, corners[0])
            corners = corners[1:]
        points += corners
    is_round = met.partner.get(walk[-1] ^ 1) == walk[0]
    if is_round:
        _meet(points, points[0])
        points[0] = points.pop()
    members = sorted({entered // 2 for entered in walk}, key=lambda n: loose[n].order)
    named = [loose[n] for n in members]
    strokes = tuple(key for each in named for key in each.strokes)
    closed = is_round and len(points) >= _LEAST_CORNERS
    return replace(
        named[0],
        strokes=strokes,
        points=tuple(points),
        closed=closed,
        layer=_most([each.layer for each in named]),
        colour=_most([each.colour for each in named]),
        name=next((each.name for each in named if each.name), ""),
        group=next((each.group for each in named if each.group), ""),
    )


def _meet(points: list[Point], other: Point) -> None:
    """Let the last point meet another half way."""
    last = points[-1]
    if dist(last, other) > 0:
        points[-1] = ((last[0] + other[0]) / 2, (last[1] + other[1]) / 2)


def _most(words: Sequence[str]) -> str:
    """Return the commonest, of equals the first."""
    return Counter(words).most_common(1)[0][0]
