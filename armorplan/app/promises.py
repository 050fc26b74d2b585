"""What a plan promises, as rows: by build its dates with their odds, and what costs most."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import ceil, floor
from typing import NamedTuple

from armorplan.app.cause_words import cause_words
from armorplan.app.rough_instants import rough_span
from armorplan.app.spare import spare_words
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Job, Plan, Problem
from armorplan.schedule.promise.causes import Cause, CauseKind
from armorplan.schedule.promise.promising import (
    ODDS_PCT,
    RUNS,
    SEED,
    JobPromise,
    always,
    promise,
)
from armorplan.schedule.promise.quantiles import Quantile
from armorplan.workshop.shop import Shop

Why = Callable[[], bool] | None
QUARTER_MIN = 15
"""Instants with odds are told to the quarter of an hour: later for a promise, never sooner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OddsRow:
    """By when a build is finished with these odds; ``None``: not within the days planned ahead.

    ``low_at`` and ``high_at``: other draws would tell an instant between these 95 times of 100.
    """

    odds_pct: int
    at: datetime | None
    low_at: datetime | None
    high_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseRow:
    """One of the things that cost most: what is unsure, and how much sooner without it."""

    kind: CauseKind
    saves_min: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PromiseRow:
    """What is promised of one build.

    Attributes:
        build: its id; empty where the plan knows of no builds.
        planned_at: when its last step ends in the plan.
        kept_pct, kept_error_pct: in how many of the runs it is finished when due, and how far
            other draws would be off 95 times of 100; ``None`` where it has no date.
        spare: what the plan leaves to spare, in words; empty where it has no date.
        usual: with 50, 80 and 95 %.
        promise: the earliest to promise at the odds asked for.
    """

    build: str
    title: str
    weight: int
    due_at: datetime | None
    planned_at: datetime
    kept_pct: float | None
    kept_error_pct: float | None
    spare: str
    usual: tuple[OddsRow, ...]
    promise: OddsRow
    causes: tuple[CauseRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Promises:
    """What a plan promises of all builds in it.

    Attributes:
        runs, seed: how often the plan was gone through, and what its draws follow from.
    """

    zone: str
    runs: int
    seed: int
    odds_pct: int
    builds: tuple[PromiseRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How sure a promise is to be, and how often the plan is gone through for it."""

    odds_pct: int = ODDS_PCT
    runs: int = RUNS
    seed: int = SEED
    names: Mapping[str, str] = field(default_factory=dict)
    """What people and treatments are called, by their ids."""


def names_in(shop: Shop) -> dict[str, str]:
    """Return what the people of a shop are called."""
    named = {person.id: person.name for person in shop.people}
    return named | {wearer.id: wearer.name for wearer in shop.wearers}


def promises(
    problem: Problem, plan: Plan, zone: str, asked: Asked | None = None, *, why: Why = always
) -> Promises:
    """Return what a plan that holds promises; some tenths of a second for 600 steps.

    Args:
        problem: what the plan answers.
        plan: the plan; its sequence is kept in every run.
        zone: the shop's.
        asked: odds, runs and seed; the usual ones without it.
        why: asked before each cause is tried, which takes as long as all the rest; ``None``: no
            causes are sought.
    """
    asked = asked or Asked()
    told = promise(
        problem, plan, odds_pct=asked.odds_pct, runs=asked.runs, seed=asked.seed, why=why
    )
    jobs = {job.id: job for job in problem.jobs}
    return Promises(
        zone=zone,
        runs=told.runs,
        seed=told.seed,
        odds_pct=told.odds_pct,
        builds=tuple(
            _row(problem, one, asked, _Spare(jobs.get(one.id), plan, zone)) for one in told.jobs
        ),
    )


def runs_words(found: Promises) -> str:
    """Return in words what promises rest on."""
    return (
        f"The plan was gone through {found.runs} times with durations that were drawn (seed "
        f"{found.seed}): its order kept, nobody standing idle, what was missed done again. A date "
        "is no surer than the spreads it comes from."
    )


class _Spare(NamedTuple):
    job: Job | None
    plan: Plan
    zone: str

    def words(self, problem: Problem, names: Mapping[str, str]) -> str:
        naming = Naming(names=names, zone=self.zone)
        return spare_words(problem, self.plan, self.job, naming) if self.job else ""


def _row(problem: Problem, told: JobPromise, asked: Asked, spare: _Spare) -> PromiseRow:
    origin_at, job = problem.origin_at, spare.job
    due = told.due_min
    return PromiseRow(
        build=told.id,
        title=told.title or told.id,
        weight=job.weight if job else 1,
        due_at=None if due is None else origin_at + timedelta(minutes=due),
        planned_at=origin_at + timedelta(minutes=told.planned_min),
        kept_pct=told.kept.pct if told.kept else None,
        kept_error_pct=told.kept.error_pct if told.kept else None,
        spare=spare.words(problem, asked.names),
        usual=tuple(_odds(q, origin_at) for q in told.usual),
        promise=_odds(told.promise, origin_at),
        causes=tuple(_cause(problem, cause, asked) for cause in told.causes),
    )


def _odds(told: Quantile, origin_at: datetime) -> OddsRow:
    return OddsRow(
        odds_pct=told.odds_pct,
        at=_quarter(told.minute, origin_at, ceil),
        low_at=_quarter(told.low, origin_at, floor),
        high_at=_quarter(told.high, origin_at, ceil),
    )


def _quarter(
    minute: float | None, origin_at: datetime, whole: Callable[[float], int]
) -> datetime | None:
    """Return the quarter of an hour by the clock before or after a minute; zones keep to it."""
    if minute is None:
        return None
    since = timedelta(minutes=origin_at.minute % QUARTER_MIN, seconds=origin_at.second)
    start_at = origin_at - since
    past = minute + since / timedelta(minutes=1)
    return start_at + timedelta(minutes=whole(round(past, 3) / QUARTER_MIN) * QUARTER_MIN)


def _cause(problem: Problem, cause: Cause, asked: Asked) -> CauseRow:
    sooner = f"were that sure, {asked.odds_pct} % would be {rough_span(cause.saves_min)} sooner"
    return CauseRow(
        kind=cause.kind,
        saves_min=round(cause.saves_min),
        text=f"{cause_words(problem, cause, asked.names)}: {sooner}.",
    )
