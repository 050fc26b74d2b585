"""The model language in CP-SAT, and its answers in our words. The only file that loads OR-Tools.

Runs in the worker process: CP-SAT 9.15 can abort the process it runs in.
"""

import threading
from collections.abc import Callable
from dataclasses import replace
from math import ceil
from typing import Any

from armorplan.solving.model import (
    Answer,
    AtLeastOne,
    Cumulative,
    Effort,
    Element,
    ExactlyOne,
    Interval,
    Latest,
    Least,
    Linear,
    Model,
    ModelError,
    NoOverlap,
    Outcome,
    Term,
)

_ASK_AGAIN_S = 0.01
_HALVING = 1000
_LARGE = 500
"""So many intervals make a model a large one."""
_LATEST = "the latest end"
"""Name of the hidden variable behind ``Latest``."""


def load() -> None:
    """Load OR-Tools now, so that the first solve need not wait for it (about half a second)."""
    from ortools.sat.python import cp_model  # noqa: F401


def solve(
    model: Model, stop: threading.Event, on_better: Callable[[Answer], None] | None = None
) -> Answer:
    """Search until proved, out of effort, or ``stop`` is set.

    ``on_better`` gets each better answer, from a thread of the solver. Raises ModelError where the
    model names what it does not hold.
    """
    from ortools.sat.python import cp_model

    if stop.is_set():
        return Answer(status=Outcome.STOPPED)
    laid = _Laid(model)
    solver = cp_model.CpSolver()
    _set_effort(solver.parameters, model.effort)
    _fit_to(solver.parameters, model)
    ended = threading.Event()
    asker = threading.Thread(target=_ask_to_stop, args=(solver, stop, ended), daemon=True)
    asker.start()
    try:
        code = solver.solve(laid.cp, _watcher(laid, on_better))
    finally:
        ended.set()
        asker.join()
    if code == cp_model.MODEL_INVALID:
        raise ModelError(laid.cp.validate())
    found = code in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    if stop.is_set():
        status = Outcome.STOPPED
    elif code == cp_model.OPTIMAL:
        status = Outcome.BEST
    elif found:
        status = Outcome.GOOD
    else:
        status = Outcome.NONE if code == cp_model.INFEASIBLE else Outcome.OUT_OF_TIME
    answer = laid.answer(solver, status) if found else Answer(status=status)
    work = solver.response_proto.deterministic_time
    return replace(answer, wall_s=solver.wall_time, work=work)


def _ask_to_stop(solver: Any, stop: threading.Event, ended: threading.Event) -> None:
    """Ask until the search has ended: one request made before it began would be lost."""
    while not ended.wait(_ASK_AGAIN_S):
        if stop.is_set():
            solver.stop_search()


def _set_effort(parameters: Any, effort: Effort) -> None:
    parameters.max_time_in_seconds = effort.seconds
    parameters.num_workers = effort.workers
    parameters.random_seed = effort.seed
    parameters.interleave_search = effort.repeatable and effort.workers > 1
    if effort.work is not None:
        parameters.max_deterministic_time = effort.work
    # Without probing a calendar model's first answer comes in 0.2 s instead of 3.8 s, and the
    # abort of 9.15 ('Infeasible solution!') has not been seen.
    parameters.cp_model_probing_level = 0
    # One thread has to do what the default portfolio spreads over eight: loads in windows are
    # proved by these, on 120 steps in 0.1 s; without them not in 10 s.
    parameters.use_overload_checker_in_cumulative = True
    parameters.use_timetable_edge_finding_in_cumulative = True
    parameters.use_hard_precedences_in_cumulative = True
    parameters.use_strong_propagation_in_disjunctive = True
    parameters.linearization_level = 2


def _fit_to(parameters: Any, model: Model) -> None:
    """Set what depends on the model."""
    one_at_a_time = any(isinstance(c, NoOverlap) for c in model.constraints)
    if isinstance(model.objective, Latest) and one_at_a_time:
        # Halving what the latest end can be, for so many conflicts each time: 180 steps by one
        # maker are proved in 4 s, without it not in 12 s. Where there are only places that take
        # several things it harms: of the hard ones of 30 steps half are left undecided. With a
        # second thread beside it nothing is proved in 17 s.
        parameters.num_workers = 1
        parameters.binary_search_num_conflicts = _HALVING
    if len(model.intervals) > _LARGE:
        # The second and third pass of presolve take as long again and shrink nothing.
        parameters.max_presolve_iterations = 1


