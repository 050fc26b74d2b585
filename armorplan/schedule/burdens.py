"""Whose hours work takes whatever the plan: of the people who can, of a place, of the baths."""

from collections.abc import Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.links import Links
from armorplan.schedule.loads import Hours, Load
from armorplan.schedule.network import shortest
from armorplan.schedule.problem import Hold, Problem

_MOST_GROUPS = 16
"""So many groups of people or baths are looked at, those with most to do."""


class Times(NamedTuple):
    """What no plan can beat: starts and ends, and how much time is needed after each of them."""

    starts: Mapping[str, int]
    ends: Mapping[str, int]
    after_start: Mapping[str, int]
    after_end: Mapping[str, int]


class Burden(NamedTuple):
    """Loads that share hours."""

    hours: Hours
    loads: list[Load]


def burdens(
    problem: Problem, waits: "Waits", mine: list[Activity], times: Times
) -> Iterator[Burden]:
    """Yield what some activities, none of them fixed, ask of people, places and baths."""
    yield from _of_people(problem, mine, times)
    yield from _of_places(problem, waits, mine, times)
    yield from _of_baths(problem, [a for a in mine if a.dip is not None], times)


def hands_minutes(activity: Activity, people: frozenset[str]) -> int:
    """Return the least minutes that an activity takes of these people, whoever does it.

    Of a dip without what its batch is set up in, which others may share.
    """
    if activity.table is not None:
        least = activity.table.shortest_min
        return min(least * len(people.intersection(activity.there(w))) for w in activity.ways)
    return min(
        (w.minutes * len(people.intersection(activity.there(w))) for w in activity.ways), default=0
    )


def groups_of(problem: Problem, mine: Iterable[Activity]) -> list[frozenset[str]]:
    """Return groups of people that share work: those who can do the same, and everybody."""
    counts: dict[frozenset[str], int] = {frozenset(w.id for w in problem.workers): 2**60}
    for activity in mine:
        needed = _needed(activity)
        for group in dict.fromkeys(
            (frozenset(activity.people), needed, *map(_one, activity.also))
        ):
            if group:
                counts[group] = counts.get(group, 0) + activity.minutes
    return sorted(counts, key=lambda group: (-counts[group], sorted(group)))[:_MOST_GROUPS]


def _needed(activity: Activity) -> frozenset[str]:
    """Return who works at it whichever way it is done, be it only beside somebody."""
    first, *others = (frozenset((way.who, *way.also)) for way in activity.ways)
    return frozenset(who for who in first.intersection(*others) if who is not None)


def _one(who: str) -> frozenset[str]:
    return frozenset({who})


def hours_of(problem: Problem, group: frozenset[str]) -> Hours:
    """Return the hours these people have together."""
    windows = (w for worker in problem.workers if worker.id in group for w in worker.windows)
    return Hours(windows, problem.horizon_min)


def _of_people(problem: Problem, mine: list[Activity], times: Times) -> Iterator[Burden]:
    for group in groups_of(problem, mine):
        asked = [(a, minutes) for a in mine if (minutes := hands_minutes(a, group))]
        loads = [Load(times.starts[a.id], minutes, times.after_end[a.id]) for a, minutes in asked]
        dips = [a for a, _ in asked if a.dip is not None]
        yield Burden(hours_of(problem, group), [*loads, *_set_ups(problem, dips, times)])


