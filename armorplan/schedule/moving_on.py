"""The problem of a build at which nothing happened, moved on in time instead of made anew."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from armorplan.schedule.activity import Activity
from armorplan.schedule.bench_history import span_of
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.drying_tables import Drier
from armorplan.schedule.first import is_stuck
from armorplan.schedule.frame import Frame
from armorplan.schedule.problem import Problem

STANDS = timedelta(hours=6)
"""What was let go when a problem was made stands so long; then all is looked at anew."""
_MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """The problem of a build by itself as it was made once.

    Attributes:
        build: as it stood then.
        problem: in a frame of then.
        made_at: the origin it had when it was made; it may have been moved on since.
        called: the same with the ids and priorities it had among the others, and its rank there.
    """

    build: BuildInHand
    problem: Problem
    made_at: datetime
    called: tuple[str, int, Problem] | None = None


def are_alike(one: BuildInHand, other: BuildInHand) -> bool:
    """Tell whether two builds ask for the same but for their names and dates."""
    same_work = one.work is other.work and one.order == other.order
    same_facts = one.relations is other.relations and one.history == other.history
    same_shop = one.workplace == other.workplace and one.assembly is other.assembly
    same_say = (one.wearer, one.ready_at) == (other.wearer, other.ready_at)
    return same_work and same_facts and same_shop and same_say


def moved_on(made: Made, build: BuildInHand, frame: Frame, drier: Drier) -> Problem | None:
    """Return a build's problem in the frame of now; ``None``: it has to be made anew.

    Of a build that is alike still, what it asks for stays; what was done lies further back, and
    what dries is ready sooner. A window that counts from the bench may close meanwhile: then it
    is made anew. So it is where tables tell what the air of each hour does, from the next minute on.
    """
    then, now = made.problem, frame.problem
    gone = now.origin_at - then.origin_at
    is_near = (
        gone >= timedelta(0) and now.origin_at - made.made_at <= STANDS and not gone % _MINUTE
    )
    if not is_near or not are_alike(build, made.build):
        return None
    if not gone and then.horizon_min == now.horizon_min:
        return then
    if not drier.is_always_steady:
        return None
    activities = _moved(then.activities, build, now.origin_at, gone // _MINUTE)
    if activities is None:
        return None
    held = {r.id: r for r in (*then.resources, *now.resources)}
    moved = replace(
        now,
        activities=activities,
        lags=then.lags,
        before_last=then.before_last,
        holds=then.holds,
        resources=tuple(held.values()),
    )
    return None if _counts_from_bench(moved, build) and is_stuck(moved) else moved


def _moved(
    activities: tuple[Activity, ...], build: BuildInHand, origin_at: datetime, gone_min: int
) -> tuple[Activity, ...] | None:
    """Return activities as they stand now: the very same ones where nothing of them moved."""
    if any(a.latest_start_min is not None or a.ends_outside for a in activities):
        return None
    begun = build.history.begun
    found = []
    for activity in activities:
        if activity.fixed_start_min is None:
            earliest_min = max(0, activity.earliest_min - gone_min)
            stays = earliest_min == activity.earliest_min
            found.append(activity if stays else replace(activity, earliest_min=earliest_min))
            continue
        if activity.id not in begun:
            return None
        start, end = span_of(build.work.step(activity.id), build.history, origin_at)
        found.append(replace(activity, fixed_start_min=start, fixed_end_min=end))
    is_same = all(new is old for new, old in zip(found, activities, strict=True))
    return activities if is_same else tuple(found)


def _counts_from_bench(problem: Problem, build: BuildInHand) -> bool:
    begun = build.history.begun
    return any(
        lag.max_lag is not None and lag.first in begun and lag.then not in begun
        for lag in problem.lags
    )
