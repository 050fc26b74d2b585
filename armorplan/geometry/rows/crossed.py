"""A row that crosses itself: its stacks hold two holes exchanged, or a stretch of them backwards.

A slip of the pen looks like many holes out of place. Where the very same holes, told in another
order, fit the other row spacing by spacing, the leather is right and the stacks are wrong.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, takewhile

from armorplan.geometry.rows.bundles import Bundle, Run, bundles, runs
from armorplan.geometry.rows.rungs import Row
from armorplan.geometry.told import quoted
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Hole
from armorplan.pattern.pattern import Pattern
from armorplan.workshop.constants import Constants

CROSSED = "row-crosses-itself"
_MOST = 40
"""Beside more places that miss, no two holes account for it."""
_LEAST = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossed:
    """Holes of one row that fit in another order.

    Attributes:
        row: whose holes they are.
        at: the place of the first of them; ``until``: of the last.
        right: all holes of the row as they fit.
        backwards: all from the first to the last are in reverse; else the two are exchanged.
    """

    run: Run
    row: Row
    at: int
    until: int
    right: tuple[Hole, ...]
    backwards: bool

    @property
    def moved(self) -> tuple[int, ...]:
        """Places at which another hole belongs."""
        here = self.run.holes(self.row)
        return tuple(at for at, hole in enumerate(self.right) if hole.id != here[at].id)


def crossed_in(run: Run, by_mm: Sequence[float], constants: Constants) -> Crossed | None:
    """Return the holes of a run that fit in another order; ``None`` where no such order does.

    Args:
        run: two rows that are held together.
        by_mm: what each spacing of the second may be longer for the bend.
        constants: those of the bench.
    """
    misses = _misses(run, by_mm)
    if len(run.joints) < _LEAST or max(misses, default=0.0) <= constants.bad_misfit.value:
        return None
    out = [at for at, miss in enumerate(misses) if miss > constants.misfit.value]
    places = sorted({*out, *(at + 1 for at in out)})
    if len(places) > _MOST:
        return None
    fits = [
        found
        for found in _orders(run, places)
        if max(_misses(_with(found), by_mm)) <= constants.misfit.value
        and _length_mm(found) < sum(run.spans[found.row != run.first])
    ]
    return min(fits, key=lambda each: (len(each.moved), _length_mm(each)), default=None)


def _misses(run: Run, by_mm: Sequence[float]) -> list[float]:
    first, second = run.spans
    return [abs(b - a + by) for a, b, by in zip(first, second, by_mm, strict=True)]


def _orders(run: Run, places: Sequence[int]) -> Iterator[Crossed]:
    for row in (run.second, run.first):
        holes = run.holes(row)
        for at, until in combinations(places, 2):
            between = holes[at + 1 : until]
            for backwards in (False, True) if between[1:] else (False,):
                inner = between[::-1] if backwards else between
                right = (*holes[:at], holes[until], *inner, holes[at], *holes[until + 1 :])
                # The whole row backwards is another matter: it is drawn turned over.
                if right != holes[::-1]:
                    yield Crossed(
                        run=run, row=row, at=at, until=until, right=right, backwards=backwards
                    )


def _with(found: Crossed) -> Run:
    if found.row == found.run.first:
        return replace(found.run, on_first=found.right)
    return replace(found.run, on_second=found.right)


def _length_mm(found: Crossed) -> float:
    return sum(_with(found).spans[found.row != found.run.first])


def crossed_finding(pattern: Pattern, bundle: Bundle, found: Crossed) -> Finding:
    """Return what a maker is told: which holes to exchange in which stacks, and to cut nothing."""
    run, here = found.run, found.run.holes(found.row)
    joints = quoted((run.joints[found.at], run.joints[found.until]))
    holes = quoted((here[found.at].id, here[found.until].id))
    name = pattern.part(found.row.part).name
    if found.backwards:
        what = f"{holes[0]} to {holes[1]} of {name} look written backwards in their stacks"
        write = ", ".join(f"'{found.right[at].id}' into '{run.joints[at]}'" for at in found.moved)
    else:
        what = f"{holes[0]} and {holes[1]} of {name} look exchanged in their stacks"
        write = f"{holes[1]} into {joints[0]} and {holes[0]} into {joints[1]}"
    return Finding(
        code=CROSSED,
        severity=Severity.ERROR,
        text=f"'{bundle.name}' crosses itself between {joints[0]} and {joints[1]}: {what}. The other "
        "way round all spacings of both rows agree. How far tools get in is reckoned that way round.",
        remedy=f"In pattern.toml write {write}. The holes lie where they should: cut and punch nothing "
        "for it.",
        about=(
            *((bundle.id,) * bundle.sewn),
            *(run.joints[at] for at in found.moved),
            found.row.part,
            *(here[at].id for at in found.moved),
        ),
    )


def uncrossed(pattern: Pattern, constants: Constants) -> Pattern:
    """Return a pattern with the holes of rows that cross themselves in the stacks they fit in."""
    stacks: dict[str, tuple[str, ...]] = {}
    for bundle in takewhile(lambda each: each.sewn, bundles(pattern)):
        for run in runs(pattern, bundle):
            found = crossed_in(run, (0.0,) * (len(run.joints) - 1), constants)
            if found is not None:
                stacks |= _stacks(pattern, found)
    if not stacks:
        return pattern
    joints = (
        replace(each, stack=stacks[each.id]) if each.id in stacks else each
        for each in pattern.joints
    )
    return replace(pattern, joints=tuple(joints))


def _stacks(pattern: Pattern, found: Crossed) -> dict[str, tuple[str, ...]]:
    here = found.run.holes(found.row)
    return {
        joint.id: tuple(
            found.right[at].id if hole == here[at].id else hole for hole in joint.stack
        )
        for at in found.moved
        for joint in [pattern.joint(found.run.joints[at])]
    }
