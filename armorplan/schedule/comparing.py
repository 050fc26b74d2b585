"""What a plan comes to, build by build, so that two can stand side by side."""

from dataclasses import dataclass

from armorplan.schedule.company import everybody
from armorplan.schedule.measures import colour_changes, job_end, lateness
from armorplan.schedule.problem import Job, Plan, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class JobSum:
    """One job in a plan: its end, and by how many minutes it is late; ``None`` without due date."""

    job: str
    end_min: int
    late_min: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanSum:
    """What a plan comes to.

    Attributes:
        lateness: minutes of all jobs, each times its weight.
        changes: how often baths change their colour.
        hands_min: minutes in which somebody is at work, by person.
    """

    finish_min: int
    lateness: int
    changes: int
    hands_min: tuple[tuple[str, int], ...]
    jobs: tuple[JobSum, ...]


def plan_sum(problem: Problem, plan: Plan) -> PlanSum | None:
    """Return what a plan comes to; ``None`` where nothing is placed."""
    if not plan.placed:
        return None
    lies = {p.id: p for p in plan.placed}
    return PlanSum(
        finish_min=plan.finish_min,
        lateness=lateness(problem, lies),
        changes=colour_changes(problem, lies),
        hands_min=_hands(problem, plan),
        jobs=tuple(
            JobSum(job=job.id, end_min=job_end(job, lies), late_min=_late(job, job_end(job, lies)))
            for job in problem.jobs
        ),
    )


def _late(job: Job, end_min: int) -> int | None:
    return None if job.due_min is None else max(0, end_min - job.due_min)


def _hands(problem: Problem, plan: Plan) -> tuple[tuple[str, int], ...]:
    """Return the minutes each person is at work; dips of one batch count once."""
    by_id = {a.id: a for a in problem.activities}
    there = {p.id: everybody(by_id[p.id], p) for p in plan.placed if p.id in by_id}
    found = []
    for worker in problem.workers:
        mine = {
            (max(p.start_min, begin), min(p.end_min, end))
            for p in plan.placed
            if worker.id in there.get(p.id, (p.who,))
            for begin, end in worker.windows
            if p.start_min < end and begin < p.end_min
        }
        found.append((worker.id, sum(max(0, end - start) for start, end in mine)))
    return tuple(found)


def moved_steps(before: Plan, after: Plan, *, shift_min: int = 0) -> tuple[str, ...]:
    """Return what starts at another minute, or is done by somebody else, in order of the new starts.

    Args:
        before: the plan at hand.
        after: the other one; what is only in one of them is passed over.
        shift_min: added to minutes of ``before``, where the origins differ.
    """
    stood = {p.id: (p.start_min + shift_min, p.who) for p in before.placed}
    moved = [p for p in after.placed if p.id in stood and stood[p.id] != (p.start_min, p.who)]
    return tuple(p.id for p in sorted(moved, key=lambda p: (p.start_min, p.id)))
