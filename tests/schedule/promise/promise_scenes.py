"""Small plans built by hand, to be gone through many times."""

from datetime import UTC, datetime

import numpy as np

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Lag, Placed, Plan, Problem, Status, Worker
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import policy_of

MONDAY_AT = datetime(2026, 11, 30, tzinfo=UTC)
DAY = 1440
DAYTIME = tuple((d * DAY + 480, d * DAY + 1020) for d in range(30))
MAKER = Worker(id="maker", windows=DAYTIME)


def hands(name, minutes, **more):
    return Activity(id=name, minutes=minutes, people=("maker",), **more)


def after(first, then, low=0, high=None, **more):
    return Lag(first=first, then=then, min_lag=low, max_lag=high, **more)


def problem_of(activities, lags=(), workers=(MAKER,), **more):
    return Problem(
        origin_at=MONDAY_AT,
        horizon_min=30 * DAY,
        activities=tuple(activities),
        lags=tuple(lags),
        workers=tuple(workers),
        **more,
    )


def plan_of(**spans):
    """Make a plan of ``name=(start, end, who)`` or ``name=(start, end, who, mode)``."""
    return Plan(
        status=Status.GOOD,
        placed=tuple(
            Placed(id=name, start_min=s[0], end_min=s[1], who=s[2], mode=(*s, "")[3])
            for name, s in spans.items()
        ),
    )


def gone(problem, plan, runs=1, **factors):
    """Go through a plan with these factors; return starts and ends of the first run by activity."""
    given = {name: np.full(runs, float(f)) for name, f in factors.items()}
    parts = policy_of(problem, plan)
    going = Going(parts, given, runs=runs)
    return {
        m.activity.id: (float(going.starts[k][0]), float(going.ends[k][0]))
        for k, part in enumerate(parts)
        for m in part.work.members
    }
