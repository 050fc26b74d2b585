"""What exercises are made from, and what a maker of one kind offers."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from armorplan.app.derived import Derived
from armorplan.practice.drill import Asked, Drill, Judged, Solved
from armorplan.solving.model import Answer as SolverAnswer
from armorplan.solving.model import Model

Solve = Callable[[Model], SolverAnswer]
"""Asks the solver, in its own process."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillSource:
    """A build as it follows from its pattern, shelf and shop; nothing at its bench counts.

    Attributes:
        solve: proves what counting and trying leave open; without it exercises that need it are
            not set.
    """

    derived: Derived
    solve: Solve | None = None


class DrillMaker(Protocol):
    """Makes, judges and solves one kind. All may take a while: never in the window's thread."""

    def make(self, source: DrillSource, asked: Asked) -> Drill | None:
        """Return the exercise; ``None`` where this build holds none that is not trivial.

        The same source and ``asked`` make the same exercise. What is asked that cannot be had
        (level, focus) gives way; a piece or part does not.
        """
        ...

    def judge(self, source: DrillSource, drill: Drill, answer: Sequence[str]) -> Judged:
        """Return what an answer is worth. Whatever keeps the relations is right.

        Raises:
            ArmorplanError: it is no answer to this exercise: what, and what one looks like.
        """
        ...

    def solve(self, source: DrillSource, drill: Drill) -> Solved:
        """Return a right answer, and how many others there are."""
        ...