def _watcher(laid: "_Laid", on_better: Callable[[Answer], None] | None) -> Any:
    from ortools.sat.python import cp_model

    if on_better is None:
        return None
    hand_on = on_better

    class Watcher(cp_model.CpSolverSolutionCallback):
        """Hands every better answer on."""

        def on_solution_callback(self) -> None:
            """Read the answer the solver just found."""
            hand_on(laid.answer(self, Outcome.GOOD))

    return Watcher()


class _Laid:
    """A model laid out in CP-SAT's own terms, and the way back from its values."""

    def __init__(self, model: Model) -> None:
        from ortools.sat.python import cp_model

        self.model = model
        self.cp = cp_model.CpModel()
        self.domain = cp_model.Domain.from_intervals
        self.variables: dict[str, Any] = {
            n.name: self.cp.new_int_var_from_domain(self.domain(n.ranges), n.name)
            for n in model.numbers
        }
        self.variables |= {name: self.cp.new_bool_var(name) for name in model.booleans}
        try:
            self.intervals = {i.name: self._interval(i) for i in model.intervals}
            for constraint in model.constraints:
                self._constrain(constraint)
            self._aim()
            for name, value in model.hints:
                self.cp.add_hint(self.variables[name], value)
        except KeyError as unknown:
            raise ModelError(f"the model speaks of {unknown}, which it does not hold") from unknown

    def _literal(self, literal: str) -> Any:
        if literal.startswith("~"):
            return ~self.variables[literal[1:]]
        return self.variables[literal]

    def _interval(self, interval: Interval) -> Any:
        start = self._start(interval.start)
        size = interval.size if isinstance(interval.size, int) else self.variables[interval.size]
        end = start + size if interval.end is None else self.variables[interval.end]
        if interval.only_if is None:
            return self.cp.new_interval_var(start, size, end, interval.name)
        literal = self._literal(interval.only_if)
        return self.cp.new_optional_interval_var(start, size, end, literal, interval.name)

    def _start(self, start: str | int | Term) -> Any:
        if isinstance(start, int):
            return start
        if isinstance(start, str):
            return self.variables[start]
        name, offset = start
        return self.variables[name] + offset

    def _sum(self, terms: tuple[tuple[str, int], ...]) -> Any:
        return sum(self.variables[name] * factor for name, factor in terms)

    def _constrain(self, constraint: Any) -> None:
        match constraint:
            case Linear(terms=terms, ranges=ranges, only_if=only_if):
                added = self.cp.add_linear_expression_in_domain(
                    self._sum(terms), self.domain(ranges)
                )
                if only_if:
                    added.only_enforce_if([self._literal(x) for x in only_if])
            case Element(index=index, table=table, target=target):
                self.cp.add_element(self.variables[index], list(table), self.variables[target])
            case NoOverlap(intervals=intervals):
                self.cp.add_no_overlap([self.intervals[i] for i in intervals])
            case Cumulative(intervals=intervals, demands=demands, capacity=capacity):
                self.cp.add_cumulative([self.intervals[i] for i in intervals], demands, capacity)
            case ExactlyOne(literals=literals):
                self.cp.add_exactly_one([self._literal(x) for x in literals])
            case AtLeastOne(literals=literals):
                self.cp.add_at_least_one([self._literal(x) for x in literals])

    def _aim(self) -> None:
        match self.model.objective:
            case Least(terms=terms):
                self.cp.minimize(self._sum(terms))
            case Latest(of=of, ranges=ranges):
                latest = self.cp.new_int_var_from_domain(self.domain(ranges), _LATEST)
                # One inequality for each, not a maximum: max equalities were seen to abort 9.15.
                for name, offset in of:
                    self.cp.add(latest >= self.variables[name] + offset)
                self.cp.minimize(latest)

    def answer(self, source: Any, status: Outcome) -> Answer:
        """Return the values that a solver or a callback holds, with our own count of the goal."""
        values = {name: int(source.value(v)) for name, v in self.variables.items()}
        goal = self.model.objective
        reached = None
        if isinstance(goal, Least):
            reached = sum(values[name] * factor for name, factor in goal.terms)
        elif isinstance(goal, Latest):
            floor = goal.ranges[0][0]
            reached = max([floor, *(values[name] + offset for name, offset in goal.of)])
        bound = None if goal is None else ceil(source.best_objective_bound - 1e-6)
        return Answer(status=status, values=tuple(values.items()), objective=reached, bound=bound)
