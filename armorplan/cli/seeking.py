"""How the window has plans sought: at once one that holds, then better ones for a while."""

from collections.abc import Callable
from datetime import timedelta

from armorplan.app.plan_naming import naming_of
from armorplan.app.shown_plan import ShownPlan
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.deadline import Deadline
from armorplan.schedule.keeping_to import (
    is_worth,
    kept_plan,
    nothing_to_gain,
    pulled_forward,
    stood_in,
)
from armorplan.schedule.naming import Naming
from armorplan.schedule.near_now import laid_near_now
from armorplan.schedule.planning import begun_plan, first_plan, sought_plan
from armorplan.schedule.problem import Placed, Plan, Problem
from armorplan.schedule.rearranging import shifted, still_standing
from armorplan.schedule.searching import Solver
from armorplan.schedule.standing import bounds_of, plan_with
from armorplan.schedule.teaching import taught_plan
from armorplan.workshop.shop import Shop

LOOK_FOR_S = 20.0
"""How long a better plan is looked for after each change at the bench."""
SHOWN_WITHIN_S = 0.6
"""So long a plan that moves fewer steps is waited for, before the first one is shown."""
_LEAST_KEPT = 0.5
"""Where less of a plan than that may still stand, it is no plan to keep to: days have passed."""

_Better = Callable[[Plan], None]
_Stop = Callable[[], bool]


class Seeker:
    """Seeks plans for a window; of a plan at hand all that can stay stays.

    A better one is told only where it is worth what it moves (``schedule.keeping_to``).
    """

    def __init__(self, solver: Solver, shop: Callable[[], Shop]) -> None:
        self._solver = solver
        self._shop = shop

    def __call__(
        self,
        problem: Problem,
        *,
        hint: Plan | None,
        at_hand: ShownPlan | None,
        on_better: _Better,
        should_stop: _Stop,
    ) -> Plan:
        """Return the best plan found in time; the first one is told at once through ``on_better``.

        What can be learned in each is (``schedule.teaching``); what is learned in the plan at hand
        stays so where it still can.
        """
        earlier = _as_it_stood(problem, at_hand)

        def with_lessons(plan: Plan) -> Plan:
            return taught_plan(problem, plan, earlier)

        found = self._best(
            problem,
            hint=hint,
            at_hand=at_hand,
            on_better=lambda plan: on_better(with_lessons(plan)),
            should_stop=should_stop,
        )
        return with_lessons(found)

    def _best(
        self,
        problem: Problem,
        *,
        hint: Plan | None,
        at_hand: ShownPlan | None,
        on_better: _Better,
        should_stop: _Stop,
    ) -> Plan:
        """Return the best plan found in time, in which nobody learns anything yet."""
        timed = Deadline(LOOK_FOR_S, should_stop)
        asked = _close_to(problem, at_hand)
        kept = kept_plan(asked, timed) if asked.stood else None
        if kept is None:
            first = first_plan(problem, naming=self._naming(problem), timed=timed)
            on_better(first)
            start = begun_plan(problem, first, hint or first, should_stop=timed)
            return self._sought(problem, start, on_better, timed) or first
        bounds = bounds_of(kept)

        def honest(plan: Plan) -> Plan:
            """Leave out what is proved only of plans that move as few steps."""
            return plan_with(problem, plan.placed, bounds, plan.made_by)

        def tell(plan: Plan) -> None:
            on_better(honest(plan))

        near = kept
        if nothing_to_gain(asked, kept):
            tell(kept)
        else:
            near = self._near_now(asked, kept, tell, timed)
        forward = pulled_forward(asked, near, timed)
        if forward is not None:
            on_better(forward)
            return self._sought(problem, forward, on_better, timed) or forward
        return honest(self._kept_on(asked, near, tell, timed))

    def _kept_on(self, asked: Problem, near: Plan, tell: _Better, timed: Deadline) -> Plan:
        """Return the last plan worth its moves that a search finds from one on."""
        if nothing_to_gain(asked, near):
            return near
        worth = _Worth(asked, near, tell)
        found = self._sought(asked, near, worth, timed)
        return worth.best(found) if found else worth.shown

    def _near_now(self, asked: Problem, kept: Plan, on_better: _Better, timed: Deadline) -> Plan:
        """Return the plan that moves the fewest steps of those found within a second or two.

        Nothing is told before one is found, or there was no time to wait for one: two plans that
        flicker by are worse than the second alone.
        """
        worth = _Worth(asked, kept, on_better, wait=Deadline(SHOWN_WITHIN_S))
        standing = still_standing(asked)
        for found in laid_near_now(asked, standing, self._solver, worth.patient(timed)):
            if found:
                worth(plan_with(asked, found, bounds_of(kept), "around tonight"))
                break
        worth.tell()
        return worth.shown

    def _naming(self, problem: Problem) -> Naming:
        return naming_of(self._shop(), problem)

    def _sought(
        self, problem: Problem, start: Plan, on_better: _Better, timed: Deadline
    ) -> Plan | None:
        """Return what a search ends with; ``None`` where the solver is lost."""
        try:
            return sought_plan(
                problem,
                self._solver,
                start,
                seconds=timed.left_s,
                on_better=on_better,
                should_stop=timed.is_asked_to_stop,
                naming=self._naming(problem),
            )
        except SolverLostError:
            return None


def _as_it_stood(problem: Problem, at_hand: ShownPlan | None) -> tuple[Placed, ...]:
    """Return where steps lie in the plan at hand, in minutes of the problem."""
    if at_hand is None:
        return ()
    return tuple(shifted(problem, at_hand.plan.placed, _shift_min(problem, at_hand)))


def _shift_min(problem: Problem, at_hand: ShownPlan) -> int:
    return (at_hand.origin_at - problem.origin_at) // timedelta(minutes=1)


def _close_to(problem: Problem, at_hand: ShownPlan | None) -> Problem:
    """Return the problem that keeps to a plan, where enough of that may still stand."""
    if at_hand is None:
        return problem
    asked = stood_in(problem, at_hand.plan, shift_min=_shift_min(problem, at_hand))
    standing = sum(p.start_min >= 0 for p in asked.stood)
    return asked if standing and standing >= _LEAST_KEPT * len(asked.stood) else problem


class _Worth:
    """Hands on only plans that are worth what they move; keeps the one that is shown.

    Args:
        problem: it says what stood where.
        shown: the plan that others are held against.
        on_better: hears of plans.
        wait: until it is over ``shown`` itself is not told; ``None``: it was told already.
    """

    def __init__(
        self, problem: Problem, shown: Plan, on_better: _Better, *, wait: Deadline | None = None
    ) -> None:
        self._problem = problem
        self._on_better = on_better
        self._wait = wait
        self.shown = shown

    def __call__(self, plan: Plan) -> None:
        if plan.placed and is_worth(self._problem, self.shown, plan):
            self.shown, self._wait = plan, None
            self._on_better(plan)

    def tell(self) -> None:
        """Tell the plan shown, if it was not told yet."""
        if self._wait is not None:
            self._wait = None
            self._on_better(self.shown)

    def patient(self, timed: Deadline) -> _Stop:
        """Return what is asked whether to stop, and tells the plan shown once the wait is over."""

        def is_over() -> bool:
            if self._wait is not None and self._wait():
                self.tell()
            return timed.is_asked_to_stop()

        return is_over

    def best(self, found: Plan) -> Plan:
        """Return the last plan of a search where it is worth it, else the one shown."""
        return found if found.placed and is_worth(self._problem, self.shown, found) else self.shown
