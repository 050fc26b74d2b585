"""When a build can be promised: what many runs of a plan say, with their own error."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.schedule.problem import Job, Plan, Problem
from armorplan.schedule.promise.causes import Cause, Gone, causes
from armorplan.schedule.promise.draws import factors
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import Part, policy_of
from armorplan.schedule.promise.quantiles import Quantile, Share, quantile, share_by

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

RUNS, SEED, ODDS_PCT = 1000, 1, 80
USUAL_PCT = (50, 80, 95)
CAUSE_RUNS = 1000
"""At most so many of the runs are gone through again for each thing that may cost most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPromise:
    """What the runs say of one build; minutes count from the origin.

    Attributes:
        planned_min: when it ends in the plan.
        due_min, kept: when it is due, and in what share of the runs it ends by then.
        usual: by when it ends with 50, 80 and 95 %.
        promise: the earliest to promise at the odds asked for.
        causes: what costs most at these odds, the worst first.
    """

    id: str
    title: str
    planned_min: int
    due_min: int | None
    kept: Share | None
    usual: tuple[Quantile, ...]
    promise: Quantile
    causes: tuple[Cause, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """What a plan promises, by build; the same problem, plan, runs and seed give the same."""

    runs: int
    seed: int
    odds_pct: int
    jobs: tuple[JobPromise, ...]


def jobs_of(problem: Problem) -> tuple[Job, ...]:
    """Return its jobs; all activities as one where there is none."""
    if problem.jobs:
        return tuple(job for job in problem.jobs if job.activities)
    everything = tuple(a.id for a in problem.activities)
    return (Job(id="", activities=everything),) if everything else ()


def always() -> bool:
    """Say that all causes are wanted."""
    return True


def promise(
    problem: Problem,
    plan: Plan,
    *,
    odds_pct: int = ODDS_PCT,
    runs: int = RUNS,
    seed: int = SEED,
    why: Callable[[], bool] | None = always,
) -> Promise:
    """Return by when the builds of a plan can be promised.

    Args:
        problem: with spreads and causes of its activities.
        plan: one that holds; its sequence is kept in each run (``promise.policy``).
        odds_pct: from 1 to 99.
        runs: how many; 1,000 tell 80 % within 2.5 %.
        seed: the draws follow from it.
        why: asked before each cause is tried, which takes as long as all the rest; ``None``: none is.
    """
    parts, drawn = policy_of(problem, plan), factors(problem, runs=runs, seed=seed)
    gone = _gone(problem, plan, parts, (drawn, runs))
    jobs = jobs_of(problem)
    ends, found = gone.ends_of(jobs), dict[str, tuple[Cause, ...]]()
    if why is not None:
        few = {name: own[:CAUSE_RUNS] for name, own in drawn.items()}
        again = gone if runs <= CAUSE_RUNS else _gone(problem, plan, parts, (few, CAUSE_RUNS))
        found = causes(again, jobs, odds_pct, why)
    lies = {p.id: p.end_min for p in plan.placed}
    return Promise(
        runs=runs,
        seed=seed,
        odds_pct=odds_pct,
        jobs=tuple(
            JobPromise(
                id=job.id,
                title=job.title,
                planned_min=max(lies[i] for i in job.activities),
                due_min=job.due_min,
                kept=None if job.due_min is None else share_by(ends[job.id], job.due_min),
                usual=tuple(quantile(ends[job.id], pct) for pct in USUAL_PCT),
                promise=quantile(ends[job.id], odds_pct),
                causes=found.get(job.id, ()),
            )
            for job in jobs
        ),
    )


def _gone(
    problem: Problem,
    plan: Plan,
    parts: tuple[Part, ...],
    drawn: tuple[Mapping[str, "Doubles"], int],
) -> Gone:
    own, runs = drawn
    return Gone(
        problem=problem,
        plan=plan,
        parts=parts,
        factors=own,
        runs=runs,
        going=Going(parts, own, runs=runs),
    )
