"""Work longer than any stretch of hours, laid in sittings one after another.

The first sitting keeps the activity's id, so what has to lie before its start still names it;
what has to lie behind its end names the last one. ``step_of`` leads back from any of them.
"""

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem

_MARK = "#"


def step_of(activity_id: str) -> str:
    """Return the id of the step that an activity, or one of its sittings, stands for."""
    return activity_id.partition(_MARK)[0]


def visit_id(activity_id: str, at: int) -> str:
    """Return the id of a sitting or a visit, counted from 0; the first keeps the activity's."""
    return activity_id if at == 0 else f"{activity_id}{_MARK}{at + 1}"


def in_sittings(problem: Problem) -> Problem:
    """Return the problem with activities that fit no stretch of their people's hours divided.

    Sittings are equal within a minute. What has begun, what may pause and what time alone does
    stays whole. So does what has to begin within a window of less than a day: damp leather and
    glue do not wait for the next evening.
    """
    longest = {
        worker.id: max((end - start for start, end in worker.windows), default=0)
        for worker in problem.workers
    }
    hurried = {g.then for g in problem.lags if (g.max_lag or 0) < DAY_MIN and _is_firm(g)}
    parts = {a.id: (a,) if a.id in hurried else _divided(a, longest) for a in problem.activities}
    if all(len(sittings) == 1 for sittings in parts.values()):
        return problem
    last = {name: sittings[-1].id for name, sittings in parts.items()}
    chains = tuple(
        Lag(first=former.id, then=later.id, reason="It goes on where it was left.")
        for sittings in parts.values()
        for former, later in pairwise(sittings)
    )
    return replace(
        problem,
        activities=tuple(sitting for sittings in parts.values() for sitting in sittings),
        lags=(*(replace(lag, first=last[lag.first]) for lag in problem.lags), *chains),
        before_last=tuple(
            EndsBeforeLast(first=last[rule.first], of=rule.of, reason=rule.reason)
            for rule in problem.before_last
        ),
        holds=tuple(replace(hold, first=last[hold.first]) for hold in problem.holds),
        jobs=tuple(
            replace(job, activities=tuple(s.id for name in job.activities for s in parts[name]))
            for job in problem.jobs
        ),
    )


def _is_firm(lag: Lag) -> bool:
    return lag.max_lag is not None and not lag.wish


def _divided(activity: Activity, longest: Mapping[str, int]) -> tuple[Activity, ...]:
    alone = [way for way in activity.ways if not way.also] or activity.ways
    rooms = [(way, longest.get(way.who, 0)) for way in alone if way.who is not None]
    counts = [-(-way.minutes // room) for way, room in rooms if room]
    count = min(counts, default=1)
    if activity.fixed_start_min is not None or activity.dip or activity.sitting_min or count <= 1:
        return (activity,)
    return tuple(
        replace(
            activity,
            id=activity.id if at == 0 else f"{activity.id}{_MARK}{at + 1}",
            minutes=_share(activity.minutes, at, count),
            modes=_shares(activity.modes, at, count),
            taught=_shares(activity.taught, at, count),
            title=f"{activity.title}, sitting {at + 1} of {count}",
            ends_outside=activity.ends_outside if at + 1 == count else (),
        )
        for at in range(count)
    )


def _shares(ways: tuple[Mode, ...], at: int, count: int) -> tuple[Mode, ...]:
    return tuple(replace(way, minutes=_share(way.minutes, at, count)) for way in ways)


def _share(minutes: int, at: int, count: int) -> int:
    least, more = divmod(minutes, count)
    return least + (at < more)
