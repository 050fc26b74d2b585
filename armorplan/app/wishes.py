"""What a maker may ask of the weeks: what would free them, what if, and tomorrow around tonight.

Each answer comes in rows, one by one; it is reckoned in any thread but the window's, and may be
stopped.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from armorplan.app.shown_plan import ShownPlan
from armorplan.app.tonight import MovedRow, moved_rows, tonight_words
from armorplan.app.what_if_plan import Asked
from armorplan.app.what_if_rows import SideRow, side_row
from armorplan.app.why_none import AskedWhy, OnDoing, Why
from armorplan.schedule.comparing import plan_sum
from armorplan.schedule.flowing import ShouldStop
from armorplan.schedule.keeping_to import stood_in
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import begun_plan, best_plan, first_plan
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.rearranging import around_now
from armorplan.schedule.searching import Solver
from armorplan.schedule.teaching import taught_plan

EACH_S = 3.0
"""How long a better plan is looked for, for each thing asked."""
AT_HAND = "The plan at hand"
WITHIN_S = 30.0
"""How long it is looked for what stands against a plan and what would free it."""
_TRIED_IN_TIME = 8
"""So many ways out get their full search within that time; more, where plans come sooner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """Tomorrow laid anew: the plan, and what moved in words."""

    plan: Plan
    words: str
    reach_h: int | None
    kept: int
    moved: tuple[MovedRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """Answers with this solver.

    Attributes:
        each_s: seconds a better plan is looked for, for each thing asked; 0: serial plans only.
        within_s: seconds for finding what stands against a plan, and what would free it.
    """

    solver: Solver
    each_s: float = EACH_S
    within_s: float = WITHIN_S

    def what_if(
        self,
        problem: Problem,
        at_hand: Plan,
        asked: Sequence[Asked],
        naming: Naming,
        should_stop: ShouldStop,
    ) -> Iterator[SideRow]:
        """Yield the plan at hand, then what each change would come to: at once, and then better."""
        told = plan_sum(problem, at_hand)
        yield side_row(problem, at_hand, told, named=("", AT_HAND), at_hand=None, naming=naming)

        def row_of(each: Asked, other: Problem, plan: Plan) -> SideRow:
            named, summed = (each.text, each.title), plan_sum(other, plan)
            return side_row(other, plan, summed, named=named, at_hand=told, naming=naming)

        laid: list[tuple[Asked, Problem, Plan]] = []
        for each in asked:
            if should_stop():
                return
            other = each.of(problem)
            # What is only added leaves the plan at hand a plan: nothing looks worse for it.
            plan = taught_plan(other, begun_plan(other, first_plan(other), at_hand))
            laid.append((each, other, plan))
            yield replace(row_of(each, other, plan), is_last=False)
        for each, other, first in laid:
            plan = first if should_stop() else self.best(other, at_hand, should_stop)
            yield row_of(each, other, plan)

    def why_none(
        self,
        problem: Problem,
        naming: Naming,
        should_stop: ShouldStop,
        on_doing: OnDoing = lambda _: None,
        *,
        known: Plan | None = None,
    ) -> Why:
        """Return the smallest conflict of a problem without a plan, and what tries its ways out.

        All of it together takes ``within_s``. ``on_doing`` is told what is being tried; ``known`` is
        what a search said of the problem: where that proved that there is none, it counts.
        """
        brief = replace(self, each_s=min(self.each_s, self.within_s / _TRIED_IN_TIME))
        return AskedWhy(
            problem=problem,
            naming=naming,
            solver=self.solver,
            best=lambda tried, stopped: brief.best(tried, None, stopped),
            within_s=self.within_s,
            should_stop=should_stop,
            on_doing=on_doing,
            known=known.conflict if known and known.status is Status.NONE else "",
        ).why()

    def tonight(
        self, problem: Problem, at_hand: ShownPlan, naming: Naming, should_stop: ShouldStop
    ) -> Tonight:
        """Return tomorrow laid anew around what runs now; minute 0 of the problem is now."""
        apart = at_hand.origin_at - problem.origin_at
        shift_min = round(apart.total_seconds() / 60)
        hint = replace(
            at_hand.plan, placed=tuple(_shifted(p, shift_min) for p in at_hand.plan.placed)
        )

        def seek(tried: Problem) -> Plan:
            return self.best(tried, hint, should_stop)

        stood = stood_in(problem, at_hand.plan, shift_min=shift_min)
        found = around_now(
            replace(stood, stood=()),
            at_hand.plan,
            seek,
            shift_min=shift_min,
            should_stop=should_stop,
        )
        found = replace(found, plan=taught_plan(stood, found.plan, hint.placed))
        words = tonight_words(problem, at_hand.plan, found, naming, shift_min=shift_min)
        moved = moved_rows(problem, at_hand.plan, found, shift_min=shift_min)
        return Tonight(
            plan=found.plan,
            words=words,
            reach_h=found.reach_h,
            kept=found.kept,
            moved=tuple(moved),
        )

    def best(self, problem: Problem, hint: Plan | None, should_stop: ShouldStop) -> Plan:
        """Return the best plan found in ``each_s``; ``hint``: a plan of a former state of it.

        What can be learned in it is (``schedule.teaching``).
        """
        if self.each_s <= 0 or should_stop():
            plan = begun_plan(problem, first_plan(problem), hint)
        else:
            plan = best_plan(
                problem, self.solver, hint=hint, seconds=self.each_s, should_stop=should_stop
            )
        return taught_plan(problem, plan, hint.placed if hint else ())


def _shifted(placed: Placed, shift_min: int) -> Placed:
    return replace(
        placed, start_min=placed.start_min + shift_min, end_min=placed.end_min + shift_min
    )
