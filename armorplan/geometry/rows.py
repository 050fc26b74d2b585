"""Rows that meet: the spacing of a seam's holes, neighbour by neighbour.

Only spacing is judged. Rows of unlike curvature are what draws leather into shape. A slot that a
joint slides in takes any spacing within its travel, and is left out. A part that every joint of a
seam passes twice has two rows, which close it on itself.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, pairwise
from math import dist
from typing import NamedTuple

from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern

MISFIT_MM = 0.5
"""Up to here punch and leather make up the difference (common practice, no source)."""
BAD_MISFIT_MM = 1.0
"""Beyond here the slack of two holes no longer does: 0.25–0.38 mm each round the shank is the
fastener makers' clearance, and the layers buckle between the rivets."""
_TWICE = 2
REMEDY = (
    "In the drawing move one of them by {:.1f} mm along the row; in leather already cut make it "
    "oval, plug it, hide it under a cap, or leave it."
)


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


def spans_mm(here: Rung, beyond: Rung) -> dict[Row, float]:
    """Return how far the holes of two joints lie apart in mm, row by row."""
    return {row: _apart(here[row], beyond[row]) for row in here if row in beyond}


def where(pattern: Pattern, row: Row, *rungs: Rung) -> str:
    """Name a row: its part, and where the part has two rows the holes."""
    name = pattern.part(row.part).name
    if all(Row(row.part, 1 - row.nth) not in each for each in rungs):
        return name
    holes = " and ".join(f"'{each[row].id}'" for each in rungs)
    return f"{name} between {holes}"


def _misfit(seam: Seam, number: int, pattern: Pattern, pair: tuple[Rung, Rung]) -> Finding | None:
    spans = spans_mm(*pair)
    if not spans:
        return None
    far, near = max(spans, key=spans.__getitem__), min(spans, key=spans.__getitem__)
    miss_mm = spans[far] - spans[near]
    if miss_mm <= MISFIT_MM:
        return None
    return Finding(
        code="row-misfit",
        severity=Severity.ERROR if miss_mm > BAD_MISFIT_MM else Severity.WARNING,
        text=(
            f"Holes {number} and {number + 1} of '{seam.name}' are {spans[far]:.1f} mm apart on "
            f"{where(pattern, far, *pair)} but {spans[near]:.1f} mm on "
            f"{where(pattern, near, *pair)}: they miss by {miss_mm:.1f} mm."
        ),
        remedy=REMEDY.format(miss_mm),
        about=(
            seam.id,
            *seam.joints[number - 1 : number + 1],
            *dict.fromkeys((far.part, near.part)),
        ),
    )


def _swapped(pattern: Pattern, seam: Seam) -> set[int]:
    """Return the joints of a seam in which two parts lie the other way round than in most."""
    orders: dict[tuple[str, str], dict[int, bool]] = {}
    for at, joint in enumerate(seam.joints):
        passed = pattern.stack_parts(joint)
        once = [part for part in passed if passed.count(part) == 1]
        for outer, inner in combinations(once, 2):
            key = (min(outer, inner), max(outer, inner))
            orders.setdefault(key, {})[at] = outer > inner
    return {at for over in orders.values() for at in fewer(over)}


def _other_way(pattern: Pattern, seam: Seam, joint_id: str) -> Finding:
    stack = pattern.joint(joint_id).stack
    listed = ", ".join(f'"{hole}"' for hole in stack)
    return Finding(
        code="joint-other-way-round",
        severity=Severity.WARNING,
        text=f"Joint '{joint_id}' of '{seam.name}' lies the other way round than its neighbours: "
        f"its stack is {listed}, the outermost first.",
        remedy="Write its layers in the order of the others, unless the parts are woven there.",
        about=(seam.id, joint_id),
    )


def row_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield neighbours in a seam whose spacing differs between its layers, and joints turned over."""
    for seam in pattern.seams:
        rungs, turned = aligned([rung(pattern, joint) for joint in seam.joints])
        for number, pair in enumerate(pairwise(rungs), start=1):
            found = _misfit(seam, number, pattern, pair)
            if found is not None:
                yield found
        for at in sorted({*turned, *_swapped(pattern, seam)}):
            yield _other_way(pattern, seam, seam.joints[at])
