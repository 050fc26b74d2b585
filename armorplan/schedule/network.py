"""The lags of a problem as a network of starts, and longest paths in it (Bellman-Ford)."""

from collections import deque
from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.schedule.problem import Activity, EndsBeforeLast, Lag, Problem
from armorplan.schedule.spans import least_minutes, most_minutes

ORIGIN = ""
"""The node of minute 0."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """``head`` starts at least ``minutes`` after ``tail`` starts (fewer than 0: at most before).

    ``said`` is the demand it comes from; ``None`` for what is fixed or has an earliest start.
    """

    tail: str
    head: str
    minutes: int
    said: Lag | EndsBeforeLast | None = None


def arcs_of(problem: Problem) -> tuple[Arc, ...]:
    """Return the arcs of all lags, earliest starts and fixed starts.

    Durations that depend on the start count at their least where they push apart and at their
    most where they allow a gap, so that what the arcs forbid is truly forbidden. Lags between two
    fixed activities are history and not looked at.
    """
    activities = {a.id: a for a in problem.activities}
    fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
    arcs = [arc for a in problem.activities for arc in _own_arcs(a)]
    for lag in problem.lags:
        if lag.first not in fixed or lag.then not in fixed:
            arcs += _lag_arcs(lag, activities[lag.first])
    for rule in problem.before_last:
        if len(rule.of) == 1 and not rule.of | {rule.first} <= fixed:
            (last,) = rule.of
            least = shortest(activities[rule.first])
            arcs.append(Arc(tail=rule.first, head=last, minutes=least, said=rule))
    return tuple(arcs)


def shortest(activity: Activity) -> int:
    """Return the shortest an activity can take; for what is fixed, what it takes."""
    if activity.fixed_start_min is None or activity.fixed_end_min is None:
        return least_minutes(activity)
    return activity.fixed_end_min - activity.fixed_start_min


def _own_arcs(activity: Activity) -> list[Arc]:
    start = activity.fixed_start_min
    if start is None:
        return [Arc(tail=ORIGIN, head=activity.id, minutes=max(0, activity.earliest_min))]
    return [
        Arc(tail=ORIGIN, head=activity.id, minutes=start),
        Arc(tail=activity.id, head=ORIGIN, minutes=-start),
    ]


def _lag_arcs(lag: Lag, first: Activity) -> list[Arc]:
    least = shortest(first)
    arcs = [Arc(tail=lag.first, head=lag.then, minutes=least + lag.min_lag, said=lag)]
    if lag.max_lag is not None:
        most = least if first.fixed_end_min is not None else most_minutes(first)
        arcs.append(Arc(tail=lag.then, head=lag.first, minutes=-most - lag.max_lag, said=lag))
    return arcs


def longest_paths(
    arcs: Iterable[Arc], *, source: str = ORIGIN
) -> tuple[dict[str, int], tuple[Arc, ...]]:
    """Return the longest path from ``source`` to every node reached, or a cycle that has none.

    The second value is empty, or a cycle whose minutes add up to more than 0: its demands cannot
    all be met, and the lengths mean nothing then.
    """
    out: dict[str, list[Arc]] = {}
    for arc in arcs:
        out.setdefault(arc.tail, []).append(arc)
        out.setdefault(arc.head, [])
    length = {source: 0}
    came_by: dict[str, Arc] = {}
    steps = {source: 0}
    waiting, is_waiting = deque([source]), {source}
    while waiting:
        node = waiting.popleft()
        is_waiting.discard(node)
        for arc in out.get(node, ()):
            reached = length[node] + arc.minutes
            if reached <= length.get(arc.head, reached - 1):
                continue
            length[arc.head] = reached
            came_by[arc.head] = arc
            steps[arc.head] = steps[node] + 1
            ring = _ring_behind(arc.head, came_by) if steps[arc.head] > len(out) else ()
            if ring:
                return length, ring
            if arc.head not in is_waiting:
                waiting.append(arc.head)
                is_waiting.add(arc.head)
    return length, ()


def _ring_behind(node: str, came_by: dict[str, Arc]) -> tuple[Arc, ...]:
    """Walk back from a node; return the ring the walk runs into, or nothing if it ends."""
    seen: dict[str, int] = {}
    walked: list[Arc] = []
    while node not in seen:
        if node not in came_by:
            return ()
        seen[node] = len(walked)
        walked.append(came_by[node])
        node = came_by[node].tail
    return tuple(reversed(walked[seen[node] :]))
