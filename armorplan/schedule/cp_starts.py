"""Which minutes an activity can start at, as hours and lags say it; the solver's domains."""

from collections.abc import Iterable, Mapping

from armorplan.schedule.activity import Activity
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.calendars import merged
from armorplan.schedule.critical import critical_times
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import Problem
from armorplan.schedule.spans import last_start_ending_by
from armorplan.solving.model import Range

ByPerson = dict[str | None, tuple[Range, ...]]
"""Starts by who does it; ``None`` for what time alone does, or nobody can."""


def starts_of(problem: Problem, most_min: int) -> dict[str, ByPerson]:
    """Return the starts of each activity that is not fixed, everything ending by ``most_min``."""
    windows = {w.id: w.windows for w in problem.workers}
    spans = _spans(problem, most_min)
    found: dict[str, ByPerson] = {}
    for activity in problem.activities:
        if activity.fixed_start_min is None:
            wide = max(0, activity.earliest_min), last_start_ending_by(activity, most_min)
            low, high = spans.get(activity.id, wide)
            narrow = max(low, wide[0]), min(high, wide[1])
            # Where no start is left there is no plan; that is for the solver to prove.
            by_span = (_by_person(activity, windows, span) for span in (narrow, wide))
            found[activity.id] = next((starts for starts in by_span if starts), {})
    return found


def _by_person(
    activity: Activity, windows: Mapping[str, Iterable[Range]], span: Range
) -> ByPerson:
    """Return the starts within a span by who does it; empty where there are none."""
    if not activity.people:
        return {None: (span,)} if span[0] <= span[1] else {}
    return {
        who: ranges
        for who in activity.people
        if (ranges := _in_hours(activity, windows.get(who, ()), span))
    }


def _in_hours(activity: Activity, windows: Iterable[Range], span: Range) -> tuple[Range, ...]:
    floor, last = span
    ranges = [
        (max(begin, floor), min(last_start_ending_by(activity, end), last))
        for begin, end in windows
    ]
    return _outside(activity, [r for r in ranges if r[0] <= r[1]])


def _outside(activity: Activity, starts: list[Range]) -> tuple[Range, ...]:
    """Return the starts without those that end within what is shut for an activity."""
    for shut_from, shut_till in activity.ends_outside:
        low, high = shut_from - activity.minutes, shut_till - activity.minutes
        parts = [(a, min(b, low - 1)) for a, b in starts] + [(max(a, high), b) for a, b in starts]
        starts = sorted(r for r in parts if r[0] <= r[1])
    return tuple(starts)


def _spans(problem: Problem, most_min: int) -> dict[str, Range]:
    """Return the first and the last start that the lags leave each activity, where any look-up is.

    So there are fewer cells to look up in; without tables the solver is quicker at it by itself.
    """
    looks_up = any(a.table for a in problem.activities)
    if not looks_up or lag_cycle(problem):
        return {}
    starts = earliest_starts(problem)
    times = critical_times(problem)
    finish = max((t.latest_end_min for t in times), default=0)
    return {t.id: (starts[t.id], most_min - (finish - t.latest_start_min)) for t in times}


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
