"""The window's search: at once a plan that keeps to the one people go by, then only better ones."""

from dataclasses import replace
from datetime import timedelta

import pytest
from schedule.full_week import full_week
from schedule.hand_shops import HOUR
from schedule.test_keeping_to import TUESDAY_MIN, delayed
from schedule.test_teaching import APPRENTICE, MAKER, RIVET, SEW, TIDY, shop

from armorplan.app.shown_plan import ShownPlan
from armorplan.cli.seeking import Seeker
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import violations
from armorplan.schedule.comparing import moved_steps
from armorplan.schedule.planning import first_plan
from armorplan.schedule.stages import MOVED
from armorplan.schedule.teaching import learned_in
from armorplan.workshop.shop import one_maker

LATER_TIDY = replace(TIDY, earliest_min=100)


class LostSolver:
    """Never there, and says how often it was asked."""

    asked = 0

    def solve(self, *_args, **_more):
        self.asked += 1
        message = "The solver is gone."
        raise SolverLostError(message)


@pytest.fixture(scope="module")
def week():
    problem = full_week(scale=0.9)
    return problem, first_plan(problem)


def sought(problem, at_hand, solver):
    told = []
    found = Seeker(solver, lambda: one_maker("UTC"))(
        problem,
        hint=None,
        at_hand=at_hand,
        on_better=told.append,
        should_stop=lambda: False,
    )
    return found, told


def test_an_hour_late_is_told_at_once_with_most_steps_where_they_stood(week):
    problem, plan = week
    now = delayed(problem, plan, now_min=TUESDAY_MIN, over_min=HOUR)
    at_hand = ShownPlan(plan=plan, origin_at=problem.origin_at)
    found, told = sought(now, at_hand, LostSolver())
    free = [a.id for a in now.activities if a.fixed_start_min is None]
    assert violations(now, told[0]) == ()
    assert len([i for i in moved_steps(plan, told[0]) if i in free]) < len(free) / 3
    assert found.placed


def test_a_plan_that_stands_is_not_searched_further(week):
    problem, plan = week
    solver = LostSolver()
    undated = replace(problem, jobs=())
    at_hand = ShownPlan(plan=plan, origin_at=problem.origin_at)
    found, told = sought(undated, at_hand, solver)
    assert solver.asked == 0
    assert moved_steps(plan, found) == ()
    assert told == [found]
    assert all(stage.name != MOVED for stage in found.stages)


def test_a_plan_of_long_ago_is_not_kept_to(week):
    problem, plan = week
    solver = LostSolver()
    long_ago = ShownPlan(plan=plan, origin_at=problem.origin_at - timedelta(days=30))
    found, _ = sought(problem, long_ago, solver)
    assert solver.asked
    assert found.placed


def test_what_was_signed_off_is_learned_in_the_next_plan_and_in_all_after_it():
    """What moves for it begins some minutes later, the same person's, and once only."""
    early = replace(APPRENTICE, windows=MAKER.windows)
    bench = shop(RIVET, SEW, LATER_TIDY, workers=(MAKER, early))
    plain = replace(bench, activities=(replace(RIVET, taught=()), *bench.activities[1:]))
    plan = first_plan(plain)
    assert not learned_in(bench, plan.placed)
    at_hand = ShownPlan(plan=plan, origin_at=bench.origin_at)
    found, told = sought(bench, at_hand, LostSolver())
    assert violations(bench, found) == ()
    assert learned_in(bench, found.placed) == {"rivet"}
    assert told[-1] == found
    assert found.finish_min == plan.finish_min
    again, _ = sought(bench, ShownPlan(plan=found, origin_at=bench.origin_at), LostSolver())
    assert moved_steps(found, again) == ()
    # Taken back, the maker does it alone, and what stands may stand.
    back, _ = sought(plain, ShownPlan(plan=found, origin_at=bench.origin_at), LostSolver())
    assert violations(plain, back) == ()
    assert {p.who for p in back.placed if p.id == "rivet"} == {"maker"}
