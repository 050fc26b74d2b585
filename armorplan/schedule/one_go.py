"""Steps done together follow one another without a gap, where the hours allow it."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from armorplan.relations.model import Relation, Together
from armorplan.schedule.activity import Activity
from armorplan.schedule.first import is_stuck
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.problem import Lag, Problem
from armorplan.schedule.sittings import step_of

_Pair = tuple[str, str]


def without_gaps(problem: Problem, relations: Iterable[Relation]) -> Problem:
    """Let the steps of each 'together' start as soon as the one before them ends.

    A plan may have to break off where hours end or a wait lies between; to be left without a plan
    would be worse. So a group that fits no stretch of hours is let go, and so is what makes the
    serial plan impossible. Inside a group the order is the chosen one; what time alone does needs
    nobody, and nobody's hands are taken away by it: it is passed over.
    """
    by_id = {a.id: a for a in problem.activities}
    groups = [
        pairs
        for relation in relations
        if isinstance(relation, Together)
        and (pairs := _pairs(problem, [by_id[s] for s in sorted(relation.of) if s in by_id]))
    ]
    if not groups or is_stuck(problem):
        return problem
    kept = kept_groups(groups, lambda tried: not is_stuck(_tightened(problem, tried)))
    return _tightened(problem, kept)


def _pairs(problem: Problem, members: list[Activity]) -> list[_Pair]:
    """Return which activity follows which; nothing where they fit no stretch of hours."""
    by_hand = [a for a in members if a.people and a.fixed_end_min is None]
    by_hand.sort(key=lambda a: a.priority)
    longest = max((end - start for w in problem.workers for start, end in w.windows), default=0)
    if sum(a.minutes for a in by_hand) > longest:
        return []
    return [(one.id, other.id) for one, other in pairwise(by_hand)]


def _tightened(problem: Problem, groups: Iterable[list[_Pair]]) -> Problem:
    pairs = {pair for group in groups for pair in group}
    lags = []
    for lag in problem.lags:
        if (step_of(lag.first), lag.then) in pairs:
            pairs.discard((step_of(lag.first), lag.then))
            # What the air has to do first is no gap that hands could close.
            waits = lag.opens is not None
            lags.append(lag if waits else replace(lag, max_lag=max(0, lag.min_lag)))
        else:
            lags.append(lag)
    lags += [Lag(first=first, then=then, max_lag=0) for first, then in sorted(pairs)]
    return replace(problem, lags=tuple(lags))
