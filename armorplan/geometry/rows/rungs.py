"""Which holes make a row: those of a part that joints side by side pass.

A slot that a joint slides in takes any spacing within its travel, and is left out. A part that
every joint passes twice has two rows, which close it on itself.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import dist
from typing import NamedTuple

from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

_TWICE = 2


class Row(NamedTuple):
    """Which holes of a joint's stack belong together along a seam: a part, and the how-manieth."""

    part: str
    nth: int = 0


Rung = dict[Row, Hole]
"""The round holes of one joint, each in the row that it belongs to."""


def rung(pattern: Pattern, joint_id: str) -> Rung:
    """Return the round hole of each part that a joint passes once, and both of one passed twice."""
    holes = [pattern.hole(hole) for hole in pattern.joint(joint_id).stack]
    passed = [hole.part for hole in holes]
    found: Rung = {}
    for part in dict.fromkeys(passed):
        own = [hole for hole in holes if hole.part == part]
        if len(own) <= _TWICE and not any(hole.travel_mm for hole in own):
            found |= {Row(part, nth): hole for nth, hole in enumerate(own)}
    return found


def _doubles(rungs: Sequence[Rung]) -> list[str]:
    """Return the parts that every joint passes twice; where some pass it once, rows are not told."""
    parts = dict.fromkeys(row.part for each in rungs for row in each if row.nth)
    return [p for p in parts if all(Row(p, 0) not in r or Row(p, 1) in r for r in rungs)]


def aligned(rungs: Sequence[Rung]) -> tuple[list[Rung], list[int]]:
    """Return the rungs with both rows of a part in one sense, and which lay the other way round.

    Holes of a row lie nearer to each other straight than crosswise: the diagonals of a convex
    quadrilateral are together longer than two opposite sides.
    """
    doubles = _doubles(rungs)
    found = [{r: h for r, h in each.items() if not r.nth or r.part in doubles} for each in rungs]
    found = [
        {r: h for r, h in e.items() if r.part in doubles or Row(r.part, 1) not in full}
        for e, full in zip(found, rungs, strict=True)
    ]
    turned: set[int] = set()
    for part in doubles:
        one, other = Row(part, 0), Row(part, 1)
        at = [i for i, each in enumerate(found) if other in each]
        over = {at[0]: False}
        for before, here in pairwise(at):
            last, now = found[before], found[here]
            straight = _apart(last[one], now[one]) + _apart(last[other], now[other])
            crossed = _apart(last[one], now[other]) + _apart(last[other], now[one])
            if over.setdefault(here, crossed < straight):
                now[one], now[other] = now[other], now[one]
        turned.update(fewer(over))
    return found, sorted(turned)


def fewer(over: dict[int, bool]) -> Iterable[int]:
    """Return those that lie unlike most; none where they are many: parts may be woven on purpose."""
    ways = [[at for at, way in over.items() if way is each] for each in (True, False)]
    few, most = sorted(ways, key=len)
    return few if len(few) * _TWICE <= len(most) else ()


def _apart(one: Hole, other: Hole) -> float:
    return dist(one.centre, other.centre)
