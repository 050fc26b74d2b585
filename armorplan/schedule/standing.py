"""The best plan so far, what it is worth stage by stage, and what of that is proved."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.schedule.bounds import stage_bounds
from armorplan.schedule.checked import passes
from armorplan.schedule.measures import any_due, goals
from armorplan.schedule.parting import parted
from armorplan.schedule.problem import Placed, Plan, Problem, Stage, Status
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.reserve import with_reserve
from armorplan.schedule.stages import FINISH, LATENESS, MOVED, NOTHING_KNOWN, stage

_MAIN = (LATENESS, MOVED, FINISH)
"""The stages by which a plan counts as proved best."""
NOT_KEPT = "The plan laid first breaks a rule, so it is not shown; none was found instead yet."


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What is known of a stage: no plan that is as good before it has less than ``bound``."""

    bound: int
    status: Status = Status.GOOD


def first_proofs(problem: Problem) -> dict[str, Proof]:
    """Return what is known before any search, of the stages that need one: by counting alone."""
    bounds = stage_bounds(problem)
    return {name: Proof(bound=bounds[name]) for name in _MAIN if name in bounds}


def no_proofs(problem: Problem) -> dict[str, Proof]:
    """Return that nothing is known, of the same stages; where there was no time for counting."""
    is_there = {LATENESS: any_due(problem), MOVED: bool(problem.stood), FINISH: True}
    return {name: Proof(bound=NOTHING_KNOWN) for name in _MAIN if is_there[name]}


def bounds_of(plan: Plan) -> dict[str, Proof]:
    """Return the bounds that a plan was made with, so that they need not be counted again."""
    return {s.name: Proof(bound=s.bound) for s in plan.stages}


def only_plan(problem: Problem, placed: tuple[Placed, ...]) -> Plan:
    """Return the plan of what lies where it lies, all of it: nothing else is possible."""
    proofs = {name: Proof(bound=value) for name, value in goals(problem, placed).items()}
    return plan_with(problem, placed, proofs, "serial")


def plan_with(
    problem: Problem, placed: tuple[Placed, ...], proofs: Mapping[str, Proof], made_by: str
) -> Plan:
    """Return a plan with the stages that anything is known of.

    It counts as proved best when its lateness, what it moves, and its finish are; else it stands where the first
    of them stands that is not.
    """
    values = goals(problem, placed)
    stages = tuple(
        stage(name, values[name], proofs[name].bound, proofs[name].status)
        for name in values
        if name in proofs
    )
    return Plan(status=_status(stages), placed=placed, stages=stages, made_by=made_by)


def _status(stages: Iterable[Stage]) -> Status:
    main = [s.status for s in stages if s.name in _MAIN]
    return next((status for status in main if status is not Status.BEST), Status.BEST)


def worth(problem: Problem, placed: Iterable[Placed]) -> tuple[int, ...]:
    """Return a key, the smaller the better: the values of all stages in the order they count."""
    return tuple(goals(problem, placed).values())


def checked(problem: Problem, plan: Plan) -> Plan:
    """Return a plan that has passed the checker, or one that holds nothing and says so."""
    if not plan.placed or passes(problem, plan.placed, made_by=plan.made_by):
        return plan
    return Plan(status=Status.OUT_OF_TIME, conflict=NOT_KEPT)


class Standing:
    """Where a search stands.

    Attributes:
        plan: has passed the checker, or holds nothing and says why.
        values: what it is worth, stage by stage.
    """

    def __init__(self, problem: Problem, start: Plan) -> None:
        self._problem = problem
        self.plan = start = checked(problem, start)
        self.values: dict[str, int] = goals(problem, start.placed) if start.placed else {}
        self._proofs = {
            s.name: Proof(bound=s.bound, status=s.status) for s in start.stages
        } or first_proofs(problem)

    def is_proved(self, name: str) -> bool:
        """Tell whether a stage is at its bound."""
        return self.plan.placed != () and self.values[name] <= self.bound(name)

    def bound(self, name: str) -> int:
        """Return the bound of a stage, where anything is known that no plan contradicts."""
        bound = self._proofs[name].bound if name in self._proofs else NOTHING_KNOWN
        return bound if bound <= self.values.get(name, bound) else NOTHING_KNOWN

    def prove(self, name: str, bound: int, status: Status) -> None:
        """Take in what a search of a stage said; a bound once proved is never lost."""
        self._proofs[name] = Proof(bound=max(bound, self.bound(name)), status=status)
        if self.plan.placed:
            self.plan = plan_with(self._problem, self.plan.placed, self._proofs, self.plan.made_by)

    def take(self, placed: tuple[Placed, ...], *, is_checked: bool = False) -> bool:
        """Take a plan if it is better and holds, also pulled earlier; tell whether it was taken.

        ``is_checked``: it holds and was pulled already.
        """
        tried = [placed] if is_checked else [placed, pulled_earlier(self._problem, placed)]
        for lies in sorted(tried, key=self._worth_of):
            if self.values and self._worth_of(lies) >= tuple(self.values.values()):
                break
            if is_checked or self.holds(lies):
                self.values = goals(self._problem, lies)
                self.plan = plan_with(self._problem, lies, self._proofs, "solver")
                return True
        return False

    def leave_reserve(self) -> None:
        """Part pairs and leave room before windows close, where that costs nothing."""
        lies = with_reserve(self._problem, parted(self._problem, self.plan.placed))
        self.values = goals(self._problem, lies)
        self.plan = plan_with(self._problem, lies, self._proofs, self.plan.made_by)

    def holds(self, placed: tuple[Placed, ...]) -> bool:
        """Ask the checker."""
        return passes(self._problem, placed, made_by="solver")

    def fall_back(self, plan: Plan) -> None:
        """Stand on a plan that holds nothing and says why."""
        self.plan = plan

    def _worth_of(self, placed: tuple[Placed, ...]) -> tuple[int, ...]:
        return worth(self._problem, placed)
