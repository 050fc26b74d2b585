"""Plans: a serial one at once, then the best the solver finds and proves in the time given."""

from collections.abc import Callable
from typing import TypedDict, Unpack

from armorplan.schedule.attended import Attended
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.first import better_laid_like, first_placing
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Plan, Problem, Status
from armorplan.schedule.searching import Asked, Search, Solver
from armorplan.schedule.serial import Stuck
from armorplan.schedule.standing import Proof, first_proofs, plan_with, worth


class More(TypedDict, total=False):
    """What else can be asked of a search; see ``Asked``."""

    seed: int
    repeatable: bool
    on_better: Callable[[Plan], None] | None
    should_stop: Callable[[], bool] | None
    naming: Naming


def first_plan(
    problem: Problem, *, earlier: Plan | None = None, naming: Naming | None = None
) -> Plan:
    """Return the best of a few serial plans with the bounds of its stages, or why there is none.

    ``earlier`` is a plan for this problem or a former state of it; its sequence is tried too.
    ``naming`` has what a sentence calls people and places.
    """
    nowhere = hopeless(problem, naming)
    if nowhere:
        return Plan(status=Status.NONE, conflict=nowhere)
    ring = lag_cycle(problem)
    if ring:
        return Plan(status=Status.NONE, conflict=cycle_words(problem, ring))
    placing = first_placing(problem, earlier.placed if earlier else ())
    if isinstance(placing, Stuck):
        # No proof that there is none: the solver may still find one.
        return Plan(status=Status.OUT_OF_TIME, conflict=f"{placing.text}.")
    return plan_with(problem, placing, first_proofs(problem), "serial")


def best_plan(
    problem: Problem,
    solver: Solver,
    *,
    hint: Plan | None = None,
    seconds: float = 10.0,
    **asked: Unpack[More],
) -> Plan:
    """Return the best plan found in time, stage by stage as ``stages`` has them.

    Every plan returned or told has passed the checker.

    Args:
        problem: what to plan.
        solver: solves the models; when it is lost the best plan so far stands.
        hint: a plan for this problem or a former state of it, to start from.
        seconds: time for all stages together.
        **asked: what else is asked; see ``Asked``.
    """
    start = begun_plan(problem, first_plan(problem, naming=asked.get("naming")), hint)
    return sought_plan(problem, solver, start, seconds=seconds, **asked)


def begun_plan(problem: Problem, first: Plan, hint: Plan | None) -> Plan:
    """Return the best that is known without the solver.

    Args:
        problem: what to plan.
        first: what ``first_plan`` says of it.
        hint: a plan for it or a former state of it; its sequence is tried too, and if it still
            holds it counts itself.
    """
    if first.status is Status.NONE or hint is None or not hint.placed:
        return first
    placed = better_laid_like(problem, first.placed, hint.placed)
    start = first
    if placed != first.placed:
        start = plan_with(problem, placed, _proofs(problem, first), "serial")
    if _is_better(problem, hint, start):
        return plan_with(problem, hint.placed, _proofs(problem, first), hint.made_by)
    return start


def sought_plan(
    problem: Problem,
    solver: Solver,
    start: Plan,
    *,
    seconds: float,
    **asked: Unpack[More],
) -> Plan:
    """Return the best plan found in time from a start on; see ``best_plan``."""
    if start.status is Status.NONE:
        return start
    attended = Attended(asked.get("on_better"), asked.get("should_stop"))
    search = Search(
        problem,
        solver,
        start,
        Asked(
            seconds=seconds,
            seed=asked.get("seed", 1),
            repeatable=asked.get("repeatable", False),
            on_better=attended.tell,
            should_stop=attended.is_stopped,
            naming=asked.get("naming", Naming()),
        ),
    )
    return attended.wait_for(search.run, search.so_far)


def _proofs(problem: Problem, first: Plan) -> dict[str, Proof]:
    """Return what is proved without the solver: what the first plan says, where there is one."""
    return {s.name: Proof(bound=s.bound) for s in first.stages} or first_proofs(problem)


def _is_better(problem: Problem, hint: Plan, start: Plan) -> bool:
    if violations(problem, Plan(status=Status.GOOD, placed=hint.placed)):
        return False
    return not start.placed or worth(problem, hint.placed) < worth(problem, start.placed)
