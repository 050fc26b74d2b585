"""Rings: parts that seams join to one another round and round."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from armorplan.geometry.rows.bundles import Run
from armorplan.geometry.rows.drawn import centres
from armorplan.geometry.widths import LIMP
from armorplan.pattern.parts import Point
from armorplan.pattern.pattern import Pattern

_LEAST = 2


class Edge(NamedTuple):
    """A seam between two parts, by its longest run."""

    seam: str
    run: Run

    def spots(self, part: str) -> tuple[Point, ...]:
        """Return its row on one of its parts."""
        return centres(self.run.on_first if part == self.run.first.part else self.run.on_second)

    def beyond(self, part: str) -> str:
        """Return the part on its other side."""
        one, other = self.run.first.part, self.run.second.part
        return other if part == one else one


Way = tuple[tuple[str, Edge], ...]
"""The parts of a ring in order, each with the seam that leads on to the next."""


def rings(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> Iterator[Way]:
    """Yield the rings that seams make of two or more stiff parts, each joined to just two others."""
    at = _in_rings(pattern, sewn)
    done: set[str] = set()
    for start in sorted(at):
        if start not in done:
            way = _round(start, at)
            done.update(part for part, _ in way)
            if len(way) >= _LEAST:
                yield way


def _in_rings(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> dict[str, list[Edge]]:
    """Return for each part of a ring its two seams; what hangs on one seam only is left out."""
    at: dict[str, list[Edge]] = defaultdict(list)
    for edge in _seams_between(pattern, sewn):
        for row in (edge.run.first, edge.run.second):
            at[row.part].append(edge)
    ends = [part for part, edges in at.items() if len(edges) == 1]
    while ends:
        part = ends.pop()
        for edge in at.pop(part):
            beyond = edge.beyond(part)
            at[beyond].remove(edge)
            if len(at[beyond]) == 1:
                ends.append(beyond)
    return {part: edges for part, edges in at.items() if len(edges) == _LEAST}


def _seams_between(pattern: Pattern, sewn: Sequence[tuple[str, Run]]) -> Iterable[Edge]:
    """Return the seams between two stiff parts, each with its longest run."""
    longest: dict[tuple[str, ...], Edge] = {}
    for seam, run in sewn:
        one, other = pattern.part(run.first.part), pattern.part(run.second.part)
        if one == other or one.kind in LIMP or other.kind in LIMP:
            continue
        key = (seam, *sorted((one.id, other.id)))
        if key not in longest or len(run.joints) > len(longest[key].run.joints):
            longest[key] = Edge(seam, run)
    return longest.values()


def _round(start: str, at: dict[str, list[Edge]]) -> Way:
    """Return the parts of a ring, each with the seam that leads on; empty where it does not close."""
    way: list[tuple[str, Edge]] = []
    part, edge = start, at[start][0]
    while True:
        way.append((part, edge))
        part = edge.beyond(part)
        if part == start:
            return tuple(way)
        if part not in at or any(part == seen for seen, _ in way):
            return ()
        edge = next(each for each in at[part] if each is not edge)