def _set_ups(problem: Problem, dips: list[Activity], times: Times) -> list[Load]:
    """Return what batches are set up in: as few of them as the largest bath allows."""
    capacity = max((bath.capacity for bath in problem.baths), default=0)
    families: dict[str, list[Activity]] = {}
    for activity in dips:
        if activity.dip is not None:
            families.setdefault(activity.dip.family, []).append(activity)
    loads = []
    for alike in families.values():
        amount = sum(a.dip.amount for a in alike if a.dip is not None)
        set_up = min(a.dip.set_up_min for a in alike if a.dip is not None)
        if capacity and set_up and not _has_past_dips(problem):
            loads.append(_together(alike, times, set_up * -(-amount // capacity)))
    return loads


def _has_past_dips(problem: Problem) -> bool:
    """Tell whether a dip may turn out to be part of a batch of history, which was set up long ago."""
    return any(a.dip is not None and a.fixed_start_min is not None for a in problem.activities)


def _together(alike: list[Activity], times: Times, minutes: int) -> Load:
    """Return a load that lies somewhere between the first start of some and their last end."""
    start = min(times.starts[a.id] for a in alike)
    return Load(start, minutes, min(times.after_end[a.id] for a in alike))


def _of_places(
    problem: Problem, waits: "Waits", mine: list[Activity], times: Times
) -> Iterator[Burden]:
    ids = {a.id for a in mine}
    for resource in problem.resources:
        loads = [
            Load(times.starts[a.id], taken, times.after_end[a.id])
            for a in mine
            if (taken := _taken(a, resource.id))
        ]
        holds = [h for h in problem.holds if h.resource == resource.id and h.first in ids]
        held = [load for hold in holds if (load := waits.held(hold, ids, times)).minutes > 0]
        windows = resource.windows
        if held or windows is None:
            windows = ((0, problem.horizon_min),)
        if loads or held:
            hours = Hours(windows, problem.horizon_min, max(1, resource.capacity))
            yield Burden(hours, loads + held)


def _taken(activity: Activity, resource: str) -> int:
    """Return the least it takes of a place: amount times minutes."""
    takes = []
    for way in activity.ways:
        demands = (*activity.demands, *way.demands)
        minutes = way.minutes if activity.table is None else shortest(activity)
        takes.append(minutes * sum(d.amount for d in demands if d.resource == resource))
    return min(takes, default=0)


class Waits:
    """How long lags make what hangs somewhere wait: one of them, or two in a row."""

    def __init__(self, problem: Problem) -> None:
        self._links = Links(problem)
        self._by_id = {a.id: a for a in problem.activities}

    def held(self, hold: Hold, among: AbstractSet[str], times: Times) -> Load:
        """Return what a hold takes at the least until one of these ends it: amount times minutes.

        What others end may hang on after the last of these has ended.
        """
        until = among & frozenset(hold.until)
        longest = 0
        for lag in self._links.out_of(hold.first):
            wait, between = least_wait(lag), self._by_id[lag.then]
            if lag.then in until:
                longest = max(longest, wait)
            if between.fixed_start_min is None:
                for then in self._links.out_of(lag.then):
                    if then.then in until:
                        longest = max(longest, wait + shortest(between) + least_wait(then))
        after = min((times.after_start[name] for name in until), default=0)
        return Load(times.ends[hold.first], longest * hold.amount, after)


def _of_baths(problem: Problem, dips: list[Activity], times: Times) -> Iterator[Burden]:
    by_id = {bath.id: bath for bath in problem.baths}
    can = {a.id: frozenset(w.bath for w in a.ways if w.bath in by_id) for a in dips}
    groups = sorted({*can.values(), frozenset(by_id)} - {frozenset()}, key=sorted)
    for group in groups[:_MOST_GROUPS]:
        here = [a for a in dips if can[a.id] and can[a.id] <= group]
        if here:
            loads = [
                Load(times.starts[a.id], min(w.minutes for w in a.ways), times.after_end[a.id])
                for a in here
            ]
            families = {a.dip.family for a in here if a.dip is not None}
            change = min(by_id[name].change_min for name in group)
            changing = change * max(0, len(families) - len(group))
            changing = 0 if _has_past_dips(problem) else changing
            loads += [*_set_ups(problem, here, times), _together(here, times, changing)]
            windows = [(0, problem.horizon_min)] * len(group)
            yield Burden(Hours(windows, problem.horizon_min), loads)
