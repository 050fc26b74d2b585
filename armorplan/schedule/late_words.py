"""Builds that are late, in sentences: how late, what is proved of it, and what holds them up."""

from collections.abc import Sequence
from dataclasses import dataclass

from armorplan.kernel.units import span_words
from armorplan.schedule.lag_cycle import lag_cycle, title
from armorplan.schedule.measures import job_end
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Job, Plan, Problem, Stage
from armorplan.schedule.soonest import earliest_times
from armorplan.schedule.waited import Because, Wait, longest_waits

MOST_NAMED = 3
"""Of more late builds the latest are named and the rest counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LateBuild:
    """A build that ends after it is due; no plan has it end before ``soonest_min``."""

    job: Job
    end_min: int
    due_min: int
    soonest_min: int

    @property
    def late_min(self) -> int:
        """By how much it is late."""
        return self.end_min - self.due_min

    @property
    def name(self) -> str:
        """What sentences call it."""
        return f"“{self.job.title or self.job.id}”"

    @property
    def is_out_of_reach(self) -> bool:
        """Whether no plan can have it in time."""
        return self.soonest_min > self.due_min


def late_builds(problem: Problem, plan: Plan) -> tuple[LateBuild, ...]:
    """Return the builds that are late, the latest first."""
    lies = {p.id: p for p in plan.placed}
    due = {job.id: job.due_min for job in problem.jobs if job.due_min is not None}
    ends = {job.id: job_end(job, lies) for job in problem.jobs if job.id in due and lies}
    late = [job for job in problem.jobs if ends.get(job.id, 0) > due.get(job.id, 2**60)]
    if not late:
        return ()
    soonest = _soonest_ends(problem, late)
    found = [
        LateBuild(
            job=job,
            end_min=ends[job.id],
            due_min=due[job.id],
            soonest_min=min(ends[job.id], soonest.get(job.id, 0)),
        )
        for job in late
    ]
    return tuple(sorted(found, key=lambda each: (-each.late_min, each.name)))


def _soonest_ends(problem: Problem, jobs: Sequence[Job]) -> dict[str, int]:
    """Return what no plan ends these builds before: every step alone, waits and hours kept."""
    if lag_cycle(problem):
        return {}
    ends = earliest_times(problem).ends
    return {job.id: max((ends.get(i, 0) for i in job.activities), default=0) for job in jobs}


def late_words(problem: Problem, plan: Plan, stage: Stage, naming: Naming) -> str:
    """Return which builds are late and by how much, what is proved of it, and why the latest is."""
    late = late_builds(problem, plan)
    if not late:
        return _lateness(stage)
    told = [
        f"{each.name} ends {span_words(each.late_min)} late, {_at(problem, each.end_min, naming)}."
        for each in late[:MOST_NAMED]
    ]
    more = len(late) - MOST_NAMED
    if more > 0:
        told.append(f"{more} more {'is' if more == 1 else 'are'} late.")
    told.append(_proof(problem, late, stage, naming))
    why = _why(problem, plan, late, naming)
    return " ".join([*told, *([why] if why else [])])


def _lateness(stage: Stage) -> str:
    """Tell of lateness where it is not known which builds are late."""
    known = "No plan is less late." if stage.value <= stage.bound else _UNKNOWN
    return f"Builds end {span_words(stage.value)} late in all. {known}"


_UNKNOWN = "Whether they can be sooner is not known yet."


def _proof(problem: Problem, late: Sequence[LateBuild], stage: Stage, naming: Naming) -> str:
    if stage.value <= stage.bound:
        if len(late) == 1:
            return "No plan is less late: the date asked is out of reach."
        by = ", counted by weight" if any(each.job.weight != 1 for each in late) else ""
        return f"No plan is less late in all{by}: not every date asked can be kept."
    if len(late) > 1:
        return " ".join([_UNKNOWN, *_out_of_reach(problem, late, naming)])
    (one,) = late
    soonest = _soonest(problem, one, stage)
    if soonest >= one.end_min:
        return "No plan can end it sooner."
    if soonest <= one.due_min:
        return "Whether it can be in time is not known yet."
    at = _at(problem, soonest, naming)
    return f"Whether it can be sooner is not known yet: no plan can end before {at}."


def _soonest(problem: Problem, one: LateBuild, stage: Stage) -> int:
    """Return what no plan ends a build before, also by what is proved of all lateness."""
    due = [job for job in problem.jobs if job.due_min is not None]
    if len(due) > 1:
        return one.soonest_min
    return max(one.soonest_min, one.due_min - (-stage.bound // max(1, one.job.weight)))


def _out_of_reach(problem: Problem, late: Sequence[LateBuild], naming: Naming) -> list[str]:
    return [
        f"{each.name} cannot be in time: no plan can end it before "
        f"{_at(problem, each.soonest_min, naming)}."
        for each in late[:MOST_NAMED]
        if each.is_out_of_reach
    ]


def _why(problem: Problem, plan: Plan, late: Sequence[LateBuild], naming: Naming) -> str:
    waits = longest_waits(problem, plan, late[0].job)
    if not waits:
        return ""
    whom = "it" if len(late) == 1 else late[0].name
    return f"What holds {whom} up longest: {'; '.join(_wait(problem, w, naming) for w in waits)}."


def _wait(problem: Problem, wait: Wait, naming: Naming) -> str:
    since, till = (_at(problem, minute, naming) for minute in wait.window)
    match wait.because:
        case Because.DRIES:
            return f"{title(problem, wait.of)} lasts until {till}"
        case Because.RESTS:
            return f"{title(problem, wait.of)} is left alone until {till}"
        case Because.AWAY:
            return f"{naming.of(wait.of)} is not there from {since} to {till}"
        case Because.BUSY:
            return f"{title(problem, wait.of)} waits for free hands and places until {till}"


def _at(problem: Problem, minute: int, naming: Naming) -> str:
    at = naming.at(problem, minute)
    return f"{at:%a} {at.day} {at:%b %H:%M}"
