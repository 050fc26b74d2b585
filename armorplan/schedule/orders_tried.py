"""Orders in which a plan is laid again, each a little other than one that went well."""

from collections.abc import Iterator, Mapping
from random import Random

from armorplan.schedule.batching import OF_A_BUILD, OF_ALL, READY, Patience
from armorplan.schedule.measures import job_end
from armorplan.schedule.problem import Job, Placed, Problem
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, Try, serial_placings

_FAR_MIN = (200, 700, 2400)
"""Builds and steps are drawn sooner or later by about so many minutes."""
_BUILDS_MOVED = 0.6
"""How often one build is moved against the others."""
_BY_URGENCY = 0.4
"""How often the order is by what is urgent, where anything is due."""
_ORDER_MOVED = 0.3
"""How often a build is moved then."""


class Orders:
    """Draws orders and lays them: near that of the plan at hand, or by what is urgent.

    Near means: what is late sooner, what has time later. By what is urgent, each step stands by
    its last start, and builds are moved against each other: an order that gained is kept, and the
    next is drawn near it.
    """

    def __init__(
        self,
        problem: Problem,
        rng: Random,
        urgent: Mapping[str, int],
        at_hand: tuple[Placed, ...],
    ) -> None:
        self._problem = problem
        self._rng = rng
        self._urgent = urgent
        self._lies = {p.id: p for p in at_hand}
        self._order = [0.0] * len(problem.jobs)
        self._tried: list[float] | None = None
        self._laid = serial_placings(problem, self._tries())
        dips = any(a.dip is not None for a in problem.activities)
        self._patiences: tuple[Patience, ...] = (OF_A_BUILD, READY, OF_ALL) if dips else (READY,)

    def next(self, at_hand: tuple[Placed, ...]) -> tuple[Placed, ...] | Stuck:
        """Lay the next one."""
        self._lies |= {p.id: p for p in at_hand}
        return next(self._laid)

    def gained(self) -> None:
        """Take in that the last plan is the nearest so far."""
        if self._tried is not None:
            self._order = self._tried

    def _tries(self) -> Iterator[Try]:
        while True:
            self._tried = None
            by_urgency = self._urgent and self._rng.random() < _BY_URGENCY
            rank = self._urgent_rank() if by_urgency else self._near_rank()
            yield rank, self._rng.choice(self._patiences)

    def _urgent_rank(self) -> dict[str, Rank]:
        self._tried = moved = list(self._order)
        far = self._rng.choice(_FAR_MIN)
        for at in range(len(moved)):
            if self._rng.random() < max(_ORDER_MOVED, 1 / len(moved)):
                moved[at] += self._rng.gauss(0, far)
        by = self._by_step(moved)
        noise = self._rng.choice((0.0, 60.0, 300.0))
        return {
            a.id: (
                int(self._urgent.get(a.id, 0) + by.get(a.id, 0.0) + self._rng.gauss(0, noise)),
                a.priority,
            )
            for a in self._problem.activities
        }

    def _near_rank(self) -> dict[str, Rank]:
        far = self._rng.choice(_FAR_MIN)
        moved = self._by_step([self._moved(job, far) for job in self._problem.jobs])
        noise = self._rng.choice((0, 1 + far // 8, far))
        return {
            a.id: (
                int(self._lies[a.id].start_min + moved.get(a.id, 0) + self._rng.gauss(0, noise)),
                at,
            )
            for at, a in enumerate(self._problem.activities)
        }

    def _moved(self, job: Job, far: int) -> float:
        """Return by how much the steps of a build are laid sooner or later."""
        if self._rng.random() >= _BUILDS_MOVED:
            return 0.0
        by = self._rng.gauss(0, far)
        if job.due_min is not None:
            late = job_end(job, self._lies) - job.due_min
            by += far * (-1 if late > 0 else self._rng.random())
        return by

    def _by_step(self, moved: list[float]) -> dict[str, float]:
        jobs = zip(self._problem.jobs, moved, strict=True)
        return {name: by for job, by in jobs for name in job.activities}
