"""What a plan is worth, stage by stage: the smaller, the better, and an earlier stage counts first."""

from collections.abc import Iterable, Mapping
from itertools import pairwise

from armorplan.schedule.activity import Activity
from armorplan.schedule.company import as_alone, beside_in, beside_somebody
from armorplan.schedule.keeping import jumps
from armorplan.schedule.problem import Job, Placed, Problem
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS, MOVED


def goals(problem: Problem, placed: Iterable[Placed]) -> dict[str, int]:
    """Return the value of every stage that says anything of this problem, in the order they count.

    A stage that is nothing for every plan of the problem, such as lateness where nothing is due,
    is left out; the finish never is.
    """
    lies = {p.id: p for p in placed}
    found = {LATENESS: lateness(problem, lies)} if any_due(problem) else {}
    if problem.stood:
        found[MOVED] = moved(problem, lies)
    found[FINISH] = max((p.end_min for p in lies.values()), default=0)
    if problem.workers or problem.baths:
        found[CHANGES] = changes(problem, lies)
    found[JUMPS] = jumps(problem, lies.values())
    if any(a.soon for a in problem.activities):
        found[FITS] = fits(problem, lies)
    return found


def any_due(problem: Problem) -> bool:
    """Tell whether any job is due."""
    return any(job.due_min is not None for job in problem.jobs)


def job_end(job: Job, lies: Mapping[str, Placed]) -> int:
    """Return the minute at which a job's last activity ends."""
    return max((lies[i].end_min for i in job.activities), default=0)


def lateness(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return the minutes that jobs end after they are due, each times its weight."""
    return sum(
        job.weight * max(0, job_end(job, lies) - job.due_min)
        for job in problem.jobs
        if job.due_min is not None
    )


def moved(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return how many steps still free start otherwise than they stood, or have other people at it."""
    free = {a.id: a for a in problem.activities if a.fixed_start_min is None}
    return sum(
        not is_as_it_stood(free[p.id], p, lies[p.id])
        for p in problem.stood
        if p.id in free and p.id in lies
    )


def is_as_it_stood(activity: Activity, stood: Placed, placed: Placed) -> bool:
    """Tell whether a step starts as it stood, with the same people at the bench.

    Whether somebody learns it from who would do it alone is all one: nobody else has to go by it.
    """
    stood, placed = as_alone(activity, stood), as_alone(activity, placed)
    if (placed.start_min, placed.who) != (stood.start_min, stood.who):
        return False
    return placed.mode == stood.mode or beside_in(activity, placed) == beside_in(activity, stood)


def changes(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return how many batches are set up, colours changed, and times come to the bench, in all."""
    baths = batches(problem, lies) + colour_changes(problem, lies)
    return baths + times_at_bench(problem, lies)


def batches(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return how many batches are still to be set up: coats that go in together cost it once.

    A batch that history began was set up long ago.
    """
    set_up: dict[tuple[str, int], bool] = {}
    for activity in problem.activities:
        placed = lies.get(activity.id)
        way = activity.way(placed.who, placed.mode) if placed else None
        if placed is not None and activity.dip is not None and way is not None and way.bath:
            batch, is_free = (way.bath, placed.start_min), activity.fixed_start_min is None
            set_up[batch] = set_up.get(batch, True) and is_free
    return sum(set_up.values())


def colour_changes(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return how often a bath has to be changed from one family to another."""
    held: dict[str, dict[int, str]] = {bath.id: {} for bath in problem.baths}
    for activity in problem.activities:
        if activity.dip is not None and activity.id in lies:
            placed = lies[activity.id]
            way = activity.way(placed.who, placed.mode)
            if way is not None and way.bath in held:
                held[way.bath][placed.start_min] = activity.dip.family
    count = 0
    for bath in problem.baths:
        families = [held[bath.id][start] for start in sorted(held[bath.id])]
        before = [bath.holds] if bath.holds else []
        count += sum(one != other for one, other in pairwise([*before, *families]))
    return count


def times_at_bench(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return in how many stretches of their hours people have anything to do.

    A week that is worked through in fewer of them leaves whole half-days free; work scattered
    over all of them breaks the days up. Who is at the bench beside somebody is there as well.
    """
    beside = beside_somebody(problem.activities, lies)
    count = 0
    for worker in problem.workers:
        own = (p for p in lies.values() if p.who == worker.id)
        mine = sorted(
            (p.start_min, p.end_min)
            for p in (*own, *beside.get(worker.id, ()))
            if p.start_min < p.end_min
        )
        at = 0
        for begin, end in worker.windows:
            while at < len(mine) and mine[at][1] <= begin:
                at += 1
            count += at < len(mine) and mine[at][0] < end
    return count


def fits(problem: Problem, lies: Mapping[str, Placed]) -> int:
    """Return the minutes at which what should be soon starts, added up."""
    return sum(lies[a.id].start_min for a in problem.activities if a.soon and a.id in lies)
