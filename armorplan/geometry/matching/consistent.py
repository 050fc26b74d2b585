"""Which matches can be true together: no hole is used twice, and as much as can be speaks for them."""

from collections import defaultdict
from collections.abc import Sequence

from armorplan.geometry.matching.model import RowMatch

Holed = tuple[str, str]
"""A hole of a part: ids of both, since hole ids are unique in a part only."""
_HARDLY = 0.01
_HOLE = 0.2
_SECONDS = 1.0


def holes_of(match: RowMatch) -> frozenset[Holed]:
    """Return all holes that a match uses, with their parts."""
    ones = {(match.first, one) for one, _ in match.pairs}
    return frozenset(ones | {(match.second, other) for _, other in match.pairs})


def consistent(matches: Sequence[RowMatch]) -> tuple[RowMatch, ...]:
    """Return the set of matches for which most speaks, each hole used once, in the order given.

    A match counts by the logarithm of how likely it is, over that of what is hardly worth a look;
    and its holes count a little, so that one long row beats two short stretches of it.
    """
    from math import log

    worth = [
        max(log(max(match.likely, _HARDLY) / _HARDLY), 0.0) + _HOLE * len(match.pairs)
        for match in matches
    ]
    chosen = best_set([holes_of(match) for match in matches], worth)
    return tuple(match for at, match in enumerate(matches) if at in chosen)


def best_set(holes: Sequence[frozenset[Holed]], worth: Sequence[float]) -> frozenset[int]:
    """Return the numbers of the sets of holes that are worth most together, no hole in two.

    Solved as a set packing; where that takes too long, the best that was found.
    """
    import numpy as np
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    users: dict[Holed, list[int]] = defaultdict(list)
    for at, held in enumerate(holes):
        for hole in held:
            users[hole].append(at)
    shared = sorted({tuple(each) for each in users.values() if len(each) > 1})
    if not shared:
        return frozenset(at for at, each in enumerate(worth) if each > 0)
    rows = [number for number, each in enumerate(shared) for _ in each]
    columns = [at for each in shared for at in each]
    once = csr_array((np.ones(len(rows)), (rows, columns)), shape=(len(shared), len(holes)))
    solved = milp(
        -np.array(worth),
        integrality=np.ones(len(holes), dtype=np.int64),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(once, ub=np.ones(len(shared))),
        options={"time_limit": _SECONDS},
    )
    if solved.x is None:
        return _one_after_the_other(holes, worth)
    return frozenset(np.flatnonzero(solved.x > 1 / 2).tolist())


def _one_after_the_other(
    holes: Sequence[frozenset[Holed]], worth: Sequence[float]
) -> frozenset[int]:
    used: set[Holed] = set()
    chosen = set()
    for at in sorted(range(len(holes)), key=lambda each: -worth[each]):
        if worth[at] > 0 and used.isdisjoint(holes[at]):
            chosen.add(at)
            used |= holes[at]
    return frozenset(chosen)
