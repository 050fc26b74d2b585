"""How well a plan keeps to the chosen order, and the same plan as early as it can be."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from armorplan.schedule.activity import Activity
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.problem import Lag, Placed, Problem
from armorplan.schedule.spans import end_from

Pair = tuple[str, str]


def order_pairs(problem: Problem) -> tuple[Pair, ...]:
    """Return the hands-on activities that follow each other in the chosen order, as pairs.

    Each job has an order of its own; what belongs to none has one together. Pairs of equal
    priority have no chosen order; what is fixed cannot be kept to any.
    """
    job_of = {name: at for at, job in enumerate(problem.jobs) for name in job.activities}
    by_hand = [a for a in problem.activities if a.people and a.fixed_start_min is None]
    chosen: dict[int, list[Activity]] = {}
    for activity in sorted(by_hand, key=lambda a: a.priority):
        chosen.setdefault(job_of.get(activity.id, len(problem.jobs)), []).append(activity)
    return tuple(
        (a.id, b.id)
        for _, mine in sorted(chosen.items())
        for a, b in pairwise(mine)
        if a.priority < b.priority
    )


def jumps(problem: Problem, placed: Iterable[Placed]) -> int:
    """Return how many pairs of the chosen order stand the other way round.

    A row of steps moved elsewhere as one counts once or twice, one hopping to and fro counts
    often: it is what the person at the bench notices.
    """
    starts = {p.id: p.start_min for p in placed}
    return sum(starts[first] > starts[then] for first, then in order_pairs(problem))


def pulled_earlier(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return a plan that holds with nothing later than before: the same sequences, no idle gaps.

    With everybody's and every resource's sequence kept, all starts can be at their least at once:
    lags, hours and sequences each leave the lesser of two plans allowed too.
    """
    lies = {p.id: p for p in placed}
    tied = replace(
        problem,
        activities=tuple(_given_to(a, lies[a.id]) for a in problem.activities),
        lags=(*problem.lags, *_sequences(problem, lies), *_kept_pairs(problem, lies)),
    )
    starts = earliest_starts(tied)
    return tuple(
        p if a.fixed_start_min is not None else _moved(a, p, starts[p.id])
        for a, p in ((a, lies[a.id]) for a in problem.activities)
    )


def _given_to(activity: Activity, placed: Placed) -> Activity:
    """Return an activity that only the person it was given to may do.

    One whose table happens to give it no time stays: earlier it might take some, and need hands
    or a place that are taken then.
    """
    if activity.fixed_start_min is not None:
        return activity
    takes_no_time = activity.table is not None and placed.start_min == placed.end_min
    return replace(
        activity,
        people=() if placed.who is None else (placed.who,),
        earliest_min=placed.start_min if takes_no_time else activity.earliest_min,
    )


def _moved(activity: Activity, placed: Placed, start_min: int) -> Placed:
    return replace(placed, start_min=start_min, end_min=end_from(activity, start_min))


def _sequences(problem: Problem, lies: dict[str, Placed]) -> list[Lag]:
    """Return who follows whom on the same person or resource, and before the last of others."""
    lags = []
    by_start = sorted(lies.values(), key=lambda p: (p.start_min, p.end_min, p.id))
    for worker in problem.workers:
        mine = [p for p in by_start if p.who == worker.id and p.start_min < p.end_min]
        lags += [Lag(first=a.id, then=b.id) for a, b in pairwise(mine)]
    for resource in problem.resources:
        takes = {a.id for a in problem.activities for d in a.demands if d.resource == resource.id}
        mine = [p for p in by_start if p.id in takes]
        lags += [
            Lag(first=a.id, then=b.id)
            for at, b in enumerate(mine)
            for a in mine[:at]
            if a.end_min <= b.start_min
        ]
    for rule in problem.before_last:
        last = max(sorted(rule.of), key=lambda i: lies[i].start_min)
        lags.append(Lag(first=rule.first, then=last))
    fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
    return [lag for lag in lags if lag.then not in fixed]


def _kept_pairs(problem: Problem, lies: dict[str, Placed]) -> list[Lag]:
    minutes = {a.id: a.minutes for a in problem.activities if a.table is None}
    return [
        Lag(first=first, then=then, min_lag=-minutes[first])
        for first, then in order_pairs(problem)
        if first in minutes and lies[first].start_min <= lies[then].start_min
    ]
