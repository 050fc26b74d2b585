"""Work that what goes before it leaves no hours for: a proof that there is no plan, without a solver."""

from dataclasses import dataclass

from armorplan.schedule.activity import Activity
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.lag_spans import opens_at
from armorplan.schedule.naming import Naming, called
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Problem
from armorplan.schedule.soonest import Soonest, earliest_times


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLate:
    """An activity that fits nowhere from the minute on at which it could start at the soonest.

    ``ready_min`` is ``None`` where it is not known which of several activities is to blame.
    """

    activity: Activity
    ready_min: int | None


def too_late(problem: Problem) -> TooLate | None:
    """Return what comes too late for its hours whatever the plan; ``None`` where nothing does.

    The lags have to be free of rings (``lag_cycle``).
    """
    soonest = earliest_times(problem)
    found = [a for a in problem.activities if _is_too_late(problem, a, soonest)]
    room = Occupancy(problem) if found else None
    for activity in found:
        ready = _ready(problem, activity, soonest)
        if room and ready <= problem.horizon_min and room.first_fit(activity, ready) is None:
            return TooLate(activity=activity, ready_min=ready)
    return TooLate(activity=found[0], ready_min=None) if found else None


def too_late_claims(problem: Problem, found: TooLate) -> tuple[Claim, ...]:
    """Return what of a problem could be freed, so that this is not too late; empty: not known."""
    activity, ready = found.activity, found.ready_min
    if ready is None:
        return ()
    if _is_missed(activity, ready):
        return (Claim(kind=Kind.LATEST, of=activity.id),)
    gone = _gone(problem, activity, ready)
    people = (gone,) if gone else tuple(who for who in activity.people if who != NOBODY)
    return tuple(Claim(kind=Kind.HOURS, of=who) for who in people)


def never_reached(problem: Problem, naming: Naming | None = None) -> str:
    """Return what comes too late in a sentence; empty where nothing does."""
    found = too_late(problem)
    return "" if found is None else too_late_words(problem, found, naming or Naming())


def too_late_words(problem: Problem, found: TooLate, naming: Naming) -> str:
    """Return when it could start at the soonest, and why that is too late."""
    activity, ready = found.activity, found.ready_min
    name = called(problem, activity.id)
    if ready is None:
        return f"{name} does not end within the days that are planned."
    at = naming.moment(problem, ready)
    head = f"{name} can start {at} at the soonest, after all that has to be done and dry before"
    if activity.latest_start_min is not None and _is_missed(activity, ready):
        return f"{head}, and has to start by {naming.moment(problem, activity.latest_start_min)}."
    gone = _gone(problem, activity, ready)
    if gone:
        return (
            f"{head}, and {naming.of(gone)} is not there any more{_last(problem, gone, naming)}."
        )
    people = activity.alone or activity.people
    able = " or ".join(naming.of(who) for who in people if who != NOBODY)
    if not able:
        return f"{head}, and does not end within the days that are planned."
    beside = "".join(f" together with {naming.of(who)}" for who in activity.always_also)
    return f"{head}, and {able} has no hours for it from then on{beside}."


def _is_too_late(problem: Problem, activity: Activity, soonest: Soonest) -> bool:
    if activity.fixed_start_min is not None:
        return False
    is_missed = _is_missed(activity, soonest.starts[activity.id])
    return is_missed or soonest.ends[activity.id] > problem.horizon_min


def _is_missed(activity: Activity, start_min: int) -> bool:
    return activity.latest_start_min is not None and activity.latest_start_min < start_min


def _ready(problem: Problem, activity: Activity, soonest: Soonest) -> int:
    """Return when all that it waits for lets it start, at the soonest."""
    before = (
        opens_at(lag, soonest.ends[lag.first]) for lag in problem.lags if lag.then == activity.id
    )
    return max(0, activity.earliest_min, *before)


def _gone(problem: Problem, activity: Activity, ready: int) -> str:
    """Return who has to be there as well and is not from then on; empty for nobody."""
    there = {w.id for w in problem.workers if any(end > ready for _, end in w.windows)}
    return next((who for who in activity.always_also if who not in there), "")


def _last(problem: Problem, who: str, naming: Naming) -> str:
    ends = [end for w in problem.workers if w.id == who for _, end in w.windows]
    return f": the last time ends {naming.moment(problem, max(ends))}" if ends else ""
