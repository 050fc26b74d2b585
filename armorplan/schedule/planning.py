"""Plans: a serial one at once, then the best the solver finds and proves in the time given."""

from collections.abc import Callable

from armorplan.schedule.bounds import finish_bound
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.first import better_laid_like, first_placing
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.searching import Search, Solver
from armorplan.schedule.serial import Stuck
from armorplan.schedule.stages import finish_stage


def first_plan(problem: Problem, *, earlier: Plan | None = None) -> Plan:
    """Return the best of a few serial plans with the bound of its finish, or why there is none.

    ``earlier`` is a plan for this problem or a former state of it; its sequence is tried too.
    """
    nowhere = hopeless(problem)
    if nowhere:
        return Plan(status=Status.NONE, conflict=nowhere)
    ring = lag_cycle(problem)
    if ring:
        return Plan(status=Status.NONE, conflict=cycle_words(problem, ring))
    placing = first_placing(problem, earlier.placed if earlier else ())
    if isinstance(placing, Stuck):
        # No proof that there is none: the solver may still find one.
        return Plan(status=Status.OUT_OF_TIME, conflict=f"{placing.text}.")
    return _first(placing, finish_bound(problem), "serial")


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

    Every plan returned or told has passed the checker. The same problem and hint get the same
    plan, unless the clock ended a search before its share of work was done.

    Args:
        problem: what to plan.
        solver: solves the models; when it is lost the best plan so far stands.
        hint: a plan for this problem or a former state of it, to start from.
        seconds: time for all stages together.
        on_better: told each better plan.
        should_stop: asked often; the best plan so far comes back when it says yes.
    """
    start = begun_plan(problem, first_plan(problem), hint)
    return sought_plan(
        problem, solver, start, seconds=seconds, on_better=on_better, should_stop=should_stop
    )


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
        bound = first.stages[0].bound if first.placed else finish_bound(problem)
        start = _first(placed, bound, "serial")
    if _is_sooner(problem, hint, start):
        return _first(hint.placed, finish_bound(problem), hint.made_by)
    return start


def sought_plan(
    problem: Problem,
    solver: Solver,
    start: Plan,
    *,
    seconds: float,
    on_better: Callable[[Plan], None] | None = None,
    should_stop: Callable[[], bool] | None = None,
) -> Plan:
    """Return the best plan found in time from a start on; see ``best_plan``."""
    if start.status is Status.NONE:
        return start
    return Search(problem, solver, start, on_better, should_stop).run(seconds)


def _first(placed: tuple[Placed, ...], bound: int, made_by: str) -> Plan:
    stage = finish_stage(placed, bound, Status.GOOD)
    return Plan(status=stage.status, placed=placed, stages=(stage,), made_by=made_by)


def _is_sooner(problem: Problem, hint: Plan, start: Plan) -> bool:
    holds = bool(hint.placed) and not violations(
        problem, Plan(status=Status.GOOD, placed=hint.placed)
    )
    return holds and (not start.placed or hint.finish_min < start.finish_min)
