"""The solver's part of a plan, stage by stage; the best plan so far always stands."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from typing import Protocol

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.bounds import finish_bound
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import conflict_words, smallest_conflict
from armorplan.schedule.cp import Layout
from armorplan.schedule.keeping import jumps, order_pairs, pulled_earlier
from armorplan.schedule.problem import Placed, Plan, Problem, Stage, Status
from armorplan.schedule.stages import JUMPS, finish_stage, stage
from armorplan.solving.model import Answer, Effort, Model, Outcome

_FINISH_SHARE = 0.6
"""How much of the time goes to the finish; the rest to keeping to the order."""
_WORK_SHARE = 1.0
"""Work the solver may spend for each second, in its own unit: so little that work, not the
clock, usually ends a search, and the same problem gets the same plan again."""
_PROBE_S, _MOST_PROBES = 1.0, 80
"""How long to look whether some demands have a plan, and how often, to make a conflict small."""


class Solver(Protocol):
    """Solves models; ``solving.keeper.SolverKeeper`` is the real one."""

    def solve(
        self,
        model: Model,
        *,
        on_better: Callable[[Answer], None] | None = None,
        should_stop: Callable[[], bool] | None = None,
    ) -> Answer:
        """Return the answer; raises SolverLostError where the solver cannot be had."""
        ...


class Search:
    """One search. ``best`` has passed the checker, or holds nothing and says why."""

    def __init__(
        self,
        problem: Problem,
        solver: Solver,
        start: Plan,
        on_better: Callable[[Plan], None] | None,
        should_stop: Callable[[], bool] | None,
    ) -> None:
        self._problem = problem
        self._solver = solver
        self._on_better = on_better
        self._should_stop = should_stop
        self._stopped = False
        self._probes = 0
        self.best = start

    def run(self, seconds: float) -> Plan:
        """Go through the stages; return the best plan, or why there is none."""
        # When the solver is lost, what was found so far stands.
        with suppress(SolverLostError):
            if self.best.status is not Status.BEST:
                self._soonest(_effort(seconds * _FINISH_SHARE))
            if self.best.placed and not self._stopped:
                self._in_order(_effort(seconds * (1 - _FINISH_SHARE)))
        return self.best

    def _soonest(self, effort: Effort) -> None:
        start = self.best
        bound = start.stages[0].bound if start.placed else finish_bound(self._problem)
        most = start.finish_min if start.placed else self._problem.horizon_min
        if bound > most:
            self.best = self._none(Outcome.NONE)
            return
        layout = Layout(self._problem, most)
        model = layout.soonest_finish(least_min=bound, effort=effort, hint=start.placed)

        def stages_of(placed: tuple[Placed, ...], answer: Answer) -> tuple[Stage, ...]:
            proved = bound if answer.bound is None else max(bound, answer.bound)
            return (finish_stage(placed, proved, Status(answer.status)),)

        answer = self._solve(layout, model, stages_of)
        if not answer.values and not start.placed:
            self.best = self._none(answer.status)
        elif not answer.values and self._stopped:
            (finish,) = stages_of(start.placed, answer)
            self.best = replace(start, status=finish.status, stages=(finish,))

    def _in_order(self, effort: Effort) -> None:
        pairs = order_pairs(self._problem)
        finish = self.best.stages[0]
        out_of_order = jumps(self._problem, self.best.placed)
        if not out_of_order:
            done = stage(JUMPS, 0, 0, Status.BEST)
            self.best = replace(self.best, stages=(finish, done))
            return
        layout = Layout(self._problem, finish.value)
        model = layout.fewest_jumps(pairs, effort=effort, hint=self.best.placed)

        def stages_of(placed: tuple[Placed, ...], answer: Answer) -> tuple[Stage, ...]:
            return (
                finish_stage(placed, finish.bound, finish.status),
                stage(
                    JUMPS, jumps(self._problem, placed), answer.bound or 0, Status(answer.status)
                ),
            )

        self._solve(layout, model, stages_of)

    def _solve(
        self,
        layout: Layout,
        model: Model,
        stages_of: Callable[[tuple[Placed, ...], Answer], tuple[Stage, ...]],
    ) -> Answer:
        """Solve, keep and tell what is better, and keep the final answer."""

        def keep(answer: Answer) -> None:
            placed = layout.placed(answer.values)
            for tidy in (pulled_earlier(self._problem, placed), placed):
                stages = stages_of(tidy, answer)
                plan = Plan(status=stages[0].status, placed=tidy, stages=stages, made_by="solver")
                if not violations(self._problem, plan):
                    self.best = plan
                    return

        def better(answer: Answer) -> None:
            keep(answer)
            if self._on_better is not None and self.best.placed:
                self._on_better(self.best)

        answer = self._solver.solve(model, on_better=better, should_stop=self._should_stop)
        self._stopped = answer.status is Outcome.STOPPED
        if answer.values:
            keep(answer)
        return answer

    def _none(self, outcome: Outcome) -> Plan:
        if outcome is Outcome.STOPPED:
            return Plan(status=Status.STOPPED, conflict="Stopped before a plan was found.")
        if outcome is not Outcome.NONE:
            return self.best
        clash = smallest_conflict(self._problem, self._is_possible)
        words = conflict_words(self._problem, clash)
        return Plan(status=Status.NONE, conflict=words, made_by="solver")

    def _is_possible(self, problem: Problem) -> bool | None:
        self._probes += 1
        if self._probes > _MOST_PROBES:
            return None
        model = Layout(problem, problem.horizon_min).any_plan(effort=_effort(_PROBE_S))
        answer = self._solver.solve(model, should_stop=self._should_stop)
        if answer.status is Outcome.NONE:
            return False
        return True if answer.values else None


def _effort(seconds: float) -> Effort:
    return Effort(seconds=seconds, work=seconds * _WORK_SHARE)
