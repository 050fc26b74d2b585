"""In which orders serial plans are tried: as chosen, by latest finish, by due date, and between."""

from collections.abc import Iterator, Mapping

from armorplan.schedule.critical import latest_ends
from armorplan.schedule.last_starts import last_starts
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Rank

_MIX = 4
"""The ranks tried weigh the chosen order by 4, 3 … 0 and latest finish by the rest."""


def ranks_of(problem: Problem) -> Iterator[dict[str, Rank]]:
    """Yield ranks to lay the activities by, one by one as asked for.

    What is due stands in the chosen order of its build, the sooner due build first.
    """
    chosen = in_chosen_order(problem)
    at_chosen = {name: at for at, name in enumerate(chosen)}
    yield {name: (at,) for name, at in at_chosen.items()}
    latest = latest_ends(problem)
    at_finish = _places(sorted(chosen, key=lambda name: (latest[name], at_chosen[name])))
    for k in range(1, _MIX + 1):
        yield {i: ((_MIX - k) * at_chosen[i] + k * at_finish[i], at_chosen[i]) for i in chosen}


def urgent_ranks(problem: Problem) -> Iterator[dict[str, Rank]]:
    """Yield ranks by what is urgent: the build that has to begin first, each step by its last start.

    First build by build, then all steps together.
    """
    urgent = last_starts(problem)
    begins = {job.id: min(urgent.get(i, 0) for i in job.activities) for job in problem.jobs}
    order = sorted(problem.jobs, key=lambda job: begins[job.id])
    build = {name: at for at, job in enumerate(order) for name in job.activities}
    last = len(order)
    yield {
        a.id: (build.get(a.id, last), urgent.get(a.id, 0), a.priority) for a in problem.activities
    }
    yield {a.id: (urgent.get(a.id, 0), a.priority) for a in problem.activities}
    yield {a.id: (build.get(a.id, last), a.priority) for a in problem.activities}


def by_starts(problem: Problem, earlier: tuple[Placed, ...]) -> dict[str, Rank]:
    """Return the rank by when activities start in a plan; what it does not know comes first."""
    started = {p.id: p.start_min for p in earlier}
    chosen = in_chosen_order(problem)
    return {name: (started.get(name, 0), at) for at, name in enumerate(chosen)}


def in_chosen_order(problem: Problem) -> list[str]:
    """Return the activities in the chosen order, those of what is due first and soonest first."""
    due = _dues(problem)
    last = max(due.values(), default=0) + 1
    by_rank = sorted(problem.activities, key=lambda a: (due.get(a.id, last), a.priority))
    return [a.id for a in by_rank]


def _dues(problem: Problem) -> dict[str, int]:
    """Return when what belongs to a build is due; of builds due together the weightier first."""
    due = [job for job in problem.jobs if job.due_min is not None]
    due.sort(key=lambda job: (job.due_min, -job.weight))
    return {name: at for at, job in enumerate(due) for name in job.activities}


def _places(names: list[str]) -> Mapping[str, int]:
    return {name: at for at, name in enumerate(names)}
