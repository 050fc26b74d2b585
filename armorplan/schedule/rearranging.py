"""Around tonight: the next day laid anew around what runs by now, and all else left where it is."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from armorplan.kernel.units import HOUR_MIN
from armorplan.schedule.checker import violations
from armorplan.schedule.comparing import moved_steps
from armorplan.schedule.first import better_laid_like
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.measures import goals
from armorplan.schedule.mending import Seek
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.stages import FINISH, LATENESS
from armorplan.schedule.standing import first_proofs, plan_with

REACHES_H = (24, 48, 72, 96, 120, 168)
"""So many hours from now may be laid anew, the next more where a build would end later."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rearranged:
    """A plan that keeps of an earlier one what can be kept.

    Attributes:
        plan: holds; or has nothing placed, and says why.
        reach_h: nothing that was to start more than so many hours from now was moved; ``None``:
            something was that lies farther ahead than all of ``REACHES_H``.
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
    """Keep all where it stands; else push later what must wait; else lay the next hours anew.

    What lies beyond the hours laid anew starts no sooner than it stood, so it stays unless it has
    to wait. Of what was laid anew those steps go back that can without a build ending later. Only
    where a build would end later all the same a plan is sought from scratch, and taken if better.
    What runs or is done is history in ``problem``.

    Args:
        problem: as things stand now; minute 0 is now.
        at_hand: the plan to keep to, for a former state of the problem.
        seek: makes a plan from scratch.
        shift_min: added to minutes of ``at_hand``, where it counts from another origin.
        should_stop: asked between steps; what was found so far comes back.
    """
    standing = _to_come(problem, at_hand.placed, shift_min)
    keeping = _Keeping(problem, standing, should_stop or (lambda: False))
    if keeping.holds(keeping.as_it_was):
        return keeping.told(keeping.as_it_was)
    laid = keeping.laid()
    if laid and (keeping.is_no_later(laid) or keeping.stopped()):
        return keeping.told(laid)
    answer = seek(problem)
    if keeping.holds(answer.placed) and (
        not laid or keeping.worth(answer.placed) < keeping.worth(laid)
    ):
        return keeping.told(answer.placed)
    if laid:
        return keeping.told(laid)
    return Rearranged(plan=replace(answer, placed=()), reach_h=None, moved=(), kept=0)


def still_standing(problem: Problem) -> tuple[Placed, ...]:
    """Return where steps of ``problem.stood`` stood that may still start there."""
    return tuple(_to_come(problem, problem.stood, 0))


def pushed_later(problem: Problem, standing: Sequence[Placed]) -> tuple[Placed, ...]:
    """Return a plan in the old sequence in which nothing starts sooner than it stood; empty: none."""
    return _Keeping(problem, standing, lambda: False).pushed()


class _Keeping:
    """Lays a problem anew close to a plan at hand."""

    def __init__(
        self, problem: Problem, standing: Sequence[Placed], stopped: Callable[[], bool]
    ) -> None:
        self._problem = problem
        self.stopped = stopped
        self._old = list(standing)
        self._stood = {p.id: p.start_min for p in self._old}
        self.as_it_was = (*placed_by_history(problem), *self._old)

    def laid(self) -> tuple[Placed, ...]:
        """Return the plan closest to the one at hand of those that end as early; empty: none."""
        best: tuple[Placed, ...] = ()
        stays: AbstractSet[str] = frozenset()
        for reach_h in (0, *REACHES_H, None):
            later = self._from(reach_h)
            found = self._with(later)
            if found and (not best or self.worth(found) < self.worth(best)):
                best, stays = found, later
            if best and (self.is_no_later(best) or self.stopped()):
                break
        return self._closer(best, stays) if best else ()

    def pushed(self) -> tuple[Placed, ...]:
        """Return the plan with everything where it stood or later."""
        return self._with(self._from(0))

    def _from(self, reach_h: int | None) -> frozenset[str]:
        """Return what stood so many hours from now or later; nothing for ``None``."""
        if reach_h is None:
            return frozenset()
        return frozenset(i for i, at in self._stood.items() if at >= reach_h * HOUR_MIN)

    def _with(self, stays: AbstractSet[str]) -> tuple[Placed, ...]:
        """Return a plan by the old sequence in which these start no sooner than they stood."""
        floored = replace(
            self._problem,
            activities=tuple(
                replace(a, earliest_min=self._stood[a.id]) if a.id in stays else a
                for a in self._problem.activities
            ),
        )
        found = better_laid_like(floored, (), tuple(self._old))
        return found if self.holds(found) else ()

    def _closer(self, found: tuple[Placed, ...], stays: AbstractSet[str]) -> tuple[Placed, ...]:
        """Return a plan as good with more steps where they stood, the last ones first."""
        best, worth = found, self.worth(found)
        moved = [i for i in self._moved(found) if i in self._stood and i not in stays]
        held = set(stays)

        def holds(more: list[str]) -> bool:
            nonlocal best
            tried = () if self.stopped() else self._with(held | set(more))
            is_kept = bool(tried) and self.worth(tried) <= worth
            is_kept = is_kept and len(self._moved(tried)) <= len(self._moved(best))
            if is_kept:
                best = tried
                held.update(more)
            return is_kept

        kept_groups(sorted(moved, key=lambda i: (-self._stood[i], i)), holds)
        return best

    def holds(self, placed: tuple[Placed, ...]) -> bool:
        """Tell whether a plan is whole and breaks nothing."""
        plan = Plan(status=Status.GOOD, placed=placed)
        return bool(placed) and not violations(self._problem, plan)

    def worth(self, placed: tuple[Placed, ...]) -> tuple[int, int]:
        """Return lateness and finish, the less the better."""
        values = goals(self._problem, placed)
        return values.get(LATENESS, 0), values[FINISH]

    def is_no_later(self, placed: tuple[Placed, ...]) -> bool:
        """Tell whether a plan ends as early as the one at hand was to, where that is still whole."""
        is_whole = len(self.as_it_was) == len(self._problem.activities)
        return is_whole and self.worth(placed) <= self.worth(self.as_it_was)

    def _moved(self, placed: tuple[Placed, ...]) -> tuple[str, ...]:
        before, after = (Plan(status=Status.GOOD, placed=tuple(p)) for p in (self._old, placed))
        return moved_steps(before, after)

    def told(self, placed: tuple[Placed, ...]) -> Rearranged:
        """Return a plan with what moved in it."""
        moved = self._moved(placed)
        late: Sequence[str] = [
            a.id
            for a in self._problem.activities
            if a.fixed_start_min is None and a.id not in self._stood
        ]
        last = max((self._stood[i] for i in moved), default=0)
        return Rearranged(
            plan=plan_with(self._problem, placed, first_proofs(self._problem), "around tonight"),
            reach_h=next((h for h in REACHES_H if last < h * HOUR_MIN), None),
            moved=(*late, *moved),
            kept=len(self._stood.keys() - set(moved)),
        )


def shifted(problem: Problem, placed: Iterable[Placed], shift_min: int) -> Iterator[Placed]:
    """Yield what is still free of a plan, so many minutes later."""
    free = {a.id for a in problem.activities if a.fixed_start_min is None}
    return (
        replace(p, start_min=p.start_min + shift_min, end_min=p.end_min + shift_min)
        for p in placed
        if p.id in free
    )


def _to_come(problem: Problem, at_hand: Iterable[Placed], shift_min: int) -> list[Placed]:
    """Return where everything stood that is still to come, in minutes of the problem."""
    free = {a.id: a for a in problem.activities if a.fixed_start_min is None}
    return [
        p
        for p in shifted(problem, at_hand, shift_min)
        if p.start_min >= max(0, free[p.id].earliest_min)
        and free[p.id].way(p.who, p.mode) is not None
    ]
