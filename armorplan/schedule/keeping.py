"""How well a plan keeps to the chosen order."""

from collections.abc import Iterable
from itertools import pairwise

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed, Problem

Pair = tuple[str, str]


def order_pairs(problem: Problem) -> tuple[Pair, ...]:
    """Return the hands-on activities that follow each other in the chosen order, as pairs.

    Each job has an order of its own; what belongs to none has one together. Pairs of equal
    priority have no chosen order; what is fixed cannot be kept to any.
    """
    job_of = {name: at for at, job in enumerate(problem.jobs) for name in job.activities}
    by_hand = [a for a in problem.activities if a.people and a.fixed_start_min is None]
    chosen: dict[int, list[Activity]] = {}
    for activity in sorted(by_hand, key=lambda a: a.priority):
        chosen.setdefault(job_of.get(activity.id, len(problem.jobs)), []).append(activity)
    return tuple(
        (a.id, b.id)
        for _, mine in sorted(chosen.items())
        for a, b in pairwise(mine)
        if a.priority < b.priority
    )


def jumps(problem: Problem, placed: Iterable[Placed]) -> int:
    """Return how many pairs of the chosen order stand the other way round.

    A row of steps moved elsewhere as one counts once or twice, one hopping to and fro counts
    often: it is what the person at the bench notices.
    """
    starts = {p.id: p.start_min for p in placed}
    return sum(starts[first] > starts[then] for first, then in order_pairs(problem))
