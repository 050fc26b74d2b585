"""A problem without some of its activities: as if they had never been asked for."""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.schedule.pinning import pinned_at
from armorplan.schedule.problem import Placed, Problem


def trimmed(
    problem: Problem,
    lies: Mapping[str, Placed],
    *,
    free: frozenset[str],
    pinned: frozenset[str],
) -> Problem:
    """Return the problem of what is free and what is pinned where it lies; the rest is left out.

    What a relation asks of something left out is left out with it.
    """
    there = free | pinned
    holds = (
        replace(h, until=tuple(i for i in h.until if i in there))
        for h in problem.holds
        if h.first in there
    )
    jobs = (
        replace(j, activities=tuple(i for i in j.activities if i in there)) for j in problem.jobs
    )
    return replace(
        problem,
        activities=tuple(
            a if a.id in free else pinned_at(a, lies[a.id])
            for a in problem.activities
            if a.id in there
        ),
        lags=tuple(g for g in problem.lags if g.first in there and g.then in there),
        before_last=tuple(r for r in problem.before_last if there >= {r.first, *r.of}),
        holds=tuple(h for h in holds if h.until),
        jobs=tuple(j for j in jobs if j.activities),
    )
