"""Windows that are only wished for give way where no plan keeps them: a long weekend, short hours."""

from dataclasses import replace

from armorplan.schedule.first import is_stuck
from armorplan.schedule.problem import Problem


def without_vain_wishes(problem: Problem) -> Problem:
    """Let go of the latest times that are only wished for, where they leave no serial plan.

    What was missed of them has a remedy that costs minutes (a coat is scuffed before the next
    one); to be left without a plan would cost more. All of them go: to seek those that could stay
    would take as long as a plan does.

    Args:
        problem: with its sittings laid.
    """
    if not any(lag.wish for lag in problem.lags) or not is_stuck(problem):
        return problem
    free = (replace(g, max_lag=None, closes=None) if g.wish else g for g in problem.lags)
    return replace(problem, lags=tuple(free))
