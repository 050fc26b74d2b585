"""More work than there are hours: no plan is possible, whatever the order."""

from armorplan.kernel.units import DAY_MIN, HOUR_MIN
from armorplan.schedule.burdens import groups_of, hands_minutes, hours_of
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Problem


def overload(problem: Problem, naming: Naming) -> str:
    """Return whose hours do not suffice for what only they can do, with the numbers; empty: none.

    Counted are the least minutes of each step, of dips without setting up; what is fixed is not.
    """
    free = [a for a in problem.activities if a.fixed_start_min is None]
    for group in groups_of(problem, free):
        asked = sum(hands_minutes(a, group) for a in free)
        there = hours_of(problem, group).until(problem.horizon_min)
        if asked > there:
            names = " and ".join(naming.of(who) for who in sorted(group)) or "anybody"
            return (
                f"There is more work than hours: what {names} alone can do takes "
                f"{_hours(asked)} at the least, and within {_span(problem.horizon_min)} there "
                f"are {_hours(there)}."
            )
    return ""


def _span(minutes: int) -> str:
    return f"{minutes // DAY_MIN} days" if minutes >= 2 * DAY_MIN else f"{minutes} min"


def _hours(minutes: int) -> str:
    hours, rest = divmod(minutes, HOUR_MIN)
    return f"{hours:,} h {rest} min" if rest else f"{hours:,} h"
