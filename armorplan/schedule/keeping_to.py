"""A plan that keeps to the one people go by: who, order and batches stay wherever they can.

First all stays where it is, if that still holds. Else what cannot stay is laid into gaps
(``displaced``), or everything behind it is pushed later: what is less late wins, and of two as late
what moves fewer steps. A search may go on from there; ``is_worth`` says what is worth its moves.
"""

from collections.abc import Callable
from dataclasses import replace

from armorplan.kernel.units import HOUR_MIN
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.displaced import mended_in_place
from armorplan.schedule.measures import goals, job_end
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Placed, Plan, Problem
from armorplan.schedule.rearranging import pushed_later, shifted, still_standing
from armorplan.schedule.stages import FINISH, LATENESS, MOVED
from armorplan.schedule.standing import first_proofs, plan_with
from armorplan.schedule.teaching import opened, untaught

WITHIN_S = 0.7
"""So long gaps are looked for; the rest of a second is for the checks and the window."""
FORWARD_WITHIN_S = 1.0
"""So long a plan that keeps to nothing is laid, to see whether all could end sooner."""
_WORTH_SOONER_MIN = 12 * HOUR_MIN
"""By so much all together builds have to end sooner to be worth moving what people go by."""
_WORTH_LATE_MIN = HOUR_MIN
"""So many minutes less late, each times its build's weight, are worth moving more steps."""


def stood_in(problem: Problem, at_hand: Plan, *, shift_min: int = 0) -> Problem:
    """Return a problem that counts which steps are moved from where a plan has them.

    What somebody learns in that plan may stay so (``teaching.opened``).

    Args:
        problem: as things stand; minute 0 is now.
        at_hand: the plan that people go by.
        shift_min: added to its minutes, where it counts from another origin.
    """
    stood = untaught(problem, tuple(shifted(problem, at_hand.placed, shift_min)))
    return replace(opened(problem, stood), stood=stood)


def kept_plan(problem: Problem, should_stop: Callable[[], bool] | None = None) -> Plan | None:
    """Return the plan closest to ``problem.stood`` of those as punctual; ``None``: none was found.

    Args:
        problem: as ``stood_in`` returns it.
        should_stop: asked now and then; what was found so far comes back.
    """
    timed = Deadline(WITHIN_S, should_stop)
    standing = still_standing(problem)
    found = mended_in_place(problem, standing, timed)
    if not found or goals(problem, found).get(LATENESS, 0):
        pushed = pushed_later(problem, standing)
        found = min(filter(None, (found, pushed)), key=lambda p: _rank(problem, p), default=())
    if not found:
        return None
    return plan_with(problem, found, first_proofs(problem), "around tonight")


def _rank(problem: Problem, placed: tuple[Placed, ...]) -> tuple[int, ...]:
    values = goals(problem, placed)
    return values.get(LATENESS, 0) // _WORTH_LATE_MIN, *values.values()


def is_worth(problem: Problem, shown: Plan, better: Plan) -> bool:
    """Tell whether a plan is worth moving what it moves from ``problem.stood``.

    It is where it moves no more steps than the plan shown and is no later; where it moves more,
    only where it is an hour less late.
    """
    now, then = goals(problem, shown.placed), goals(problem, better.placed)
    gained_min = now.get(LATENESS, 0) - then.get(LATENESS, 0)
    if then.get(MOVED, 0) <= now.get(MOVED, 0):
        return gained_min >= 0
    return gained_min >= _WORTH_LATE_MIN


def pulled_forward(
    problem: Problem, kept: Plan, should_stop: Callable[[], bool] | None = None
) -> Plan | None:
    """Return a plan that keeps to nothing, where builds end half a day sooner in it all together.

    Somebody is there again, or a step was let go: what was pushed later has no reason to stay there.
    ``None``: there is none, or counting shows already that there cannot be.
    """
    finish = next((s for s in kept.stages if s.name == FINISH), None)
    if finish is not None and finish.value - finish.bound < _WORTH_SOONER_MIN:
        return None
    free = replace(problem, stood=())
    plan = first_plan(free, earlier=kept, timed=Deadline(FORWARD_WITHIN_S, should_stop))
    if not plan.placed:
        return None
    now, then = goals(free, kept.placed), goals(free, plan.placed)
    is_later = then.get(LATENESS, 0) > now.get(LATENESS, 0)
    gained_min = _ends(free, kept) - _ends(free, plan)
    return plan if gained_min >= _WORTH_SOONER_MIN and not is_later else None


def _ends(problem: Problem, plan: Plan) -> int:
    """Return when builds end, added up; without builds when all ends."""
    lies = {p.id: p for p in plan.placed}
    return sum(job_end(job, lies) for job in problem.jobs) if problem.jobs else plan.finish_min


def nothing_to_gain(problem: Problem, plan: Plan) -> bool:
    """Tell whether no search can be worth its moves: nothing is late and nothing was moved."""
    values = goals(problem, plan.placed)
    return values.get(LATENESS, 0) < _WORTH_LATE_MIN and not values.get(MOVED, 0)
