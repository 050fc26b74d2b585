"""Parts of a plan as problems of their own: what is pinned is in the way just as it was."""

from dataclasses import replace
from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.full_week import full_week
from schedule.pair_shops import pair_shops
from schedule.random_shops import shops

from armorplan.schedule.checker import violations
from armorplan.schedule.cp import Layout
from armorplan.schedule.first import first_placing
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import goals
from armorplan.schedule.neighbourhoods import Grounds
from armorplan.schedule.pinning import Pinner, merged_plan, pinned_at
from armorplan.schedule.problem import Plan, Status
from armorplan.schedule.serial import Stuck
from armorplan.schedule.stages import FINISH, JUMPS
from armorplan.solving.model import Effort, Outcome

BRIEF = Effort(seconds=5)
WHOLE = (-(10**6), 10**6)


def all_pinned(problem, placed, free):
    """The whole problem with all else pinned, nothing left out or put together."""
    lies = {p.id: p for p in placed}
    activities = (a if a.id in free else pinned_at(a, lies[a.id]) for a in problem.activities)
    return replace(problem, activities=tuple(activities))


def best(solver, problem, hint, stage):
    """The plan that has the least of a stage that there is."""
    layout = Layout(problem, max(p.end_min for p in hint))
    answer = solver.solve(layout.model_for(stage, {}, effort=BRIEF, hint=hint))
    assert answer.status is Outcome.BEST
    return layout.placed(answer.values)


@settings(
    max_examples=12,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.filter_too_much],
)
@given(shop=shops() | pair_shops(), seed=st.integers(0, 99))
def test_a_part_gains_what_the_whole_would_with_all_else_pinned(solver, shop, seed):
    if lag_cycle(shop):
        return
    placed = first_placing(shop)
    if isinstance(placed, Stuck):
        return
    lies = {p.id: p for p in placed}
    grounds = Grounds(shop)
    rng = Random(seed)  # noqa: S311
    drawn = rng.sample(grounds.movable, min(2, len(grounds.movable)))
    free = grounds.closed(drawn, lies)
    part = Pinner(shop).part(placed, free, span=WHOLE)
    assert violations(part.problem, Plan(status=Status.GOOD, placed=part.placed)) == ()
    if not free:
        return
    for stage in goals(part.problem, part.placed).keys() - {FINISH, JUMPS}:
        moved = merged_plan(placed, best(solver, part.problem, part.placed, stage), free)
        assert violations(shop, Plan(status=Status.GOOD, placed=moved)) == ()
        whole = best(solver, all_pinned(shop, placed, free), placed, stage)
        assert goals(shop, moved)[stage] == goals(shop, whole)[stage]


def test_a_part_of_fifty_builds_is_as_small_as_one_of_five():
    sizes = []
    for builds in (5, 50):
        week = full_week(builds=builds)
        placed = first_placing(week)
        free = frozenset(i for i in week.jobs[2].activities if ".p" not in i)
        span = min(p.start_min for p in placed if p.id in free) - 1440, 20000
        sizes.append(len(Pinner(week).part(placed, free, span=span).problem.activities))
    assert sizes[1] < 3 * sizes[0] < 300
