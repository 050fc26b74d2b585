"""Inner leathers after a change of size: between their rivets as long as the bend asks, no wider.

An inner leather is all but straight at the end of the bend. What it lacks there, or has too much, was
drawn on purpose and stays; its rivets go as far apart as the lames carry them now.
"""

from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise
from math import dist

from armorplan.geometry.lames.chains import declared_chains, hung
from armorplan.geometry.lames.leathers import Stretch, stretches
from armorplan.geometry.lames.links import links
from armorplan.geometry.sizing.stretches import Gap, Lengthening, long_way
from armorplan.pattern.parts import Hole, Part, Point
from armorplan.pattern.pattern import Pattern

_KEPT_MM = 3.0
"""So much leather round a hole keeps its shape."""
_LEAST_MM = 1.0


def held_along(
    before: Pattern, after: Pattern, growing: Collection[str]
) -> dict[str, Lengthening]:
    """Return how inner leathers grow, by their ids.

    Args:
        before: as it was drawn.
        after: in its new size, inner leathers grown as their measure has it.
        growing: ids of the parts that follow a measure.
    """
    drawn = {_ends(one): one for one in _all(before)}
    asked: dict[str, dict[tuple[str, str], float]] = {}
    for now in _all(after):
        was = drawn.get(_ends(now))
        if was is None or now.leather.id not in growing:
            continue
        more = now.length_mm + now.short_mm - was.short_mm - was.length_mm
        asked.setdefault(now.leather.id, {})[_ends(now)] = more
    found = {leather: _grown(before.part(leather), more) for leather, more in asked.items()}
    return {leather: stretch for leather, stretch in found.items() if stretch is not None}


def _all(pattern: Pattern) -> Iterator[Stretch]:
    for chain in declared_chains(pattern, hung(pattern, links(pattern))):
        for one in stretches(pattern, chain):
            if one.turn_deg is not None:
                yield one


def _ends(one: Stretch) -> tuple[str, str]:
    return one.upper.leather.id, one.lower.leather.id


def _grown(part: Part, more: Mapping[tuple[str, str], float]) -> Lengthening | None:
    """Return how a leather grows between its rivets; ``None`` where there is no room between them."""
    holes = {hole.id: hole for hole in part.holes}
    way = long_way(part.outline)
    gaps = [_gap(holes[one], holes[other], way, by) for (one, other), by in more.items()]
    if any(gap.end - gap.start + min(gap.by_mm, 0.0) < _LEAST_MM for gap in gaps):
        return None
    gaps.sort(key=lambda gap: gap.start)
    if any(later.start < gap.end for gap, later in pairwise(gaps)):
        return None
    whole = sum(gap.by_mm for gap in gaps)
    return Lengthening(along=way, gaps=tuple(gaps), before_mm=-whole / 2)


def _gap(one: Hole, other: Hole, way: Point, by_mm: float) -> Gap:
    """Return the stretch between two holes; what is asked is asked along the line between them."""
    start, end = sorted(h.centre[0] * way[0] + h.centre[1] * way[1] for h in (one, other))
    apart = dist(one.centre, other.centre)
    share = (end - start) / apart if apart else 1.0
    room = _KEPT_MM + max(one.diameter_mm, other.diameter_mm) / 2
    return Gap(start=start + room, end=end - room, by_mm=by_mm * share)
