"""Parts of a problem that windows hold together: a clash within one is found without the rest."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.first import is_stuck
from armorplan.schedule.problem import Problem

_MOST = 40
"""Of more activities at once a conflict is no quicker to find than in the whole."""
_OF_LAGS = frozenset((Kind.WINDOW, Kind.WAIT))


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A few activities with all that is asked of them alone.

    What has no plan here has none in the whole: it asks for more.

    Attributes:
        lags, rules, holds: which of the whole problem's each of the part's is.
    """

    problem: Problem
    lags: tuple[int, ...]
    rules: tuple[int, ...]
    holds: tuple[int, ...]

    def in_whole(self, claim: Claim) -> Claim:
        """Return a claim of the part as one of the whole problem."""
        if claim.at < 0:
            return claim
        if claim.kind in _OF_LAGS:
            return replace(claim, at=self.lags[claim.at])
        return replace(claim, at=(self.rules if claim.kind is Kind.LAST else self.holds)[claim.at])


def stuck_parts(problem: Problem) -> Iterator[Part]:
    """Yield the parts that no serial plan is found for, small ones first: no proof that none is."""
    groups = {frozenset(group) for group in (*_by_windows(problem), _pinned(problem))}
    near = {g for g in groups if 1 < len(g) <= min(_MOST, len(problem.activities) - 1)}
    if len(problem.jobs) > 1:  # Of one build alone a conflict is found sooner than of all.
        near |= {frozenset(job.activities) for job in problem.jobs}
    for names in sorted(near, key=lambda g: (len(g), sorted(g))):
        part = _part(problem, names)
        if is_stuck(part.problem):
            yield part


def _pinned(problem: Problem) -> AbstractSet[str]:
    free = (a for a in problem.activities if a.fixed_start_min is None)
    return {a.id for a in free if a.latest_start_min is not None}


def _by_windows(problem: Problem) -> Iterator[AbstractSet[str]]:
    """Yield the activities that windows lead to from one another."""
    group_of: dict[str, set[str]] = {a.id: {a.id} for a in problem.activities}
    for lag in problem.lags:
        one, other = group_of[lag.first], group_of[lag.then]
        if lag.is_window and one is not other:
            one |= other
            group_of |= dict.fromkeys(other, one)
    yield from _distinct(group_of)


def _distinct(group_of: Mapping[str, set[str]]) -> Iterator[AbstractSet[str]]:
    yield from {id(group): group for group in group_of.values()}.values()


def _part(problem: Problem, names: AbstractSet[str]) -> Part:
    lags = [at for at, g in enumerate(problem.lags) if {g.first, g.then} <= names]
    rules = [at for at, r in enumerate(problem.before_last) if r.of | {r.first} <= names]
    holds = [at for at, h in enumerate(problem.holds) if {h.first, *h.until} <= names]
    alone = replace(
        problem,
        activities=tuple(a for a in problem.activities if a.id in names),
        lags=tuple(problem.lags[at] for at in lags),
        before_last=tuple(problem.before_last[at] for at in rules),
        holds=tuple(problem.holds[at] for at in holds),
        jobs=(),
    )
    return Part(problem=alone, lags=tuple(lags), rules=tuple(rules), holds=tuple(holds))
