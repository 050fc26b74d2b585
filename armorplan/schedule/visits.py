"""A watch as visits: somebody looks in every so many minutes and is free between."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import ceil

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem
from armorplan.schedule.sittings import visit_id
from armorplan.steps.model import Step, StepKind, Work

TURN_MIN = 0.5
"""Minutes to turn and wipe one part (common practice, no source)."""
WORTH_MIN = 5
"""Who is free for less between two visits stays."""


def visit_min(step: Step) -> int:
    """Return how long one visit of a watch takes."""
    return max(1, ceil(TURN_MIN * len(step.parts)))


def visits_of(step: Step) -> int:
    """Return in how many visits a watch is kept; 1: somebody stays all the time."""
    if step.kind is not StepKind.WATCH or not step.every_min:
        return 1
    if step.every_min - visit_min(step) < WORTH_MIN:
        return 1
    return max(1, step.minutes // step.every_min + 1)


def with_visits(problem: Problem, work: Work) -> Problem:
    """Return the problem with watches divided into visits, where there is time between them.

    The first keeps the watch's id, so that what has to lie before it still names it; what has to
    lie behind its end names the last. What has begun stays whole.
    """
    counts = {step.id: (visits_of(step), step) for step in work.of_kind(StepKind.WATCH)}
    parts: dict[str, tuple[Activity, ...]] = {}
    for activity in problem.activities:
        count, step = counts.get(activity.id, (1, None))
        is_free = activity.fixed_start_min is None
        parts[activity.id] = (
            tuple(_visits(activity, step, count))
            if step and count > 1 and is_free
            else (activity,)
        )
    if all(len(visits) == 1 for visits in parts.values()):
        return problem
    last = {name: visits[-1].id for name, visits in parts.items()}
    return replace(
        problem,
        activities=tuple(visit for visits in parts.values() for visit in visits),
        lags=(
            *(replace(lag, first=last[lag.first]) for lag in problem.lags),
            *(
                lag
                for name, visits in parts.items()
                if len(visits) > 1
                for lag in _between(visits, counts[name][1])
            ),
        ),
        before_last=tuple(
            EndsBeforeLast(first=last[rule.first], of=rule.of, reason=rule.reason)
            for rule in problem.before_last
        ),
    )


def _visits(activity: Activity, step: Step, count: int) -> Iterator[Activity]:
    once = visit_min(step)

    def each(ways: tuple[Mode, ...]) -> tuple[Mode, ...]:
        return tuple(replace(w, minutes=ceil(once * w.minutes / step.minutes)) for w in ways)

    modes, lessons = each(activity.modes), each(activity.taught)
    for at in range(count):
        yield replace(
            activity,
            id=visit_id(activity.id, at),
            minutes=once,
            modes=modes,
            taught=lessons,
            title=f"{activity.title}, visit {at + 1} of {count}",
        )


def _between(visits: tuple[Activity, ...], step: Step) -> Iterator[Lag]:
    for one, other in pairwise(visits):
        most = step.every_min - max(way.minutes for way in other.ways)
        yield Lag(
            first=one.id,
            then=other.id,
            min_lag=most // 2,
            max_lag=most,
            reason=f"It is turned and wiped every {step.every_min} min.",
        )
