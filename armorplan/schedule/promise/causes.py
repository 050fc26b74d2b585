"""What drives the risk: the same runs again, as if one thing were sure."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Job, Plan, Problem
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import Part, policy_of
from armorplan.schedule.promise.quantiles import quantile

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

MOST = 3
"""So many are told."""
_TRIED, _TRIED_IN_ALL = 4, 8
"""Of durations, so many of the likeliest are tried for each build, and for all builds together."""
_LEAST_MIN = 1.0
"""What would save less is not told."""


class CauseKind(StrEnum):
    """What is unsure."""

    MINUTES = "minutes"
    APPOINTMENT = "appointment"
    WINDOW = "window"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """Something unsure, and by how much sooner a build would end with the same odds without it.

    Attributes:
        about: the cause, the activity or the person it comes from.
        activities: those concerned.
        saves_min: as minutes at the odds asked for.
    """

    kind: CauseKind
    about: str
    activities: tuple[str, ...]
    saves_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """All runs of a plan, with what they came from."""

    problem: Problem
    plan: Plan
    parts: tuple[Part, ...]
    factors: Mapping[str, "Doubles"]
    runs: int
    going: Going

    def ends_of(self, jobs: Sequence[Job]) -> dict[str, "Doubles"]:
        """Return by job the minutes at which it ends."""
        return ends_of(self.going, self.parts, jobs)


def ends_of(going: Going, parts: Sequence[Part], jobs: Sequence[Job]) -> dict[str, "Doubles"]:
    """Return by job the minutes at which its last activity ends."""
    import numpy as np

    at = {m.activity.id: k for k, part in enumerate(parts) for m in part.work.members}
    found = {}
    for job in jobs:
        mine = sorted({at[i] for i in job.activities})
        found[job.id] = np.max(np.array([going.ends[k] for k in mine]), axis=0)
    return found


def causes(
    gone: Gone, jobs: Sequence[Job], odds_pct: int, go_on: Callable[[], bool]
) -> dict[str, tuple[Cause, ...]]:
    """Return by job the few things that cost most at these odds, the worst first.

    ``go_on`` is asked before each is tried; when it says no, what was found so far is returned.
    """
    ends = gone.ends_of(jobs)
    at_odds = {job.id: quantile(ends[job.id], odds_pct).minute for job in jobs}
    found: dict[str, list[Cause]] = {job.id: [] for job in jobs}
    for kind, about, activities, going, parts in _tries(gone, jobs, ends):
        if not go_on():
            break
        relieved = ends_of(going, parts, jobs)
        for job in jobs:
            then, now = quantile(relieved[job.id], odds_pct).minute, at_odds[job.id]
            if then is None or now is None or now - then < _LEAST_MIN:
                continue
            cause = Cause(kind=kind, about=about, activities=activities, saves_min=now - then)
            found[job.id].append(cause)
    return {
        job: tuple(sorted(those, key=lambda c: (-c.saves_min, c.kind, c.about))[:MOST])
        for job, those in found.items()
    }


_Try = tuple[CauseKind, str, tuple[str, ...], Going, tuple[Part, ...]]


def _tries(gone: Gone, jobs: Sequence[Job], ends: Mapping[str, "Doubles"]) -> Iterator[_Try]:
    groups = _groups(gone.problem.activities)
    for about in _likely(gone, jobs, ends, groups):
        sure = groups[about]
        factors = {i: f for i, f in gone.factors.items() if i not in sure}
        yield (
            CauseKind.MINUTES,
            about,
            sure,
            Going(gone.parts, factors, runs=gone.runs),
            gone.parts,
        )
    for person, activities in _appointments(gone.problem.activities).items():
        parts = policy_of(_always_there(gone.problem, person), gone.plan)
        going = Going(parts, gone.factors, runs=gone.runs)
        yield CauseKind.APPOINTMENT, person, activities, going, parts
    if gone.going.missed:
        missed = sorted(
            m.activity.id for k in gone.going.missed for m in gone.parts[k].work.members
        )
        going = Going(gone.parts, gone.factors, runs=gone.runs, is_patient=True)
        yield CauseKind.WINDOW, "", tuple(missed), going, gone.parts


def _groups(activities: Sequence[Activity]) -> dict[str, tuple[str, ...]]:
    """Return what is unsure together, by its cause or else its own id."""
    found: dict[str, tuple[str, ...]] = {}
    for activity in activities:
        if activity.spread > 0:
            about = activity.cause or activity.id
            found[about] = (*found.get(about, ()), activity.id)
    return found


def _likely(
    gone: Gone,
    jobs: Sequence[Job],
    ends: Mapping[str, "Doubles"],
    groups: Mapping[str, tuple[str, ...]],
) -> tuple[str, ...]:
    """Return the groups whose minutes go most along with the ends of some job."""
    import numpy as np

    planned = {
        m.activity.id: part.work.minutes if part.work.first.table else m.way.minutes
        for part in gone.parts
        for m in part.work.members
    }
    names = sorted(groups)
    if len(names) <= _TRIED:
        return tuple(names)
    minutes = np.array(
        [
            np.sum([planned[i] * (gone.factors[i] - 1) for i in groups[name]], axis=0)
            for name in names
        ]
    )
    ranks = np.argsort(np.argsort(minutes, axis=1), axis=1).astype(float)
    weights: dict[str, float] = {}
    for job in jobs:
        mine = np.argsort(np.argsort(ends[job.id])).astype(float)
        alike = np.corrcoef(np.vstack([mine, ranks]))[0, 1:]
        for at in np.argsort(-alike, kind="stable")[:_TRIED]:
            if alike[at] > 0:
                weights[names[at]] = weights.get(names[at], 0.0) + float(alike[at]) ** 2
    return tuple(sorted(weights, key=lambda name: (-weights[name], name))[:_TRIED_IN_ALL])


def _appointments(activities: Sequence[Activity]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for activity in activities:
        for person in activity.also if activity.fixed_start_min is None else ():
            found[person] = (*found.get(person, ()), activity.id)
    return dict(sorted(found.items()))


def _always_there(problem: Problem, person: str) -> Problem:
    """Return the problem as if a person need not be asked for an appointment."""
    activities = tuple(
        replace(a, also=tuple(p for p in a.also if p != person)) for a in problem.activities
    )
    return replace(problem, activities=activities)
