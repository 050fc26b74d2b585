"""The solver's part of a plan, stage by stage; the best plan so far always stands.

A problem of few steps is laid out whole: so much can be proved. Of one of many steps the solver
gets a part at a time (``piecewise``).
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import takewhile
from typing import Protocol

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.allowance import Allowance
from armorplan.schedule.conflict import UNTOLD_CLASH, conflict_words, smallest_conflict
from armorplan.schedule.cp import Layout
from armorplan.schedule.improving import Improver
from armorplan.schedule.measures import any_due
from armorplan.schedule.naming import Naming
from armorplan.schedule.piecewise import PartByPart
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS, MOVED
from armorplan.schedule.standing import Standing
from armorplan.solving.model import Answer, Effort, Model, Outcome

_SHARES = {LATENESS: 0.75, MOVED: 0.6, FINISH: 0.6, CHANGES: 0.5, JUMPS: 0.7, FITS: 1.0}
"""How much of what is left goes to a stage; what it does not use goes to those after it."""
_WHOLE_STEPS = 200
"""Up to so many free steps a problem is laid out whole."""
_EACH_S = 1.0
"""How long one part of a large problem is searched."""
_LAID_S, _LAID_EACH_S, _LEAST_LAID = 0.6, 10000, 60
"""For how long other orders are laid after each part, and about how many steps a second; what else
has to be done each time is as much as so many steps."""
_LAID_ROUNDS = 10
"""That is at least as many steps as so often all there are."""
_MOST_LOST = 3
"""So often the solver may be lost before the search ends with what it has."""
_PROBE_S, _MOST_PROBES = 1.0, 80
"""How long to look whether some demands have a plan, and how often, to make a conflict small."""


_NOTHING = Plan(status=Status.STOPPED, conflict="Stopped before a plan was found.")


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How a plan is sought.

    Attributes:
        seconds: time for all stages together; of a repeatable search, work of about as long.
        seed: of what is drawn.
        repeatable: the same problem, start and seed give the same plan, however busy the machine.
        on_better: told each better plan, and each stage that ends.
        should_stop: asked often; the best plan so far comes back when it says yes.
        naming: what a sentence calls people, places and minutes.
    """

    seconds: float
    seed: int = 1
    repeatable: bool = False
    on_better: Callable[[Plan], None] | None = None
    should_stop: Callable[[], bool] | None = None
    naming: Naming = field(default_factory=Naming)


class _OverError(Exception):
    """There is no time left to make a conflict small."""


