"""Holes and slots of a growing part that belong to something that does not grow: they move together.

A boss, a keeper's two slots, the two rivets of a strap's end: what meets them keeps its spacing.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from itertools import pairwise
from math import dist

from armorplan.geometry.sizing.factors import LENGTHENED
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

END_MM = 45.0
"""Rivets of a strap nearer to each other than this hold one end of it (common practice, no source)."""


def clusters(pattern: Pattern, growing: Collection[str]) -> tuple[tuple[str, ...], ...]:
    """Return the ids of holes and slots that move as one; what moves alone is left out.

    Args:
        pattern: as it was drawn.
        growing: ids of plates that grow; what is none of them keeps its spacing.
    """
    return _joined(group for group in _groups(pattern, growing) if len(group) > 1)


def shared_with(
    pattern: Pattern, growing: Collection[str]
) -> Mapping[tuple[str, str], list[Hole]]:
    """Return the holes of growing plates by the plate and the part that they hold to it.

    Only what a joint passes once in each.
    """
    found: dict[tuple[str, str], list[Hole]] = defaultdict(list)
    for joint in pattern.joints:
        holes = [pattern.hole(hole) for hole in joint.stack]
        for hole in holes:
            for part in {other.part for other in holes} - {hole.part}:
                if hole.part in growing and part not in growing:
                    found[hole.part, part].append(hole)
    return found


def _groups(pattern: Pattern, growing: Collection[str]) -> Iterator[list[str]]:
    for (_, other), holes in sorted(shared_with(pattern, growing).items()):
        if pattern.part(other).kind in LENGTHENED:
            yield from _ends(holes)
        else:
            yield [hole.id for hole in holes]
    for thread in pattern.threads:
        by_part: dict[str, list[str]] = defaultdict(list)
        for name in thread.through:
            if pattern.has_slot(name) and pattern.slot(name).part in growing:
                by_part[pattern.slot(name).part].append(name)
        yield from by_part.values()


def _ends(holes: list[Hole]) -> Iterator[list[str]]:
    """Yield the rivets of a strap on one plate, end by end."""
    group = [holes[0].id]
    for before, here in pairwise(holes):
        if dist(before.centre, here.centre) > END_MM:
            yield group
            group = []
        group.append(here.id)
    yield group


def _joined(groups: Iterable[list[str]]) -> tuple[tuple[str, ...], ...]:
    """Return groups of which no two have something in common."""
    found: list[dict[str, None]] = []
    for group in groups:
        touched = [one for one in found if not one.keys().isdisjoint(group)]
        whole = dict.fromkeys(name for one in (*touched, dict.fromkeys(group)) for name in one)
        found = [one for one in found if one not in touched] + [whole]
    return tuple(tuple(one) for one in found)
