"""A problem in which only some of a plan may still move: the rest is pinned where it lies."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed, Problem


def pinned(problem: Problem, placed: Iterable[Placed], free: frozenset[str]) -> Problem:
    """Return the problem with everything but ``free`` made fixed where the plan has it.

    What belongs together is to be freed together (``Grounds.closed``): a dip cannot join a batch
    that is pinned, since the batch would end later.
    """
    lies = {p.id: p for p in placed}
    activities = tuple(
        a if a.id in free or a.fixed_start_min is not None else _pinned(a, lies[a.id])
        for a in problem.activities
    )
    return replace(problem, activities=activities)


def _pinned(activity: Activity, placed: Placed) -> Activity:
    """Return an activity that is done as it was planned; it has no other way left."""
    modes = tuple(m for m in activity.modes if (m.who, m.name) == (placed.who, placed.mode))
    return replace(
        activity,
        people=() if placed.who is None else (placed.who,),
        modes=modes,
        fixed_start_min=placed.start_min,
        fixed_end_min=placed.end_min,
        fixed_who=placed.who,
        fixed_mode=placed.mode,
    )


def merged_plan(
    whole: Iterable[Placed], moved: Iterable[Placed], free: frozenset[str]
) -> tuple[Placed, ...]:
    """Return a plan in which what was free lies as in ``moved`` and the rest as it lay."""
    news: Mapping[str, Placed] = {p.id: p for p in moved if p.id in free}
    return tuple(news.get(p.id, p) for p in whole)
