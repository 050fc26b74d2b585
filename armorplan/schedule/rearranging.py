"""Around tonight: the next day laid anew around what runs by now, and all else left where it is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from armorplan.kernel.units import HOUR_MIN
from armorplan.schedule.checker import violations
from armorplan.schedule.comparing import moved_steps
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.measures import goals
from armorplan.schedule.mending import Seek
from armorplan.schedule.pinning import pinned
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.stages import FINISH, LATENESS
from armorplan.schedule.standing import first_proofs, plan_with

REACHES_H = (24, 48, 72)
"""So many hours from now are laid anew, the next more where fewer give no plan; then all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rearranged:
    """A plan that keeps of an earlier one what can be kept.

    Attributes:
        plan: holds; or has nothing placed, and says why.
        reach_h: what lies so many hours from now was laid anew; ``None``: everything was.
        moved: what cannot start any more when it should have, then what starts at another time
            or is done by somebody else, in order.
        kept: how many steps still to come stand where they stood.
    """

    plan: Plan
    reach_h: int | None
    moved: tuple[str, ...]
    kept: int


def around_now(
    problem: Problem,
    at_hand: Plan,
    seek: Seek,
    *,
    shift_min: int = 0,
    should_stop: Callable[[], bool] | None = None,
) -> Rearranged:
    """Lay the next 24 hours anew and keep the rest; where that gives no plan, 48, 72, all.

    What runs or is done is history in ``problem``. Of what is laid anew those steps are put back
    that can be without a build ending later, halves at a time.

    Args:
        problem: as things stand now; minute 0 is now.
        at_hand: the plan to keep to, for a former state of the problem.
        seek: makes a plan of a problem in which most is pinned.
        shift_min: added to minutes of ``at_hand``, where it counts from another origin.
        should_stop: asked between steps; what was found so far comes back.
    """
    stop = should_stop or (lambda: False)
    old = _to_come(problem, at_hand, shift_min)
    for reach_h in REACHES_H:
        stays = [p for p in old if p.start_min >= reach_h * HOUR_MIN]
        if stays and not stop():
            found = _with_pinned(problem, stays, seek)
            if found.placed:
                return _told(problem, old, _closer(problem, old, stays, found, stop), reach_h)
    found = seek(problem)
    if not found.placed:
        return Rearranged(plan=found, reach_h=None, moved=(), kept=0)
    return _told(problem, old, _closer(problem, old, [], found, stop), None)


def _to_come(problem: Problem, at_hand: Plan, shift_min: int) -> list[Placed]:
    """Return where everything stood that is still to come, in minutes of the problem."""
    free = {a.id: a for a in problem.activities if a.fixed_start_min is None}
    shifted = (
        replace(p, start_min=p.start_min + shift_min, end_min=p.end_min + shift_min)
        for p in at_hand.placed
        if p.id in free
    )
    return [
        p
        for p in shifted
        if p.start_min >= free[p.id].earliest_min and p.start_min >= 0 and _is_a_way(problem, p)
    ]


def _is_a_way(problem: Problem, placed: Placed) -> bool:
    activity = next(a for a in problem.activities if a.id == placed.id)
    return activity.way(placed.who, placed.mode) is not None


def _with_pinned(problem: Problem, stays: Sequence[Placed], seek: Seek) -> Plan:
    """Return a plan of the whole problem with some of it pinned; nothing placed where there is none."""
    ids = {p.id for p in stays}
    free = frozenset(a.id for a in problem.activities if a.id not in ids)
    answer = seek(pinned(problem, stays, free))
    if not answer.placed:
        return answer
    plan = plan_with(problem, answer.placed, first_proofs(problem), answer.made_by)
    if violations(problem, plan):
        return Plan(status=Status.NONE, conflict="What was kept does not hold any more.")
    return plan


def _closer(
    problem: Problem,
    old: Sequence[Placed],
    stays: Sequence[Placed],
    found: Plan,
    stop: Callable[[], bool],
) -> Plan:
    """Return a plan as good with more of the old one kept, the last steps first."""
    worth = _worth(problem, found)
    best = [found]
    # What was laid anew where it stood is kept already, with no trial.
    lies = {p.id: p for p in found.placed}
    same = [p for p in old if lies.get(p.id) == p]
    sure = {p.id for p in (*stays, *same)}
    others = sorted((p for p in old if p.id not in sure), key=lambda p: (-p.start_min, p.id))

    def holds(more: list[Placed]) -> bool:
        if stop():
            return False
        plan = _with_pinned(problem, [*stays, *same, *more], first_plan)
        is_kept = bool(plan.placed) and _worth(problem, plan) <= worth
        if is_kept:
            best[0] = plan
        return is_kept

    kept_groups(others, holds)
    return best[0]


def _worth(problem: Problem, plan: Plan) -> tuple[int, int]:
    values = goals(problem, plan.placed)
    return values.get(LATENESS, 0), values[FINISH]


def _told(problem: Problem, old: Sequence[Placed], plan: Plan, reach_h: int | None) -> Rearranged:
    moved = moved_steps(Plan(status=Status.GOOD, placed=tuple(old)), plan)
    stood = {p.id for p in old}
    late = [a.id for a in problem.activities if a.fixed_start_min is None and a.id not in stood]
    return Rearranged(
        plan=plan, reach_h=reach_h, moved=(*late, *moved), kept=len(stood - set(moved))
    )
