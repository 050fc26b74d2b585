"""How far a plan is from being in time: how late its builds are, and how much its steps are behind."""

from collections.abc import Iterable

from armorplan.schedule.last_starts import last_starts
from armorplan.schedule.measures import any_due, lateness
from armorplan.schedule.problem import Placed, Problem
from armorplan.solving.model import MOST


class Behind:
    """Measures plans of a problem, or of a part of it.

    How late builds are tells of few steps only, so of plans as late that one counts as nearer
    whose steps are less behind their last starts: room is made before it is needed.

    Attributes:
        urgent: the last start of each step; of what is not due that of what ends last of all.
        last_starts: those of what is due.
    """

    def __init__(self, problem: Problem) -> None:
        due = {i for job in problem.jobs if job.due_min is not None for i in job.activities}
        self.urgent = last_starts(problem) if any_due(problem) else {}
        self.last_starts = {name: self.urgent[name] for name in sorted(due & self.urgent.keys())}

    def of(self, problem: Problem, placed: Iterable[Placed]) -> tuple[int, int]:
        """Return the lateness and the minutes that steps are behind, added up."""
        lies = {p.id: p for p in placed}
        return lateness(problem, lies), self.minutes(lies.values())

    def minutes(self, placed: Iterable[Placed]) -> int:
        """Return the minutes that steps start after their last starts, added up."""
        behind = (p.start_min - self.last_starts.get(p.id, MOST) for p in placed)
        return sum(minutes for minutes in behind if minutes > 0)
