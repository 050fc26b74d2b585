"""Lays a plan again and again in an order a little other than its own: quick, and proves nothing."""

from collections.abc import Iterator
from random import Random

from armorplan.schedule.batching import OF_A_BUILD, OF_ALL, READY, Patience
from armorplan.schedule.measures import job_end
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, Try, serial_placings

_FAR = (100, 40, 12)
"""Builds and steps are drawn sooner or later by about one of these parts of the plan's length."""
_BUILDS_MOVED = 0.6
"""How often one build is moved against the others."""


class Relaying:
    """Draws orders near that of ``at_hand`` and lays them: what is late sooner, what has time later.

    The same seed and the same plans at hand give the same ones again.
    """

    def __init__(self, problem: Problem, seed: int, at_hand: tuple[Placed, ...]) -> None:
        self._problem = problem
        self._rng = Random(seed)  # noqa: S311 - which order to try next is no secret.
        self.at_hand = at_hand
        self._laid = serial_placings(problem, self._tries())
        dips = any(a.dip is not None for a in problem.activities)
        self._patiences: tuple[Patience, ...] = (OF_A_BUILD, READY, OF_ALL) if dips else (READY,)

    def next(self) -> tuple[Placed, ...]:
        """Return the next plan; the one at hand where no place was found."""
        laid = next(self._laid)
        return self.at_hand if isinstance(laid, Stuck) else laid

    def _tries(self) -> Iterator[Try]:
        while True:
            yield self._rank(), self._rng.choice(self._patiences)

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
