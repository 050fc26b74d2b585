"""Pivots that a plate's own are held against, to tell which of two lies off: its neighbours', its chain's."""

from collections import defaultdict
from collections.abc import Mapping
from typing import NamedTuple

from armorplan.geometry.lames.links import Link, PairKey
from armorplan.pattern.parts import Hole, Ring


class Around(NamedTuple):
    """Pivots to compare with, the nearest kin first, and the outlines of their plates."""

    tiers: tuple[tuple[Hole, ...], ...]
    outlines: Mapping[str, Ring]


def around(links: Mapping[PairKey, Link]) -> dict[str, Around]:
    """Return for each plate the pivots on the plates beside it, then all of its chain."""
    beside: dict[str, list[Hole]] = defaultdict(list)
    outlines: dict[str, Ring] = {}
    for link in links.values():
        beside[link.inner.part.id] += (link.outer.first, link.outer.second)
        beside[link.outer.part.id] += (link.inner.first, link.inner.second)
        outlines |= {seat.part.id: seat.part.outline for seat in (link.outer, link.inner)}
    found: dict[str, Around] = {}
    for start in sorted(beside):
        if start not in found:
            group = _hangs_together(start, beside)
            chain = tuple(dict.fromkeys(hole for part in group for hole in beside[part]))
            for part in group:
                found[part] = Around(tiers=(tuple(beside[part]), chain), outlines=outlines)
    return found


def _hangs_together(start: str, beside: Mapping[str, list[Hole]]) -> tuple[str, ...]:
    """Return the plates that hang together by their pivots."""
    group, ahead = {start: None}, [start]
    while ahead:
        for hole in beside[ahead.pop()]:
            if hole.part not in group:
                group[hole.part] = None
                ahead.append(hole.part)
    return tuple(group)