class Search:
    """One search."""

    def __init__(self, problem: Problem, solver: Solver, start: Plan, asked: Asked) -> None:
        self._problem = problem
        self._solver = solver
        self._asked = asked
        self._standing = Standing(problem, start)
        self._improver = Improver(problem, asked.seed)
        self._allowance = Allowance(asked.seconds, repeatable=asked.repeatable)
        self._stopped = False
        self._lost = 0
        self._probes = 0

    def run(self) -> Plan:
        """Go through the stages; return the best plan, or why there is none."""
        if not self._standing.plan.placed:
            self._find_any()
        for name in tuple(self._standing.values):
            self._stage(name)
            if self._ended():
                break
        if self._standing.plan.placed and not self._has_to_stop():
            self._standing.leave_reserve()
        return self._standing.plan

    def so_far(self) -> Plan:
        """Return the best plan so far as that of a search that was stopped; any thread may ask."""
        plan = self._standing.plan
        if not plan.placed:
            return plan if plan.status is Status.NONE else _NOTHING
        unproved = next((s for s in plan.stages if s.status is not Status.BEST), None)
        if unproved is None:
            return plan
        stages = tuple(
            replace(s, status=Status.STOPPED) if s is unproved else s for s in plan.stages
        )
        main = unproved.name in (LATENESS, MOVED, FINISH)
        return replace(plan, stages=stages, status=Status.STOPPED if main else plan.status)

    def _ended(self) -> bool:
        return self._has_to_stop() or self._lost >= _MOST_LOST or self._allowance.left <= 0

    def _has_to_stop(self) -> bool:
        if not self._stopped and self._asked.should_stop is not None:
            self._stopped = self._asked.should_stop()
        return self._stopped

    def _stage(self, name: str) -> None:
        """Make one stage as small as can be while those before stay as they are."""
        names = list(self._standing.values)
        later = names[names.index(name) + 1 :]
        share = 1.0 if all(map(self._standing.is_proved, later)) else _SHARES[name]
        amount = self._allowance.left * share
        until = self._allowance.left - amount
        if not self._standing.is_proved(name) and not self._ended():
            if self._improver.many <= _WHOLE_STEPS:
                self._whole(name, amount)
            if not self._standing.is_proved(name):
                self._part_by_part(name, until)
        status = Status.STOPPED if self._stopped else Status.GOOD
        self._standing.prove(name, self._standing.bound(name), status)
        self._tell()

    def _find_any(self) -> None:
        """Find a plan where the serial plan got stuck, or why there is none."""
        first = LATENESS if any_due(self._problem) else FINISH
        answer = self._whole(first, self._allowance.left * _SHARES[first])
        if answer is None or self._standing.plan.placed:
            return
        if answer.status is Outcome.STOPPED:
            self._standing.fall_back(_NOTHING)
        elif answer.status is Outcome.NONE:
            self._say_why_not()

    def _whole(self, name: str, amount: float) -> Answer | None:
        """Lay out everything; what the solver proves then holds for all plans."""
        layout = Layout(self._problem, self._most(name))
        effort = self._allowance.effort(amount, self._asked.seed)
        model = layout.model_for(
            name,
            self._kept(name),
            effort=effort,
            hint=self._standing.plan.placed,
            least=self._standing.bound(name),
        )
        answer = self._solve(model, layout)
        is_believed = answer is not None and answer.values and self._is_kept(name, answer)
        if answer is not None and is_believed and answer.bound is not None:
            self._standing.prove(name, answer.bound, Status.GOOD)
        return answer

    def _kept(self, name: str) -> dict[str, int]:
        """Return what the stages before one may come to at the most."""
        values = self._standing.values
        return {before: values[before] for before in takewhile(lambda n: n != name, values)}

    def _is_kept(self, name: str, answer: Answer) -> bool:
        """Tell whether the plan at hand is as good as what the solver says it found."""
        return answer.objective is not None and self._standing.values[name] <= answer.objective

    def _part_by_part(self, name: str, until: float) -> None:
        """Free one part after another until so much is left, or nothing can be gained."""
        parts = PartByPart(self._problem, self._improver, name, self._standing.plan.placed)
        # Laid again in another order next to nothing stays where it stood.
        is_laid = name == LATENESS or (name == FINISH and not self._problem.stood)
        if is_laid:
            self._lay_again(parts, until)
        while self._allowance.left > until and not self._ended():
            if self._standing.is_proved(name):
                return
            amount = min(_EACH_S, self._allowance.left - until)
            answer = self._ask(parts.model(self._allowance.effort(amount, 1)), None)
            if answer is not None:
                found = parts.plan_in(answer)
                parts.learn(answer, gained=self._go_on(parts, found))
            if is_laid:
                self._lay_again(parts, until)

    def _lay_again(self, parts: PartByPart, until: float) -> None:
        """Lay the plan in other orders for a moment, and longer as long as that gains anything."""
        most = max(_LAID_S, self._improver.many / _LAID_EACH_S * _LAID_ROUNDS)
        left = most
        while left > 0 and self._allowance.left > until and not self._ended():
            found = parts.laid_again()
            each = (_LEAST_LAID + parts.laid_steps) / _LAID_EACH_S
            self._allowance.work(each)
            left -= each
            if self._go_on(parts, found):
                parts.gained_by_laying()
                left = most

    def _go_on(self, parts: PartByPart, found: tuple[Placed, ...]) -> bool:
        """Go on from a plan if it is nearer and holds; tell whether it is."""
        if not parts.is_nearer(found):
            return False
        found = parts.pulled(found)
        if not self._standing.holds(found):
            return False
        parts.at_hand = found
        if self._standing.take(found, is_checked=True):
            self._tell()
        return True

    def _most(self, name: str) -> int:
        """Return by when everything has to end: no later than it does, once the finish counts."""
        plan = self._standing.plan
        is_cut = plan.placed and name not in (LATENESS, MOVED)
        return plan.finish_min if is_cut else self._problem.horizon_min

    def _solve(self, model: Model, layout: Layout) -> Answer | None:
        """Solve a whole layout, and take and tell what is better as it comes."""

        def better(answer: Answer) -> None:
            if self._standing.take(layout.placed(answer.values)):
                self._tell()

        answer = self._ask(model, better)
        if answer is not None and answer.values:
            better(answer)
        return answer

    def _ask(self, model: Model, on_better: Callable[[Answer], None] | None) -> Answer | None:
        """Return the solver's answer; ``None`` where it was lost: what was found so far stands."""
        try:
            answer = self._solver.solve(
                model, on_better=on_better, should_stop=self._asked.should_stop
            )
        except SolverLostError:
            self._lost += 1
            return None
        self._lost = 0
        self._stopped = answer.status is Outcome.STOPPED
        self._allowance.spend(answer)
        return answer

    def _tell(self) -> None:
        if self._asked.on_better is not None:
            self._asked.on_better(self._standing.plan)

    def _say_why_not(self) -> None:
        try:
            clash = smallest_conflict(self._problem, self._is_possible)
            words = conflict_words(self._problem, clash, self._asked.naming)
        except _OverError:
            words = UNTOLD_CLASH
        self._standing.fall_back(Plan(status=Status.NONE, conflict=words, made_by="solver"))

    def _is_possible(self, problem: Problem) -> bool | None:
        self._probes += 1
        if self._ended() or self._probes > _MOST_PROBES:
            raise _OverError
        effort = Effort(seconds=_PROBE_S, work=_PROBE_S)
        answer = self._ask(Layout(problem, problem.horizon_min).any_plan(effort=effort), None)
        if answer is None:
            return None
        if answer.status is Outcome.NONE:
            return False
        return True if answer.values else None
