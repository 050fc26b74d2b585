"""Why there is no plan, in words: what fits nowhere, or a smallest set of demands that clash."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_cycle import title, words
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem

Demand = Lag | EndsBeforeLast
_MOST_TOLD = 8
"""A longer list says nothing to a maker."""


def hopeless(problem: Problem) -> str:
    """Return which activity fits nowhere even by itself, with its numbers; empty for none."""
    room = Occupancy(problem)
    for activity in problem.activities:
        if activity.fixed_start_min is None:
            floor = max(0, activity.earliest_min)
            if room.first_fit(activity, floor) is None:
                return f"{title(problem, activity.id)} {_why_nowhere(problem, activity)}."
    return ""


def _why_nowhere(problem: Problem, activity: Activity) -> str:
    capacity = {r.id: r.capacity for r in problem.resources}
    for demand in activity.demands:
        if demand.amount > capacity[demand.resource]:
            held = capacity[demand.resource]
            return f"takes {demand.amount} of {demand.resource}, which holds {held}"
    days = problem.horizon_min // DAY_MIN
    if not activity.people:
        return f"does not end within {days} days"
    hours = [w for who in problem.workers if who.id in activity.people for w in who.windows]
    if not hours:
        return f"needs someone at the bench, and nobody has hours within {days} days"
    longest = max(end - start for start, end in hours)
    if activity.minutes > longest:
        return (
            f"takes {activity.minutes} min in one go, and the longest stretch anyone works is "
            f"{longest} min"
        )
    return f"does not fit into anyone's hours within {days} days"


def smallest_conflict(
    problem: Problem, is_possible: Callable[[Problem], bool | None]
) -> tuple[Demand, ...]:
    """Return demands that cannot all be met while any one fewer could (Junker's QuickXplain).

    ``is_possible`` tells whether a problem has a plan, ``None`` where it cannot tell in time; that
    counts as possible, so that what is returned is a conflict still, if perhaps not a smallest.
    Empty where the hours and resources alone are too tight.

    Source: U. Junker, 'QUICKXPLAIN: preferred explanations and relaxations for over-constrained
    problems', AAAI 2004 (from memory).
    """
    demands: tuple[Demand, ...] = (*problem.lags, *problem.before_last)

    def clashes(kept: Sequence[Demand]) -> bool:
        return is_possible(_with_only(problem, kept)) is False

    if clashes(()):
        return ()
    return _explain((), (), demands, clashes)


def _explain(
    ground: tuple[Demand, ...],
    added: tuple[Demand, ...],
    asked: tuple[Demand, ...],
    clashes: Callable[[Sequence[Demand]], bool],
) -> tuple[Demand, ...]:
    if added and clashes(ground):
        return ()
    if len(asked) == 1:
        return asked
    half = len(asked) // 2
    one, two = asked[:half], asked[half:]
    of_two = _explain((*ground, *one), one, two, clashes)
    of_one = _explain((*ground, *of_two), of_two, one, clashes)
    return (*of_one, *of_two)


def _with_only(problem: Problem, kept: Sequence[Demand]) -> Problem:
    return replace(
        problem,
        lags=tuple(d for d in kept if isinstance(d, Lag)),
        before_last=tuple(d for d in kept if isinstance(d, EndsBeforeLast)),
    )


def conflict_words(problem: Problem, demands: tuple[Demand, ...]) -> str:
    """Return one sentence for a conflict."""
    if not demands:
        days = problem.horizon_min // DAY_MIN
        return f"The hours and places of {days} days do not hold the work."
    said = [words(problem, demand) for demand in demands[:_MOST_TOLD]]
    if len(demands) > _MOST_TOLD:
        said.append(f"and {len(demands) - _MOST_TOLD} more")
    return f"These cannot all hold within the hours: {'; '.join(said)}."
