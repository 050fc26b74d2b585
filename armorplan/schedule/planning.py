"""Plans: a serial one at once, then the best the solver finds and proves in the time given."""

from collections.abc import Callable
from dataclasses import replace
from typing import Protocol

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.bounds import finish_bound
from armorplan.schedule.checker import violations
from armorplan.schedule.cp import Layout
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.problem import Placed, Plan, Problem, Stage, Status
from armorplan.schedule.serial import Stuck, by_priority, serial_placing
from armorplan.solving.model import Answer, Effort, Model, Outcome

FINISH, ORDER = "finish", "keeping to the chosen order"
_STATUS = {
    Outcome.BEST: Status.BEST,
    Outcome.GOOD: Status.GOOD,
    Outcome.NONE: Status.NONE,
    Outcome.STOPPED: Status.STOPPED,
    Outcome.OUT_OF_TIME: Status.OUT_OF_TIME,
}


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


def first_plan(problem: Problem) -> Plan:
    """Return the serial plan with the bound of its finish, or why none is possible."""
    ring = lag_cycle(problem)
    if ring:
        return Plan(status=Status.NONE, conflict=cycle_words(problem, ring))
    placing = serial_placing(problem, by_priority(problem))
    if isinstance(placing, Stuck):
        # No proof that there is none: the solver may still find one.
        return Plan(status=Status.OUT_OF_TIME, conflict=placing.text)
    return _with_finish(problem, placing, "serial")


def _with_finish(problem: Problem, placed: tuple[Placed, ...], made_by: str) -> Plan:
    value = max((p.end_min for p in placed), default=0)
    bound = min(value, finish_bound(problem))
    status = Status.BEST if value == bound else Status.GOOD
    stage = Stage(name=FINISH, value=value, bound=bound, status=status)
    return Plan(status=status, placed=placed, stages=(stage,), made_by=made_by)


def best_plan(
    problem: Problem,
    solver: Solver,
    *,
    hint: Plan | None = None,
    seconds: float = 10.0,
    on_better: Callable[[Plan], None] | None = None,
    should_stop: Callable[[], bool] | None = None,
) -> Plan:
    """Return the best plan found in time: the soonest finish, then close to the chosen order.

    Args:
        problem: what to plan.
        solver: solves the models; its death leaves the serial plan standing.
        hint: a plan to start from, used where it holds for this problem.
        seconds: time for all stages together.
        on_better: told each better plan that passes the checker.
        should_stop: asked often; the best plan so far comes back when it says yes.
    """
    first = first_plan(problem)
    if first.status is Status.NONE:
        return first
    start = _better_of(problem, first, hint)
    search = _Search(problem, solver, on_better, should_stop)
    try:
        finished = search.soonest(start, seconds * 0.6)
        return search.in_order(finished, seconds * 0.4) if finished.placed else finished
    except SolverLostError:
        return search.best or start


def _better_of(problem: Problem, first: Plan, hint: Plan | None) -> Plan:
    if hint is None or not hint.placed or violations(problem, replace(hint, stages=())):
        return first
    if first.placed and first.finish_min <= hint.finish_min:
        return first
    return _with_finish(problem, hint.placed, hint.made_by)


class _Search:
    """The stages of one search; ``best`` is the last plan that passed the checker."""

    def __init__(
        self,
        problem: Problem,
        solver: Solver,
        on_better: Callable[[Plan], None] | None,
        should_stop: Callable[[], bool] | None,
    ) -> None:
        self._problem = problem
        self._solver = solver
        self._on_better = on_better
        self._should_stop = should_stop
        self.best: Plan | None = None

    def soonest(self, start: Plan, seconds: float) -> Plan:
        """Return the plan with the soonest finish found, with its bound."""
        if start.placed:
            self.best = start
        if start.status is Status.BEST:
            return start
        bound = finish_bound(self._problem)
        most = start.finish_min if start.placed else self._problem.horizon_min
        layout = Layout(self._problem, most)
        model = layout.soonest_finish(
            least_min=bound, effort=Effort(seconds=seconds), hint=start.placed
        )
        answer = self._solve(layout, model, lambda placed, found: self._plan(placed, found, bound))
        if answer.values:
            return self._kept(self._plan(layout.placed(answer.values), answer, bound))
        if answer.status is Outcome.NONE and not start.placed:
            return Plan(status=Status.NONE, conflict=start.conflict, made_by="solver")
        return start

    def _plan(self, placed: tuple[Placed, ...], answer: Answer, bound: int) -> Plan:
        value = max((p.end_min for p in placed), default=0)
        proved = max(bound, min(value, answer.bound if answer.bound is not None else bound))
        status = Status.BEST if value == proved else _STATUS[answer.status]
        stage = Stage(name=FINISH, value=value, bound=proved, status=status)
        return Plan(status=status, placed=placed, stages=(stage,), made_by="solver")

    def in_order(self, finished: Plan, seconds: float) -> Plan:
        """Return a plan no later whose hands-on steps follow the chosen order as far as found.

        One person is done soonest by weight over minutes (Smith's rule); weights of minutes ×
        how early a step stands in the order make that ratio the order itself.
        """
        layout = Layout(self._problem, finished.finish_min)
        free = [a for a in self._problem.activities if a.people and a.fixed_start_min is None]
        free.sort(key=lambda a: a.priority)
        weights = {a.id: a.minutes * (len(free) - at) for at, a in enumerate(free)}
        model = layout.least_waiting(weights, effort=Effort(seconds=seconds), hint=finished.placed)

        def second(placed: tuple[Placed, ...], answer: Answer) -> Plan:
            value = layout.waiting(placed, weights)
            bound = min(value, answer.bound if answer.bound is not None else 0)
            status = Status.BEST if value == bound else _STATUS[answer.status]
            stage = Stage(name=ORDER, value=value, bound=bound, status=status)
            return replace(
                finished, placed=placed, stages=(*finished.stages, stage), made_by="solver"
            )

        answer = self._solve(layout, model, second)
        if not answer.values:
            return finished
        return self._kept(second(layout.placed(answer.values), answer))

    def _solve(
        self,
        layout: Layout,
        model: Model,
        plan_of: Callable[[tuple[Placed, ...], Answer], Plan],
    ) -> Answer:
        def better(answer: Answer) -> None:
            plan = self._kept(plan_of(layout.placed(answer.values), answer))
            if self._on_better is not None:
                self._on_better(plan)

        return self._solver.solve(model, on_better=better, should_stop=self._should_stop)

    def _kept(self, plan: Plan) -> Plan:
        """Keep a plan that passes the checker; otherwise the one before it stands."""
        if not violations(self._problem, plan):
            self.best = plan
        return self.best or plan
