"""How much of a mend a plan makes use of: minutes of a window, hours of a person, places."""

from collections.abc import Sequence
from dataclasses import replace

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.claims import Kind, joined
from armorplan.schedule.company import everybody
from armorplan.schedule.mends import Mend
from armorplan.schedule.problem import Plan, Problem

_QUARTER_MIN = 15
"""Hours are asked for by the quarter."""


def as_needed(problem: Problem, mend: Mend, plan: Plan) -> Mend:
    """Return how much of a mend the plan found with it in full makes use of."""
    lies = {p.id: p for p in plan.placed}
    claim = mend.claim
    match claim.kind:
        case Kind.WINDOW:
            lag = problem.lags[claim.at]
            gap = lies[lag.then].start_min - lies[lag.first].end_min
            return replace(mend, amount=max(1, gap))
        case Kind.LATEST:
            return replace(mend, amount=max(1, lies[claim.of].start_min))
        case Kind.HOURS | Kind.ABSENCE:
            return replace(mend, hours=_used_hours(problem, mend, plan))
        case Kind.PLACES:
            return replace(mend, amount=peak(problem, plan, claim.of))
        case Kind.BATH:
            return replace(mend, amount=_fullest(problem, plan, claim.of))
    return mend


def _used_hours(problem: Problem, mend: Mend, plan: Plan) -> tuple[Window, ...]:
    """Return when somebody is at work outside their hours, by the quarter of an hour."""
    claim = mend.claim
    by_id = {a.id: a for a in problem.activities}
    hours = next(w.windows for w in problem.workers if w.id == claim.of)
    more: list[Window] = []
    for placed in plan.placed:
        is_mine = claim.of in everybody(by_id[placed.id], placed)
        inside = any(a <= placed.start_min and placed.end_min <= b for a, b in hours)
        if is_mine and not inside:
            start = placed.start_min // _QUARTER_MIN * _QUARTER_MIN
            end = -(-placed.end_min // _QUARTER_MIN) * _QUARTER_MIN
            more.append((start, min(end, problem.horizon_min)))
    return _without_hours(joined(more), hours)


def _without_hours(more: Sequence[Window], hours: Sequence[Window]) -> tuple[Window, ...]:
    left: list[Window] = []
    for start, end in more:
        since = start
        for begin, till in hours:
            if since < begin < end:
                left.append((since, begin))
            if till > since and begin < end:
                since = max(since, till)
        if since < end:
            left.append((since, end))
    return tuple(left)


def peak(problem: Problem, plan: Plan, resource: str) -> int:
    """Return how much of a resource is in use at most."""
    lies = {p.id: p for p in plan.placed}
    changes: list[tuple[int, int]] = []
    for activity in problem.activities:
        placed = lies.get(activity.id)
        if placed is None or placed.start_min == placed.end_min:
            continue
        way = activity.way(placed.who, placed.mode)
        for demand in (*activity.demands, *(way.demands if way else ())):
            if demand.resource == resource:
                changes += [(placed.start_min, demand.amount), (placed.end_min, -demand.amount)]
    for hold in problem.holds:
        start = lies[hold.first].end_min
        end = max((lies[i].start_min for i in hold.until), default=start)
        if hold.resource == resource and start < end:
            changes += [(start, hold.amount), (end, -hold.amount)]
    most = used = 0
    for _, change in sorted(changes):
        used += change
        most = max(most, used)
    return most


def _fullest(problem: Problem, plan: Plan, bath: str) -> int:
    lies = {p.id: p for p in plan.placed}
    batches: dict[int, int] = {}
    for activity in problem.activities:
        placed = lies.get(activity.id)
        way = activity.way(placed.who, placed.mode) if placed else None
        if activity.dip is not None and placed is not None and way and way.bath == bath:
            start = placed.start_min
            batches[start] = batches.get(start, 0) + activity.dip.amount
    return max(batches.values(), default=1)


def as_it_is(problem: Problem, mend: Mend) -> int | None:
    """Return the amount there is now, with which no plan is found."""
    claim = mend.claim
    match claim.kind:
        case Kind.WINDOW:
            return problem.lags[claim.at].max_lag
        case Kind.LATEST:
            return _activity(problem, claim.of).latest_start_min
        case Kind.PLACES:
            return next(r.capacity for r in problem.resources if r.id == claim.of)
        case Kind.BATH:
            return next(b.capacity for b in problem.baths if b.id == claim.of)
    return None


def _activity(problem: Problem, an_id: str) -> Activity:
    return next(a for a in problem.activities if a.id == an_id)
