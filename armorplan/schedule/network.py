"""The lags of a problem as a network of starts, and longest paths in it (Bellman-Ford)."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_spans import least_wait, most_wait
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem
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

    Durations and waits that depend on when they begin count at their least where they push apart and at their
    most where they allow a gap, so that what the arcs forbid is truly forbidden. Lags between two
    fixed activities are history and not looked at.
    """
    activities = {a.id: a for a in problem.activities}
    fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
    arcs = [arc for a in problem.activities for arc in _own_arcs(a)]
    for lag in problem.lags:
        if lag.first not in fixed or lag.then not in fixed:
            arcs += _lag_arcs(lag, activities[lag.first], problem.horizon_min)
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
    start, latest = activity.fixed_start_min, activity.latest_start_min
    if start is None:
        arcs = [Arc(tail=ORIGIN, head=activity.id, minutes=max(0, activity.earliest_min))]
        if latest is not None:
            arcs.append(Arc(tail=activity.id, head=ORIGIN, minutes=-latest))
        return arcs
    return [
        Arc(tail=ORIGIN, head=activity.id, minutes=start),
        Arc(tail=activity.id, head=ORIGIN, minutes=-start),
    ]


def _lag_arcs(lag: Lag, first: Activity, horizon_min: int) -> list[Arc]:
    least = shortest(first)
    arcs = [Arc(tail=lag.first, head=lag.then, minutes=least + least_wait(lag), said=lag)]
    longest = most_wait(lag)
    if longest is not None:
        most = least if first.fixed_end_min is not None else most_minutes(first, horizon_min)
        arcs.append(Arc(tail=lag.then, head=lag.first, minutes=-most - longest, said=lag))
    return arcs


def longest_paths(
    arcs: Iterable[Arc], *, source: str = ORIGIN
) -> tuple[dict[str, int], tuple[Arc, ...]]:
    """Return the longest path from ``source`` to every node reached, or a cycle that has none.

    The second value is empty, or a cycle whose minutes add up to more than 0: its demands cannot
    all be met, and the lengths mean nothing then.

    Nodes are gone through in the order in which arcs forward in time lead, again and again until
    nothing gets longer: one round for all that leads forward, and one more for each time a path
    goes back. (Bellman-Ford in a fixed order of nodes, after Yen 1970; the reference is from
    memory.)
    """
    out: dict[str, list[Arc]] = {source: []}
    for arc in arcs:
        out.setdefault(arc.tail, []).append(arc)
        out.setdefault(arc.head, [])
    order = _forward(out)
    length = {source: 0}
    came_by: dict[str, Arc] = {}
    while _go_through(order, out, length, came_by):
        ring = _ring(came_by)
        if ring:
            return length, ring
    return length, ()


def _go_through(
    order: Iterable[str],
    out: Mapping[str, list[Arc]],
    length: dict[str, int],
    came_by: dict[str, Arc],
) -> bool:
    """Lengthen paths by every arc once; tell whether one that was passed already may go on."""
    passed: set[str] = set()
    again = False
    for node in order:
        passed.add(node)
        here = length.get(node)
        if here is None:
            continue
        for arc in out[node]:
            reached, head = here + arc.minutes, arc.head
            known = length.get(head)
            if known is None or reached > known:
                length[head] = reached
                came_by[head] = arc
                again = again or head in passed
    return again


def _forward(out: Mapping[str, list[Arc]]) -> list[str]:
    """Return the nodes so that arcs of 0 minutes and more lead onward, as far as they can."""
    waits = dict.fromkeys(out, 0)
    for arcs in out.values():
        for arc in arcs:
            waits[arc.head] += arc.minutes >= 0
    order = [node for node, count in waits.items() if not count]
    for node in order:  # It grows as nodes get free.
        for arc in out[node]:
            if arc.minutes >= 0:
                waits[arc.head] -= 1
                if not waits[arc.head]:
                    order.append(arc.head)
    return order + [node for node, count in waits.items() if count]


def _ring(came_by: Mapping[str, Arc]) -> tuple[Arc, ...]:
    """Return a ring among the arcs by which nodes were reached, or nothing.

    Each such arc made its path longer, so that a ring of them gets longer with every turn.
    """
    seen_from: dict[str, str] = {}
    for start in came_by:
        node = start
        while node in came_by and node not in seen_from:
            seen_from[node] = start
            node = came_by[node].tail
        if node in came_by and seen_from[node] == start:
            return _turn(node, came_by)
    return ()


def _turn(start: str, came_by: Mapping[str, Arc]) -> tuple[Arc, ...]:
    walked = [came_by[start]]
    while walked[-1].tail != start:
        walked.append(came_by[walked[-1].tail])
    return tuple(reversed(walked))
