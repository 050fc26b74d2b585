"""Which minutes an activity can start at, as the hours alone say it; the solver's domains."""

from collections.abc import Iterable

from armorplan.schedule.calendars import merged
from armorplan.schedule.problem import Activity, Problem
from armorplan.schedule.spans import last_start_ending_by
from armorplan.solving.model import Range

ByPerson = dict[str | None, tuple[Range, ...]]
"""Starts by who does it; ``None`` for what time alone does, or nobody can."""


def starts_of(problem: Problem, most_min: int) -> dict[str, ByPerson]:
    """Return the starts of each activity that is not fixed, everything ending by ``most_min``."""
    windows = {w.id: w.windows for w in problem.workers}
    found: dict[str, ByPerson] = {}
    for activity in problem.activities:
        if activity.fixed_start_min is not None:
            continue
        floor = max(0, activity.earliest_min)
        found[activity.id] = {None: ((floor, last_start_ending_by(activity, most_min)),)}
        if activity.people:
            found[activity.id] = {
                who: ranges
                for who in activity.people
                if (ranges := _in_hours(activity, windows.get(who, ()), floor, most_min))
            }
    return found


def _in_hours(
    activity: Activity, windows: Iterable[Range], floor: int, most_min: int
) -> tuple[Range, ...]:
    ranges = [
        (max(begin, floor), last_start_ending_by(activity, min(end, most_min)))
        for begin, end in windows
    ]
    return tuple(r for r in ranges if r[0] <= r[1])


def begun_by_hands(problem: Problem) -> dict[str, str]:
    """Return what goes by a table and begins as hands come off something, with that something."""
    by_id = {a.id: a for a in problem.activities}
    return {
        lag.then: lag.first
        for lag in problem.lags
        if lag.min_lag == lag.max_lag == 0
        and by_id[lag.then].table is not None
        and not by_id[lag.then].people
        and by_id[lag.first].people
        and by_id[lag.first].table is None
        and by_id[lag.first].fixed_start_min is None
        and by_id[lag.then].fixed_start_min is None
    }


def union(parts: Iterable[tuple[Range, ...]]) -> tuple[Range, ...]:
    """Return inclusive ranges as one ascending union."""
    joined = merged((low, high + 1) for ranges in parts for low, high in ranges)
    return tuple((low, high - 1) for low, high in joined)
