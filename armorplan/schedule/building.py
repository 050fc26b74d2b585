"""From a build's steps and relations, and what was done so far, to the neutral problem."""

from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from datetime import datetime
from math import ceil, floor

from armorplan.relations.model import Before, BeforeAll, Relation
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.calendars import worker_windows
from armorplan.schedule.first import first_placing
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import (
    Activity,
    EndsBeforeLast,
    Lag,
    Problem,
    Worker,
)
from armorplan.schedule.serial import Stuck
from armorplan.schedule.sittings import in_sittings
from armorplan.schedule.spans import placed_by_history
from armorplan.steps.model import Step, Work
from armorplan.workshop.shop import Shop

_DAY_MIN = 24 * 60
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

    Hands-on work longer than any stretch of hours is laid in sittings (``schedule.sittings``).
    Steps done stand where they were done. A relation that history has already broken asks for
    nothing any more. Maximum lags from steps begun or done are kept only while they can be met:
    what was missed at the bench must not leave the maker without a plan.

    Args:
        work: the steps.
        relations: those that bind become lags; so do those that only steer, where ``order``
            keeps them, since what is easier in the order is easier in the plan.
        shop: people and their hours.
        origin_at: minutes count from here.
        order: the chosen order; of steps the lags leave free, the earlier one is placed first.
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
    kept = [r for r in relations if _names_only(r, work) and _is_kept(r, place)]
    problem = Problem(
        origin_at=origin_at,
        horizon_min=horizon_min,
        activities=activities,
        lags=_merged((r for r in kept if isinstance(r, Before)), begun),
        before_last=tuple(_before_last((r for r in kept if isinstance(r, BeforeAll)), begun)),
        workers=workers,
    )
    return _without_missed_windows(in_sittings(problem), begun)


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
    is_stuck = bool(lag_cycle(kept)) or isinstance(first_placing(kept), Stuck)
    return unbound if is_stuck else kept


def _let_go(problem: Problem, windows: Iterable[Lag]) -> Problem:
    gone = set(windows)
    lags = tuple(replace(g, max_lag=None) if g in gone else g for g in problem.lags)
    return replace(problem, lags=lags)


def _is_kept(relation: Relation, place: Mapping[str, int]) -> bool:
    """Tell whether a relation binds, or the chosen order keeps it."""
    if relation.reason.force.binds:
        return True
    behind = (relation.then,) if isinstance(relation, Before) else tuple(relation.of)
    last = max((place.get(step, -1) for step in behind), default=-1)
    return place.get(relation.first, last) < last


def _names_only(relation: Relation, work: Work) -> bool:
    named = {relation.first} | ({relation.then} if isinstance(relation, Before) else relation.of)
    return all(work.has(step) for step in named)


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
    days = ceil(7 * weeks) + ceil(waiting / _DAY_MIN) + _SPARE_DAYS
    return min(days, _MOST_DAYS) * _DAY_MIN


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


def _merged(relations: Iterable[Before], begun: AbstractSet[str]) -> tuple[Lag, ...]:
    """Return one lag for each pair of steps, as tight as all their relations together.

    What has begun is history: no demand on its start means anything any more.
    """
    found: dict[tuple[str, str], Lag] = {}
    for relation in relations:
        if relation.then in begun:
            continue
        lag = Lag(
            first=relation.first,
            then=relation.then,
            min_lag=relation.lag_min,
            max_lag=relation.max_lag_min,
            reason=relation.reason.text,
        )
        known = found.get((lag.first, lag.then))
        found[lag.first, lag.then] = _tighter(known, lag) if known else lag
    return tuple(found.values())


def _tighter(one: Lag, other: Lag) -> Lag:
    """Return both demands in one; the reason is that of the longer wait."""
    limits = [lag.max_lag for lag in (one, other) if lag.max_lag is not None]
    longer = other if other.min_lag > one.min_lag else one
    return Lag(
        first=one.first,
        then=one.then,
        min_lag=longer.min_lag,
        max_lag=min(limits, default=None),
        reason=longer.reason,
    )


def _before_last(
    relations: Iterable[BeforeAll], begun: AbstractSet[str]
) -> Iterator[EndsBeforeLast]:
    """Yield 'ends before the last of' over the steps not yet begun; the last is among them."""
    for relation in relations:
        left = relation.of - begun - {relation.first}
        if relation.first not in begun and left:
            yield EndsBeforeLast(first=relation.first, of=left, reason=relation.reason.text)
