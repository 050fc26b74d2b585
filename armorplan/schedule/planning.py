"""Plans: a serial one at once, then the best the solver finds and proves in the time given."""

from collections.abc import Callable
from typing import TypedDict, Unpack

from armorplan.schedule.attended import Attended
from armorplan.schedule.checked import passes
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.first import better_laid_like, first_placing
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Plan, Problem, Status
from armorplan.schedule.searching import Asked, Search, Solver
from armorplan.schedule.serial import Stuck
from armorplan.schedule.standing import (
    NOT_KEPT,
    Proof,
    checked,
    first_proofs,
    no_proofs,
    only_plan,
    plan_with,
    worth,
)

FIRST_S = 2.0
"""So long the first plan of many steps may take, however little time is given."""
_COUNTED_AT_ONCE = 2000
"""Up to so many steps bounds are counted also where no time is left."""


class More(TypedDict, total=False):
    """What else can be asked of a search; see ``Asked``."""

    seed: int
    repeatable: bool
    on_better: Callable[[Plan], None] | None
    should_stop: Callable[[], bool] | None
    naming: Naming


class Early(TypedDict, total=False):
    """What can be said to whoever lays the first plan.

    ``earlier``: a plan for this problem or a former state of it; its sequence is tried too.
    ``naming``: what a sentence calls people and places. ``should_stop``: asked now and then.
    """

    earlier: Plan | None
    naming: Naming | None
    should_stop: Callable[[], bool] | None


def first_plan(problem: Problem, **early: Unpack[Early]) -> Plan:
    """Return the best of a few serial plans with the bounds of its stages, or why there is none.

    It has passed the checker; where it does not, none is found yet. Once ``should_stop`` says yes
    nothing more is tried, and of long plans nothing is counted for the bounds.
    """
    should_stop = early.get("should_stop")
    impossible = _impossible(problem, early.get("naming"))
    if impossible:
        return Plan(status=Status.NONE, conflict=impossible)
    earlier = early.get("earlier")
    placing = first_placing(problem, earlier.placed if earlier else (), should_stop)
    if isinstance(placing, Stuck):
        # No proof that there is none: the solver may still find one.
        return Plan(status=Status.OUT_OF_TIME, conflict=f"{placing.text}.")
    if not passes(problem, placing, made_by="serial"):
        return Plan(status=Status.OUT_OF_TIME, conflict=NOT_KEPT)
    if _is_history(problem):
        return only_plan(problem, placing)
    no_time = len(placing) > _COUNTED_AT_ONCE and should_stop is not None and should_stop()
    proofs = no_proofs(problem) if no_time else first_proofs(problem)
    return plan_with(problem, placing, proofs, "serial")


def _impossible(problem: Problem, naming: Naming | None) -> str:
    """Return why there can be no plan, as far as it shows at once."""
    nowhere = hopeless(problem, naming)
    if nowhere:
        return nowhere
    ring = lag_cycle(problem)
    return cycle_words(problem, ring) if ring else ""


def _is_history(problem: Problem) -> bool:
    return all(a.fixed_start_min is not None for a in problem.activities)


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
        seconds: time for all of it, the first plan too; a repeatable search does not count that.
        **asked: what else is asked; see ``Asked``.
    """
    should_stop = asked.get("should_stop")
    timed = None if asked.get("repeatable") else Deadline(max(seconds, FIRST_S), should_stop)
    stop = timed or should_stop
    first = first_plan(problem, naming=asked.get("naming"), should_stop=stop)
    start = begun_plan(problem, first, hint, should_stop=stop)
    left = seconds if timed is None else min(seconds, timed.left_s)
    return sought_plan(problem, solver, start, seconds=left, **asked)


def begun_plan(
    problem: Problem,
    first: Plan,
    hint: Plan | None,
    *,
    should_stop: Callable[[], bool] | None = None,
) -> Plan:
    """Return the best that is known without the solver.

    Args:
        problem: what to plan.
        first: what ``first_plan`` says of it.
        hint: a plan for it or a former state of it; its sequence is tried too, and if it still
            holds it counts itself.
        should_stop: asked now and then; once it says yes no sequence is tried.
    """
    if first.status is Status.NONE or hint is None or not hint.placed or _is_history(problem):
        return first
    start = first
    placed = better_laid_like(problem, first.placed, hint.placed, should_stop)
    if placed != first.placed and passes(problem, placed, made_by="serial"):
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
    if seconds <= 0 or _is_history(problem):
        return checked(problem, start)
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
    if hint.placed is start.placed or violations(
        problem, Plan(status=Status.GOOD, placed=hint.placed)
    ):
        return False
    return not start.placed or worth(problem, hint.placed) < worth(problem, start.placed)
