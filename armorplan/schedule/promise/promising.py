"""When a build can be promised: what many runs of a plan say, with their own error."""

from dataclasses import dataclass

from armorplan.schedule.problem import Job, Plan, Problem
from armorplan.schedule.promise.causes import Cause, Gone, causes
from armorplan.schedule.promise.draws import factors
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import policy_of
from armorplan.schedule.promise.quantiles import Quantile, Share, quantile, share_by

RUNS, SEED, ODDS_PCT = 1000, 1, 80
USUAL_PCT = (50, 80, 95)


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


def promise(
    problem: Problem,
    plan: Plan,
    *,
    odds_pct: int = ODDS_PCT,
    runs: int = RUNS,
    seed: int = SEED,
    why: bool = True,
) -> Promise:
    """Return by when the builds of a plan can be promised.

    Args:
        problem: with spreads and causes of its activities.
        plan: one that holds; its sequence is kept in each run (``promise.policy``).
        odds_pct: from 1 to 99.
        runs: how many; 1,000 tell 80 % within 2.5 %.
        seed: the draws follow from it.
        why: whether causes are sought, at the cost of some more runs for each.
    """
    parts, drawn = policy_of(problem, plan), factors(problem, runs=runs, seed=seed)
    gone = Gone(
        problem=problem,
        plan=plan,
        parts=parts,
        factors=drawn,
        runs=runs,
        going=Going(parts, drawn, runs=runs),
    )
    jobs = jobs_of(problem)
    ends, found = gone.ends_of(jobs), causes(gone, jobs, odds_pct) if why else {}
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
