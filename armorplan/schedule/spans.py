"""How long an activity takes from a start, and which starts reach an end: constant or by table."""

from bisect import bisect_right

from armorplan.schedule.activity import Activity
from armorplan.schedule.monotone import first_holding
from armorplan.schedule.problem import Placed, Problem


def end_from(activity: Activity, start_min: int) -> int:
    """Return the minute an activity ends that starts at ``start_min``."""
    if activity.table is None:
        return start_min + activity.minutes
    return activity.table.ready_at(start_min)


def first_allowed(activity: Activity, start_min: int) -> int:
    """Return the first start from this one on that ends outside what is shut for it."""
    end = end_from(activity, start_min)
    at = bisect_right([shut_from for shut_from, _ in activity.ends_outside], end) - 1
    if at < 0 or end >= activity.ends_outside[at][1]:
        return start_min
    return first_start_ending_from(activity, activity.ends_outside[at][1])


def first_start_ending_from(activity: Activity, end_min: int) -> int:
    """Return the first start, 0 or later for a table, that ends at ``end_min`` or after."""
    if activity.table is None:
        return end_min - activity.minutes
    return first_holding(lambda start: end_from(activity, start) >= end_min, 0, max(end_min, 0))


def last_start_ending_by(activity: Activity, end_min: int) -> int:
    """Return the last start that ends by ``end_min``; below 0 where no start of a table does."""
    if activity.table is None:
        return end_min - activity.minutes
    return (
        first_holding(lambda start: end_from(activity, start) > end_min, 0, max(end_min + 1, 0))
        - 1
    )


def least_minutes(activity: Activity) -> int:
    """Return the shortest it can take, whenever it starts."""
    return activity.minutes if activity.table is None else activity.table.shortest_min


def most_minutes(activity: Activity) -> int:
    """Return the longest it can take, whenever it starts."""
    return activity.minutes if activity.table is None else activity.table.longest_min


def placed_by_history(problem: Problem) -> tuple[Placed, ...]:
    """Return where the fixed activities lie, in order of their starts.

    An activity that needs a person and is fixed without one goes to the first of its people whose
    hands are free of other fixed work, and to the first of them where nobody's are: several
    timers may well run at once, and what happened is not refused.
    """
    fixed = [a for a in problem.activities if a.fixed_start_min is not None]
    busy: dict[str, int] = {}
    placed = []
    for activity in sorted(fixed, key=lambda a: (a.fixed_start_min or 0, a.id)):
        start = activity.fixed_start_min or 0
        end = activity.fixed_end_min
        end = end_from(activity, start) if end is None else end
        idle = [p for p in activity.people if busy.get(p, start) <= start]
        who = next(iter([*idle, *activity.people]), None)
        if who is not None:
            busy[who] = max(end, busy.get(who, end))
        placed.append(Placed(id=activity.id, start_min=start, end_min=end, who=who))
    return tuple(placed)
