"""A plan read for its hints: where things lie, and which dips of it go into a bath together."""

from collections.abc import Callable, Mapping
from itertools import pairwise

from armorplan.schedule.problem import Placed, Problem
from armorplan.solving.model import Term

_Told = Callable[["Reading"], int]
_Batch = tuple[str, int]
"""A bath and the minute a batch goes into it."""


class Reading:
    """A plan of all activities, and the values that the solver's variables have in it."""

    def __init__(self, problem: Problem, placed: tuple[Placed, ...]) -> None:
        self.lies = {p.id: p for p in placed}
        self._values: dict[str, int] = {}
        self._told: Mapping[str, _Told] = {}
        self._batch_of: dict[str, _Batch] = {}
        self._leaders: dict[_Batch, str] = {}
        fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
        for activity in sorted(problem.activities, key=lambda a: a.id not in fixed):
            placed_here = self.lies[activity.id]
            way = activity.way(placed_here.who, placed_here.mode)
            if activity.dip is not None and way is not None:
                batch = (way.bath, placed_here.start_min)
                self._batch_of[activity.id] = batch
                self._leaders.setdefault(batch, activity.id)
        batches = sorted(self._leaders)
        self._before = {
            self._leaders[two]: self._leaders[one]
            for one, two in pairwise(batches)
            if one[0] == two[0]
        }

    def value(self, name: str, told: Mapping[str, _Told]) -> int:
        """Return the value of a variable, told by ``told`` together with those it leans on."""
        self._told = told
        return self.at((name, 0))

    def at(self, term: Term) -> int:
        """Return the value of a variable and what is added to it."""
        name, offset = term
        if name not in self._values:
            self._values[name] = self._told[name](self)
        return self._values[name] + offset

    def start(self, name: str) -> int:
        """Return the minute an activity starts."""
        return self.lies[name].start_min

    def end(self, name: str) -> int:
        """Return the minute an activity ends."""
        return self.lies[name].end_min

    def bath(self, name: str) -> str:
        """Return the bath a dip goes into; empty for none."""
        return self._batch_of[name][0] if name in self._batch_of else ""

    def leader(self, name: str) -> str:
        """Return the dip that speaks for the batch of a dip: a fixed one, or the first."""
        return self._leaders[self._batch_of[name]] if name in self._batch_of else ""

    def before(self, leader: str) -> str:
        """Return the dip that speaks for the batch before in the same bath; empty for none."""
        return self._before.get(leader, "")
