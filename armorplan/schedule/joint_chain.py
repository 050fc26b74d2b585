"""Joints of a piece are set in the chosen order, one behind the other."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import pairwise

from armorplan.schedule.first import is_stuck
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.problem import Lag, Problem
from armorplan.schedule.sittings import step_of
from armorplan.steps.model import SETS_JOINT, Work

_WHY = "The joints of a piece are set in the chosen order."


def with_joints_chained(problem: Problem, work: Work, place: Mapping[str, int]) -> Problem:
    """Let the joints of each piece and side follow one another as the chosen order has them.

    A seam is set from one end to the other: in whatever order its joints would end soonest, the
    holes of the last ones would not meet. What has begun is history. Only hands-on work is
    chained, so that the next joint need not wait for glue to dry. Links that leave no serial plan
    are let go: what the leather asks for, and having a plan at all, matter more.

    Args:
        problem: with its sittings laid and missed windows let go.
        work: the steps, by piece and side.
        place: where each step stands in the chosen order; without any nothing is chained.
    """
    free = {a.id for a in problem.activities if a.fixed_start_min is None}
    known = {(lag.first, lag.then) for lag in problem.lags if least_wait(lag) >= 0}
    last_sitting = {step_of(a.id): a.id for a in problem.activities}
    rows: dict[tuple[str, str], list[str]] = {}
    for step in work.of_kind(*SETS_JOINT):
        if step.id in place and step.id in free:
            rows.setdefault((step.piece, step.side), []).append(step.id)
    links = [
        Lag(first=last_sitting[one], then=other, reason=_WHY)
        for row in rows.values()
        for one, other in pairwise(sorted(row, key=place.__getitem__))
        if (last_sitting[one], other) not in known
    ]
    if not links:
        return problem
    chained = _with(problem, links)
    if not is_stuck(chained):
        return chained
    if is_stuck(problem):  # Planning says what is in the way, without the chain.
        return problem
    return _with(problem, kept_groups(links, lambda tried: not is_stuck(_with(problem, tried))))


def _with(problem: Problem, links: Iterable[Lag]) -> Problem:
    return replace(problem, lags=(*problem.lags, *links))
