"""Whether a problem has any plan at all: told by the serial plan where it can, else by the solver."""

from collections.abc import Callable
from contextlib import suppress

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.cp import Layout
from armorplan.schedule.first import first_placing
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.never_reached import never_reached
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.searching import Solver
from armorplan.schedule.serial import Stuck
from armorplan.solving.model import Effort, Outcome

PROBE_S, MOST_PROBES = 1.0, 80
"""How long the solver looks at one problem, and how many it looks at."""


class Possible:
    """An oracle for ``conflict.smallest_conflict``.

    Args:
        solver: asked where the serial plan gets stuck; ``None``: then it cannot be told.
        should_stop: once it says yes nothing is told any more.
        probe_s: how long the solver may look at each.
    """

    def __init__(
        self,
        solver: Solver | None,
        should_stop: Callable[[], bool] | None = None,
        *,
        probe_s: float = PROBE_S,
    ) -> None:
        self._solver = solver
        self._should_stop = should_stop or (lambda: False)
        self._probe_s = probe_s
        self._probes = 0

    def __call__(self, problem: Problem) -> bool | None:
        """Tell whether it has a plan; ``None`` where that cannot be told in time."""
        if self._should_stop():
            return None
        if hopeless(problem) or lag_cycle(problem) or never_reached(problem):
            return False
        placing = first_placing(problem, should_stop=self._should_stop)
        if not isinstance(placing, Stuck) and _holds(problem, placing):
            return True
        return self._by_solver(problem)

    def _by_solver(self, problem: Problem) -> bool | None:
        self._probes += 1
        if self._solver is None or self._probes > MOST_PROBES:
            return None
        effort = Effort(seconds=self._probe_s, work=self._probe_s)
        layout = Layout(problem, problem.horizon_min)
        model = layout.any_plan(effort=effort)
        with suppress(SolverLostError):
            answer = self._solver.solve(model, should_stop=self._should_stop)
            if answer.status is Outcome.NONE:
                return False
            if answer.values and _holds(problem, layout.placed(answer.values)):
                return True
        return None


def _holds(problem: Problem, placed: tuple[Placed, ...]) -> bool:
    return not violations(problem, Plan(status=Status.GOOD, placed=placed))
