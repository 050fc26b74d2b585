"""How long an activity takes, and where what is fixed lies: constant, by table, by who does it."""

from collections.abc import Callable
from collections.abc import Set as AbstractSet

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.monotone import first_holding
from armorplan.schedule.pauses import end_with_pauses
from armorplan.schedule.problem import Placed, Problem


def ends_by(minutes: int) -> Callable[[int], int]:
    """Return where what takes so many minutes ends, by its start."""
    return lambda start_min: start_min + minutes


def own_minutes(activity: Activity, way: Mode) -> int:
    """Return what a way takes by itself: of a dip with what its batch is set up in."""
    return way.minutes + (activity.dip.set_up_min if activity.dip else 0)


def end_from(activity: Activity, start_min: int) -> int:
    """Return the soonest minute an activity ends that starts at ``start_min``, hours aside."""
    if activity.table is None:
        return start_min + least_minutes(activity)
    return activity.table.ready_at(start_min)


def last_start_ending_by(activity: Activity, end_min: int) -> int:
    """Return the last start that ends by ``end_min``; below 0 where no start of a table does."""
    if activity.table is None:
        return end_min - least_minutes(activity)
    return (
        first_holding(lambda start: end_from(activity, start) > end_min, 0, max(end_min + 1, 0))
        - 1
    )


def least_minutes(activity: Activity) -> int:
    """Return the shortest it can take, whenever it starts and whoever does it."""
    if activity.table is not None:
        return activity.table.shortest_min
    if activity.modes or activity.dip is not None:
        return min((own_minutes(activity, way) for way in activity.ways), default=0)
    return activity.minutes


def most_minutes(activity: Activity, span_min: int = 0) -> int:
    """Return the longest it can take, whenever it starts and whoever does it.

    Args:
        activity: which.
        span_min: what a batch or work with pauses may last; it is the horizon where nothing
            nearer is known.
    """
    if activity.table is not None:
        return activity.table.longest_min
    longest = max((own_minutes(activity, way) for way in activity.ways), default=0)
    return max(longest, span_min) if activity.dip or activity.sitting_min else longest


def placed_by_history(problem: Problem) -> tuple[Placed, ...]:
    """Return where the fixed activities lie, in order of their starts.

    An activity that needs a person and is fixed without one goes to the first of its people whose
    hands are free of other fixed work, and to the first of them where nobody's are: several
    timers may well run at once, and what happened is not refused. Likewise where it was done, of
    several baths or places: the first of them that no other fixed work is at.
    """
    fixed = [a for a in problem.activities if a.fixed_start_min is not None]
    busy: dict[str, int] = {}
    taken: dict[str, int] = {}
    windows = {w.id: w.windows for w in problem.workers}
    placed = []
    for activity in sorted(fixed, key=lambda a: (a.fixed_start_min or 0, a.id)):
        start = activity.fixed_start_min or 0
        who = activity.fixed_who
        if who is None:
            idle = [p for p in activity.people if busy.get(p, start) <= start]
            who = next(iter([*idle, *activity.people]), None)
        engaged = {at for at, till in (taken | busy).items() if till > start}
        way = _way_of_history(activity, who, engaged)
        end = activity.fixed_end_min
        if end is None:
            end = _end_by(activity, way, start, windows)
        if who is not None:
            busy |= {one: max(end, busy.get(one, end)) for one in (who, *_beside(way))}
        if way is not None:
            taken |= {at: max(end, taken.get(at, end)) for at in _places_of(way)}
        mode = way.name if way else activity.fixed_mode
        placed.append(Placed(id=activity.id, start_min=start, end_min=end, who=who, mode=mode))
    return tuple(placed)


def _way_of_history(activity: Activity, who: str | None, taken: AbstractSet[str]) -> Mode | None:
    """Return the way it was done in; where that is not known, that person's first that is free.

    So where nobody wrote down who was beside them: the first whose hands are free.
    """
    known = activity.way(who, activity.fixed_mode)
    theirs = [way for way in activity.ways if way.who == who]
    idle = (way for way in theirs if taken.isdisjoint((*_places_of(way), *way.also)))
    return known or next(idle, next(iter(theirs), None))


def _beside(way: Mode | None) -> tuple[str, ...]:
    return () if way is None else way.also


def _places_of(way: Mode) -> tuple[str, ...]:
    places = tuple(demand.resource for demand in way.demands)
    return (way.bath, *places) if way.bath else places


def _end_by(
    activity: Activity,
    way: Mode | None,
    start: int,
    windows: dict[str, tuple[tuple[int, int], ...]],
) -> int:
    if activity.table is not None:
        return activity.table.ready_at(start)
    minutes = least_minutes(activity) if way is None else own_minutes(activity, way)
    end = None
    if way is not None and activity.sitting(way):
        hours = windows.get(way.who or "", ())
        end = end_with_pauses(way.minutes, start, hours, activity.sitting(way))
    return start + minutes if end is None else end
