"""Why there is no plan: what fits nowhere by itself, or a smallest set of claims that clash."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from armorplan.kernel.units import span_words
from armorplan.schedule.activity import Activity
from armorplan.schedule.claims import Claim, Kind, absences_of, claims_of, without
from armorplan.schedule.clash_words import conflict_words
from armorplan.schedule.close_parts import stuck_parts
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.lag_cycle import title
from armorplan.schedule.naming import Naming
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.overload import overload
from armorplan.schedule.problem import Problem
from armorplan.schedule.spans import least_minutes

__all__ = ["UNTOLD_CLASH", "Oracle", "conflict_words", "hopeless", "smallest_conflict"]

Oracle = Callable[[Problem], bool | None]
"""Tells whether a problem has a plan; ``None`` where it cannot tell in time."""
UNTOLD_CLASH = "what stands against what could not be told in the time given."
"""Of a problem that is proved to have no plan, where there was no time to tell why."""
_MOST_GAPS = 4
"""Of more closed stretches in a conflict the hours as a whole are told."""


def hopeless(problem: Problem, naming: Naming | None = None) -> str:
    """Return why there can be no plan: what fits nowhere by itself, or more work than hours.

    With the numbers; empty where neither is so.
    """
    naming = naming or Naming()
    turned = _turned_round(problem)
    if turned:
        return turned
    room = Occupancy(problem)
    for activity in problem.activities:
        if activity.fixed_start_min is None:
            floor = max(0, activity.earliest_min)
            why = _too_much(problem, activity, naming)
            if not why and room.first_fit(activity, floor) is None:
                why = _why_nowhere(problem, activity, naming)
            if why:
                return f"{title(problem, activity.id)} {why}."
    return overload(problem, naming)


def _turned_round(problem: Problem) -> str:
    """Return which wait is longer at the least than at the most; where tables say it, they do."""
    fixed = {a.id for a in problem.activities if a.fixed_start_min is not None}
    for lag in problem.lags:
        is_turned = lag.max_lag is not None and lag.min_lag > lag.max_lag
        if is_turned and not fixed >= {lag.first, lag.then}:
            return (
                f"{title(problem, lag.then)} starts at least {lag.min_lag} min after "
                f"{title(problem, lag.first)} ends, and at most {lag.max_lag} min after it: both "
                "cannot be."
            )
    return ""


def _why_nowhere(problem: Problem, activity: Activity, naming: Naming) -> str:
    planned = span_words(problem.horizon_min)
    if not activity.people:
        return f"does not end within {planned}"
    if set(activity.people) == {NOBODY}:
        return "is work that nobody in this shop does"
    hours = [w for who in problem.workers if who.id in activity.people for w in who.windows]
    if not hours:
        return f"needs someone at the bench, and nobody has hours within {planned}"
    longest = max(end - start for start, end in hours)
    takes = least_minutes(activity)
    if activity.sitting_min:
        takes = min(takes, activity.sitting_min)
    if takes > longest:
        return (
            f"takes {takes} min in one go, and the longest stretch anyone works is {longest} min"
        )
    pinned = _pinned(problem, activity, naming)
    return pinned or f"{_no_hours(problem, activity, naming)} within {planned}"


def _pinned(problem: Problem, activity: Activity, naming: Naming) -> str:
    """Return what a set time, or a last one, makes of an activity that would fit without it."""
    latest = activity.latest_start_min
    if latest is None:
        return ""
    since, by = (naming.moment(problem, m) for m in (activity.earliest_min, latest))
    if latest < activity.earliest_min:
        return f"has to start by {by}, and cannot start before {since}"
    free = replace(activity, latest_start_min=None)
    if Occupancy(problem).first_fit(free, max(0, activity.earliest_min)) is None:
        return ""
    when = f"is set for {by}" if latest == activity.earliest_min else f"has to start by {by}"
    return f"{when}, and {_no_hours_then(problem, activity, naming)}"


def _no_hours_then(problem: Problem, activity: Activity, naming: Naming) -> str:
    people = activity.alone or activity.people
    able = " or ".join(naming.of(who) for who in people if who != NOBODY)
    beside = [
        *map(naming.of, activity.always_also),
        *map(naming.of, _closed_places(problem, activity)),
    ]
    there = f" with {', '.join(beside)}" if beside else ""
    return f"{able} has no hours for it then{there}"


def _no_hours(problem: Problem, activity: Activity, naming: Naming) -> str:
    closed = ", ".join(map(naming.of, _closed_places(problem, activity)))
    if closed:
        return f"finds no hours in which somebody works and {closed} is open,"
    if activity.always_also:
        there = ", ".join(map(naming.of, activity.always_also))
        return f"finds no hours in which {there} can be there as well,"
    return "does not fit into anyone's hours"


def _too_much(problem: Problem, activity: Activity, naming: Naming) -> str:
    """Return what it takes more of than there is, whichever way it is done."""
    capacity = {r.id: r.capacity for r in problem.resources}
    size = {b.id: b.capacity for b in problem.baths}
    for demand in activity.demands:
        held = capacity.get(demand.resource, 0)
        if demand.amount > held:
            return f"takes {demand.amount} of {naming.of(demand.resource)}, which holds {held}"
    if activity.dip is not None:
        baths = sorted({way.bath for way in activity.ways if way.bath in size})
        if not baths:
            return "goes into a bath, and there is none for it"
        if all(size[bath] < activity.dip.amount for bath in baths):
            most = max(size[bath] for bath in baths)
            names = ", ".join(map(naming.of, baths))
            return f"takes {activity.dip.amount} of {names}, which holds {most}"
    return ""


def _closed_places(problem: Problem, activity: Activity) -> list[str]:
    shut = {r.id for r in problem.resources if r.windows is not None}
    demands = (*activity.demands, *(d for way in activity.modes for d in way.demands))
    return sorted({d.resource for d in demands} & shut)


def smallest_conflict(problem: Problem, is_possible: Oracle) -> tuple[Claim, ...]:
    """Return claims that cannot all be met while any one fewer could (Junker's QuickXplain).

    A person's hours are one claim at first; where they clash, the closed stretches that do are
    told instead, if they are few. What ``is_possible`` cannot tell counts as possible, so that
    what is returned is a conflict still, if perhaps not a smallest. Empty where the work fits
    nowhere even with all claims given up. What clashes among a few that windows hold together is
    sought among them first.

    Source: U. Junker, 'QUICKXPLAIN: preferred explanations and relaxations for over-constrained
    problems', AAAI 2004 (from memory).
    """
    for part in stuck_parts(problem):
        if is_possible(part.problem) is False:
            alone = tuple(map(part.in_whole, _smallest(part.problem, is_possible)))
            found = _of_whole(problem, alone, part.problem, is_possible) if alone else ()
            if found:
                return found
    return _smallest(problem, is_possible)


def _of_whole(
    problem: Problem, found: tuple[Claim, ...], part: Problem, is_possible: Oracle
) -> tuple[Claim, ...]:
    """Return a part's conflict as one of the whole, where more people might do its work."""
    told = {c.of for c in found if c.kind is Kind.ABSENCE}
    universe = tuple(c for c in claims_of(problem) if c.kind is not Kind.HOURS or c.of not in told)
    universe += tuple(gap for who in sorted(told) for gap in absences_of(problem, who))
    clashes = _clashing(problem, universe, is_possible)
    if clashes(found):
        return found
    mine = {a.id for a in part.activities}
    hands = tuple(c for c in universe if c.kind is Kind.HANDS and c.of in mine and c not in found)
    if not hands or not clashes((*found, *hands)):
        return ()
    return (*_explain(found, (), hands, clashes), *found)


def _smallest(problem: Problem, is_possible: Oracle) -> tuple[Claim, ...]:
    asked = claims_of(problem)
    if not asked or _clashing(problem, asked, is_possible)(()):
        return ()
    found = _explain((), (), asked, _clashing(problem, asked, is_possible))
    for hours in [c for c in found if c.kind is Kind.HOURS]:
        found = _by_gaps(problem, hours, found, is_possible)
    return found


def _by_gaps(
    problem: Problem, hours: Claim, found: tuple[Claim, ...], is_possible: Oracle
) -> tuple[Claim, ...]:
    """Return the conflict with the closed stretches that count instead of all hours of a person."""
    others = tuple(c for c in found if c != hours)
    gaps = absences_of(problem, hours.of)
    universe = (*(c for c in claims_of(problem) if c != hours), *gaps)
    told = {c.of for c in others if c.kind is Kind.ABSENCE}
    for who in told:  # Hours told by gaps before are no claim of their own any more.
        universe = tuple(c for c in universe if (c.kind, c.of) != (Kind.HOURS, who))
        universe = (*universe, *absences_of(problem, who))
    clashes = _clashing(problem, universe, is_possible)
    if not gaps or clashes(others):
        return found
    closed = _explain(others, (), gaps, clashes)
    return (*others, *closed) if 0 < len(closed) <= _MOST_GAPS else found


def _clashing(
    problem: Problem, asked: Collection[Claim], is_possible: Oracle
) -> Callable[[Sequence[Claim]], bool]:
    def clashes(kept: Sequence[Claim]) -> bool:
        held = frozenset(kept)
        freed = without(problem, [claim for claim in asked if claim not in held])
        return is_possible(freed) is False

    return clashes


def _explain(
    ground: tuple[Claim, ...],
    added: tuple[Claim, ...],
    asked: tuple[Claim, ...],
    clashes: Callable[[Sequence[Claim]], bool],
) -> tuple[Claim, ...]:
    if added and clashes(ground):
        return ()
    if len(asked) == 1:
        return asked
    half = len(asked) // 2
    one, two = asked[:half], asked[half:]
    of_two = _explain((*ground, *one), one, two, clashes)
    of_one = _explain((*ground, *of_two), of_two, one, clashes)
    return (*of_one, *of_two)
