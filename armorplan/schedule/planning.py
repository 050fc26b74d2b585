"""Plans: a serial one at once, then the best the solver finds and proves in the time given."""

from collections.abc import Callable
from math import inf
from time import monotonic
from typing import TypedDict, Unpack

from armorplan.schedule.attended import Attended
from armorplan.schedule.checked import passes
from armorplan.schedule.checker import violations
from armorplan.schedule.conflict import hopeless
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.first import better_laid_like, first_placing
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.naming import Naming
from armorplan.schedule.never_reached import too_late, too_late_words
from armorplan.schedule.problem import Plan, Problem, Status
from armorplan.schedule.searching import Asked, Search, Solver
from armorplan.schedule.serial import Stuck
from armorplan.schedule.standing import (
    NOT_KEPT,
    Proof,
    bounds_of,
    checked,
    first_proofs,
    no_proofs,
    only_plan,
    plan_with,
    worth,
)
from armorplan.schedule.teaching import opened

FIRST_S = 2.0
"""So long the first plan of many steps may take, however little time is given."""
_COUNTED_AT_ONCE = 2000
"""Up to so many steps bounds are counted also where no time is left."""
_ORDERLY_S = 0.5
"""A search of more steps that has no time left may end what it is in the middle of for so long."""

_MOST_WHOLE = 3000
"""Of more steps the solver finds no plan from nothing; laying them out for it takes minutes."""


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
    ``naming``: what a sentence calls people and places. ``timed``: once it is over nothing more is
    tried; of many steps nothing is counted for the bounds then either.
    """

    earlier: Plan | None
    naming: Naming | None
    timed: Deadline | None


def first_plan(problem: Problem, **early: Unpack[Early]) -> Plan:
    """Return the best of a few serial plans with the bounds of its stages, or why there is none.

    It has passed the checker; where it does not, none is found yet.
    """
    started, timed = monotonic(), early.get("timed")
    impossible = _impossible(problem, early.get("naming"))
    if impossible:
        return Plan(status=Status.NONE, conflict=impossible)
    earlier = early.get("earlier")
    placing = first_placing(problem, earlier.placed if earlier else (), timed)
    if isinstance(placing, Stuck):
        late = too_late(problem)
        if late is not None and late.ready_min is not None:
            words = too_late_words(problem, late, early.get("naming") or Naming())
            return Plan(status=Status.NONE, conflict=words)
        # No proof that there is none, or none in words: the solver may still find one, or why not.
        return Plan(status=Status.OUT_OF_TIME, conflict=f"{placing.text}.")
    if not passes(problem, placing, made_by="serial"):
        return Plan(status=Status.OUT_OF_TIME, conflict=NOT_KEPT)
    if _is_history(problem):
        return only_plan(problem, placing)
    # To count takes less time than to lay, but for few steps both take next to none.
    no_time = timed is not None and (timed() or timed.left_s < monotonic() - started)
    is_counted = len(placing) <= _COUNTED_AT_ONCE or not no_time
    proofs = first_proofs(problem) if is_counted else no_proofs(problem)
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
    most_s = inf if asked.get("repeatable") else max(seconds, FIRST_S)
    timed = Deadline(most_s, asked.get("should_stop"))
    first = first_plan(problem, naming=asked.get("naming"), timed=timed)
    start = begun_plan(problem, first, hint, should_stop=timed)
    return sought_plan(problem, solver, start, seconds=min(seconds, timed.left_s), **asked)


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
    problem = opened(problem, start.placed)
    too_many = not start.placed and len(problem.activities) > _MOST_WHOLE
    if seconds <= 0 or too_many or _is_history(problem):
        return checked(problem, start)
    repeatable = asked.get("repeatable", False)
    is_timed = len(problem.activities) > _COUNTED_AT_ONCE and not repeatable
    within_s = seconds + _ORDERLY_S if is_timed else None
    attended = Attended(asked.get("on_better"), asked.get("should_stop"), within_s)
    search = Search(
        problem,
        solver,
        start,
        Asked(
            seconds=seconds,
            seed=asked.get("seed", 1),
            repeatable=repeatable,
            on_better=attended.tell,
            should_stop=attended.is_stopped,
            naming=asked.get("naming", Naming()),
        ),
    )
    return attended.wait_for(search.run, search.so_far, checked(problem, start))


def _proofs(problem: Problem, first: Plan) -> dict[str, Proof]:
    """Return what is proved without the solver: what the first plan says, where there is one."""
    return bounds_of(first) or first_proofs(problem)


def _is_better(problem: Problem, hint: Plan, start: Plan) -> bool:
    if hint.placed is start.placed or violations(
        problem, Plan(status=Status.GOOD, placed=hint.placed)
    ):
        return False
    return not start.placed or worth(problem, hint.placed) < worth(problem, start.placed)
