"""From a build's steps and relations, and what was done so far, to the neutral problem."""

from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from datetime import datetime
from math import ceil, floor

from armorplan.kernel.units import DAY_MIN
from armorplan.relations.model import Relation
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.calendars import worker_windows
from armorplan.schedule.demands import before_last_of, kept_relations, lags_of, places_taken
from armorplan.schedule.first import is_stuck
from armorplan.schedule.joint_chain import with_joints_chained
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.one_go import without_gaps
from armorplan.schedule.problem import Activity, Lag, Problem, Worker
from armorplan.schedule.sittings import in_sittings
from armorplan.schedule.spans import placed_by_history
from armorplan.steps.model import Step, Work
from armorplan.workshop.shop import Shop

_SPARE_DAYS = 14
_MOST_DAYS = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What happened at the bench by ``origin_at``, by step id.

    Attributes:
        done: real start and end.
        running: since when a step is under way.
        worked_min: hands-on minutes already spent on a step that is paused.
    """

    done: Mapping[str, tuple[datetime, datetime]]
    running: Mapping[str, datetime]
    worked_min: Mapping[str, int]


NOTHING_DONE = History(done={}, running={}, worked_min={})


def problem_from(
    work: Work,
    relations: Iterable[Relation],
    shop: Shop,
    *,
    origin_at: datetime,
    order: tuple[str, ...],
    history: History = NOTHING_DONE,
) -> Problem:
    """Return the planning problem of one build.

    The joints of each piece and side are set in the chosen order (``schedule.joint_chain``).
    Hands-on work longer than any stretch of hours is laid in sittings (``schedule.sittings``).
    Steps done stand where they were done. A relation that history has already broken asks for
    nothing any more. Maximum lags from steps begun or done are kept only while they can be met:
    what was missed at the bench must not leave the maker without a plan.

    Args:
        work: the steps.
        relations: those that bind become demands; so do those that only steer, where ``order``
            keeps them, since what is easier in the order is easier in the plan. Overruled ones
            ask for nothing.
        shop: people and their hours.
        origin_at: minutes count from here.
        order: the chosen order, that of the joints as it stands; of other steps the lags leave
            free, the earlier one is placed first.
        history: what was done.
    """
    horizon_min = _horizon_min(work, shop)
    workers = tuple(
        Worker(id=p.id, windows=worker_windows(p, shop.zone, origin_at, horizon_min))
        for p in shop.people
    )
    place = {step: at for at, step in enumerate(order)}
    maker = _ActivityMaker(origin_at, tuple(p.id for p in shop.people), place, history)
    activities = tuple(maker.activity(step) for step in work.steps)
    begun = history.done.keys() | history.running.keys()
    kept = kept_relations(relations, (step.id for step in work.steps), place)
    resources, demands = places_taken(kept)
    problem = Problem(
        origin_at=origin_at,
        horizon_min=horizon_min,
        activities=tuple(replace(a, demands=demands.get(a.id, ())) for a in activities),
        lags=lags_of(kept, begun, place),
        before_last=tuple(before_last_of(kept, begun)),
        resources=resources,
        workers=workers,
    )
    possible = _without_missed_windows(in_sittings(problem), begun)
    return without_gaps(with_joints_chained(possible, work, place), kept)


def _without_missed_windows(problem: Problem, begun: AbstractSet[str]) -> Problem:
    """Let go of the maximum lags that count from history and can no longer be kept.

    First those that the earliest start of what follows misses already; if no serial plan keeps
    the others together, all of them.
    """
    counted = [g for g in problem.lags if g.max_lag is not None and g.first in begun]
    if not counted:
        return problem
    unbound = _let_go(problem, counted)
    if lag_cycle(unbound):  # The lags clash without them; planning says how.
        return problem
    starts = earliest_starts(unbound)
    ends = {p.id: p.end_min for p in placed_by_history(problem)}
    missed = [g for g in counted if starts[g.then] > ends[g.first] + (g.max_lag or 0)]
    kept = _let_go(problem, missed)
    return unbound if is_stuck(kept) else kept


def _let_go(problem: Problem, windows: Iterable[Lag]) -> Problem:
    gone = set(windows)
    lags = tuple(replace(g, max_lag=None) if g in gone else g for g in problem.lags)
    return replace(problem, lags=lags)


def _horizon_min(work: Work, shop: Shop) -> int:
    """Return a horizon no sound plan passes: all work one after another, twice, and two weeks."""
    hands_on = sum(step.minutes for step in work.steps if step.attended)
    waiting = sum(step.minutes for step in work.steps if not step.attended)
    weekly = sum(
        (o.end.hour * 60 + o.end.minute) - (o.start.hour * 60 + o.start.minute)
        for person in shop.people
        for o in person.hours
    )
    weeks = 2 * hands_on / max(weekly, 60)
    days = ceil(7 * weeks) + ceil(waiting / DAY_MIN) + _SPARE_DAYS
    return min(days, _MOST_DAYS) * DAY_MIN


class _ActivityMaker:
    def __init__(
        self,
        origin_at: datetime,
        people: tuple[str, ...],
        place: Mapping[str, int],
        history: History,
    ) -> None:
        self._origin_at = origin_at
        self._people = people
        self._place = place
        self._history = history

    def _minute(self, at: datetime) -> float:
        return (at - self._origin_at).total_seconds() / 60

    def activity(self, step: Step) -> Activity:
        """Return a step as an activity, fixed where it is done or under way."""
        minutes = max(1, step.minutes - self._history.worked_min.get(step.id, 0))
        start, end = self._span(step)
        return Activity(
            id=step.id,
            minutes=minutes,
            people=self._people if step.attended else (),
            fixed_start_min=start,
            fixed_end_min=end,
            priority=self._place.get(step.id, len(self._place)),
            title=step.title,
        )

    def _span(self, step: Step) -> tuple[int | None, int | None]:
        if step.id in self._history.done:
            start_at, end_at = self._history.done[step.id]
            end = min(0, floor(self._minute(end_at)))
            return min(end, floor(self._minute(start_at))), end
        if step.id in self._history.running:
            start = min(0, floor(self._minute(self._history.running[step.id])))
            return start, max(0, start + step.minutes)
        return None, None
