"""Lays a plan again and again in an order a little other than its own: quick, and proves nothing."""

from collections.abc import Iterator
from random import Random

from armorplan.schedule.batching import OF_A_BUILD, OF_ALL, READY, Patience
from armorplan.schedule.last_starts import last_starts
from armorplan.schedule.measures import any_due, job_end
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, Try, serial_placings

_FAR = (100, 40, 12)
"""Builds and steps are drawn sooner or later by about one of these parts of the plan's length."""
_BUILDS_MOVED = 0.6
"""How often one build is moved against the others."""

_BY_URGENCY = 0.4
"""How often the order is by what is urgent, where anything is due."""
_FAR_URGENT = (6, 20, 60)
"""Builds are moved by about one of these parts of the plan's length against each other."""
_ORDER_MOVED = 0.3
"""How often a build is."""


class Relaying:
    """Draws orders and lays them: near that of ``at_hand``, or by what is urgent.

    Near means: what is late sooner, what has time later. By what is urgent, each step stands by
    its last start, and builds are moved against each other: an order that gained is kept, and the
    next is drawn near it. The same seed and the same plans at hand give the same ones again.
    """

    def __init__(self, problem: Problem, seed: int, at_hand: tuple[Placed, ...]) -> None:
        self._problem = problem
        self._rng = Random(seed)  # noqa: S311 - which order to try next is no secret.
        self.at_hand = at_hand
        self._urgent = last_starts(problem) if any_due(problem) else {}
        self._order: list[float] = [0.0] * len(problem.jobs)
        self._tried: list[float] | None = None
        self._laid = serial_placings(problem, self._tries())
        dips = any(a.dip is not None for a in problem.activities)
        self._patiences: tuple[Patience, ...] = (OF_A_BUILD, READY, OF_ALL) if dips else (READY,)

    def next(self) -> tuple[Placed, ...]:
        """Return the next plan; the one at hand where no place was found."""
        laid = next(self._laid)
        return self.at_hand if isinstance(laid, Stuck) else laid

    def gained(self) -> None:
        """Take in that the last plan is the nearest so far."""
        if self._tried is not None:
            self._order = self._tried

    def _tries(self) -> Iterator[Try]:
        while True:
            self._tried = None
            by_urgency = self._urgent and self._rng.random() < _BY_URGENCY
            rank = self._urgent_rank() if by_urgency else self._rank()
            yield rank, self._rng.choice(self._patiences)

    def _urgent_rank(self) -> dict[str, Rank]:
        length = max((p.end_min for p in self.at_hand), default=0)
        self._tried = moved = list(self._order)
        far = length / self._rng.choice(_FAR_URGENT)
        for at in range(len(moved)):
            if self._rng.random() < max(_ORDER_MOVED, 1 / len(moved)):
                moved[at] += self._rng.gauss(0, far)
        by = {
            name: moved[at] for at, job in enumerate(self._problem.jobs) for name in job.activities
        }
        noise = self._rng.choice((0.0, far / 30, far / 8))
        return {
            a.id: (
                int(self._urgent.get(a.id, 0) + by.get(a.id, 0.0) + self._rng.gauss(0, noise)),
                a.priority,
            )
            for a in self._problem.activities
        }

    def _rank(self) -> dict[str, Rank]:
        lies = {p.id: p for p in self.at_hand}
        length = max((p.end_min for p in self.at_hand), default=0)
        far = 1 + length // self._rng.choice(_FAR)
        moved = self._moved_builds(lies, far)
        noise = self._rng.choice((0, 1 + far // 8, far))
        return {
            p.id: (int(p.start_min + moved.get(p.id, 0) + self._rng.gauss(0, noise)), at)
            for at, p in enumerate(self.at_hand)
        }

    def _moved_builds(self, lies: dict[str, Placed], far: int) -> dict[str, float]:
        """Return by how much the steps of builds are laid sooner or later."""
        moved: dict[str, float] = {}
        for job in self._problem.jobs:
            if self._rng.random() < _BUILDS_MOVED:
                by = self._rng.gauss(0, far)
                if job.due_min is not None:
                    late = job_end(job, lies) - job.due_min
                    by += far * (-1 if late > 0 else self._rng.random())
                moved |= dict.fromkeys(job.activities, by)
        return moved
