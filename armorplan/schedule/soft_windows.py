"""Windows that are only wished for give way where no plan keeps them: a long weekend, short hours."""

from collections.abc import Iterable
from dataclasses import replace

from armorplan.relations.model import Before, Relation
from armorplan.schedule.first import is_stuck
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.problem import Lag, Problem
from armorplan.schedule.sittings import step_of


def without_vain_wishes(problem: Problem, relations: Iterable[Relation]) -> Problem:
    """Let go of the latest times that relations only steer to and that leave no serial plan.

    What was missed of them has a remedy that costs minutes (a coat is scuffed before the next
    one); to be left without a plan would cost more. What binds too stays.

    Args:
        problem: with its sittings laid.
        relations: those the plan is to keep.
    """
    timed = [r for r in relations if isinstance(r, Before) and r.max_lag_min is not None]
    bound = {(r.first, r.then) for r in timed if r.reason.binds}
    wished = {(r.first, r.then) for r in timed} - bound
    soft = [lag for lag in problem.lags if (step_of(lag.first), lag.then) in wished]
    if not soft or not is_stuck(problem):
        return problem
    if is_stuck(_let_go(problem, soft)):  # Planning says what else is in the way.
        return problem
    kept = kept_groups(soft, lambda tried: not is_stuck(_let_go(problem, _others(soft, tried))))
    return _let_go(problem, _others(soft, kept))


def _others(soft: list[Lag], kept: Iterable[Lag]) -> list[Lag]:
    staying = set(kept)
    return [lag for lag in soft if lag not in staying]


def _let_go(problem: Problem, lags: Iterable[Lag]) -> Problem:
    gone = set(lags)
    free = (replace(g, max_lag=None, closes=None) if g in gone else g for g in problem.lags)
    return replace(problem, lags=tuple(free))
