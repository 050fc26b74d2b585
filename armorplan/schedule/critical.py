"""Earliest and latest times by the lags alone: no people, resources or calendars."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.schedule.network import Arc, arcs_of, longest_paths, shortest
from armorplan.schedule.problem import Problem

_FINISH = "\0finish"
"""A node after everything; no id can be it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """Earliest and latest start and end of one activity, in minutes from the origin."""

    id: str
    earliest_start_min: int
    earliest_end_min: int
    latest_start_min: int
    latest_end_min: int

    @property
    def slack_min(self) -> int:
        """Minutes it can slip without moving the finish; 0 on the critical path."""
        return self.latest_start_min - self.earliest_start_min


def latest_ends(problem: Problem) -> dict[str, int]:
    """Return when activities have to end, by the lags, so that builds end when they are due.

    What is due before it can be has been late before it began; what is not due only has to end by
    the soonest finish of all. Raises ValueError where the lags contradict each other.
    """
    due = {name: job.due_min for job in problem.jobs for name in job.activities}
    arcs = arcs_of(problem)
    starts, cycle = longest_paths(arcs)
    if cycle:
        raise ValueError("The lags contradict each other.")
    minutes = {a.id: shortest(a) for a in problem.activities}
    finish = max((starts[i] + minutes[i] for i in minutes), default=0)
    last = max([finish, *(minute for minute in due.values() if minute is not None)])
    by = {name: last if (at := due.get(name)) is None else at for name in minutes}
    tails = tails_of(arcs, {i: last - by[i] + minutes[i] for i in minutes})
    return {name: last - tails[name] + takes for name, takes in minutes.items()}


def tails_of(arcs: Iterable[Arc], minutes: Mapping[str, int]) -> dict[str, int]:
    """Return how long everything takes from the start of each activity on, at the least.

    Args:
        arcs: free of rings.
        minutes: what is needed from the start of each by itself.
    """
    back = [Arc(tail=a.head, head=a.tail, minutes=a.minutes) for a in arcs]
    back += [Arc(tail=_FINISH, head=i, minutes=takes) for i, takes in minutes.items()]
    return longest_paths(back, source=_FINISH)[0]


def critical_times(problem: Problem) -> tuple[Times, ...]:
    """Return the times of every activity, in the problem's order (critical path method).

    Durations by table count at their least. Raises ValueError where the lags contradict each
    other; ``lag_cycle`` says how.
    """
    arcs = arcs_of(problem)
    starts, cycle = longest_paths(arcs)
    if cycle:
        raise ValueError("The lags contradict each other.")
    minutes = {a.id: shortest(a) for a in problem.activities}
    finish = max((starts[i] + minutes[i] for i in minutes), default=0)
    tails = tails_of(arcs, minutes)
    return tuple(
        Times(
            id=i,
            earliest_start_min=starts[i],
            earliest_end_min=starts[i] + minutes[i],
            latest_start_min=finish - tails[i],
            latest_end_min=finish - tails[i] + minutes[i],
        )
        for i in minutes
    )
