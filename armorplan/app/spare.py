"""What a plan leaves to spare: before a build is due, and before whoever comes for it has gone."""

from armorplan.kernel.units import span_words
from armorplan.schedule.activity import Window
from armorplan.schedule.measures import job_end
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Job, Placed, Plan, Problem


def spare_words(problem: Problem, plan: Plan, job: Job, naming: Naming) -> str:
    """Return what a build has to spare in a plan, in sentences; empty where it has no date.

    The second one is of the visit that leaves least: a little later, and it is missed.
    """
    lies = {placed.id: placed for placed in plan.placed}
    if job.due_min is None or not all(one in lies for one in job.activities):
        return ""
    spare_min = job.due_min - job_end(job, lies)
    told = (
        f"The plan leaves {span_words(spare_min)} before it is due."
        if spare_min >= 0
        else f"The plan ends it {span_words(-spare_min)} after it is due."
    )
    return f"{told} {_visit_words(problem, job, lies, naming)}".strip()


def _visit_words(problem: Problem, job: Job, lies: dict[str, Placed], naming: Naming) -> str:
    """Return what is left of the visit that is closest to its end, and when the next one is."""
    hours = {worker.id: worker.windows for worker in problem.workers}
    mine = frozenset(job.activities)
    visits = [
        (window[1] - lies[one.id].end_min, window, who, one.title or one.id)
        for one in problem.activities
        if one.id in mine and one.fixed_start_min is None
        for who in one.also
        for window in hours.get(who, ())
        if window[0] <= lies[one.id].start_min < window[1]
    ]
    if not visits:
        return ""
    left_min, window, who, title = min(visits)
    return (
        f"“{title}” ends {span_words(left_min)} before {naming.of(who)} leaves "
        f"({naming.moment(problem, window[1])}); {_next_words(problem, who, window, naming)}."
    )


def _next_words(problem: Problem, who: str, window: Window, naming: Naming) -> str:
    later = (
        start
        for worker in problem.workers
        if worker.id == who
        for start, _ in worker.windows
        if start > window[1]
    )
    start = next(later, None)
    if start is None:
        return "no later visit is in the shop's hours"
    return f"the next visit is {naming.moment(problem, start)}"
