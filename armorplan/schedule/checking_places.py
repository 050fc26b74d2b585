"""Checks places and tools: enough of each at every moment, and only while the place is open."""

from collections.abc import Iterator
from itertools import pairwise

from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.violation import Violation

_Taken = tuple[int, int, int, tuple[str, ...]]
"""From, to, how much, for whom."""


def place_violations(
    problem: Problem, lies: dict[str, Placed], free: frozenset[str]
) -> Iterator[Violation]:
    """Check every resource: what takes it while it runs, and what holds it till it is taken down."""
    demanded = _demanded(problem, lies)
    for resource in problem.resources:
        takers = [*demanded.get(resource.id, ()), *_held(problem, lies, resource.id)]
        takers = [t for t in takers if t[0] < t[1]]
        changes: dict[int, list[_Taken]] = {}
        for taken in takers:
            changes.setdefault(taken[0], []).append(taken)
        minutes = sorted({m for t in takers for m in t[:2]})
        here: list[_Taken] = []
        for minute, _ in pairwise(minutes):
            here = [t for t in here if t[1] > minute] + changes.get(minute, [])
            used = sum(t[2] for t in here)
            about = tuple(sorted({i for t in here for i in t[3]}))
            if used > resource.capacity and free.intersection(about):
                text = f"{resource.id} holds {resource.capacity}, {used} at minute {minute}."
                yield Violation(kind="over capacity", about=about, text=text)
    yield from _closed(problem, lies, free)
    yield from _unknown(problem, free)


def _demanded(problem: Problem, lies: dict[str, Placed]) -> dict[str, list[_Taken]]:
    found: dict[str, list[_Taken]] = {}
    for activity in problem.activities:
        placed = lies.get(activity.id)
        if placed is None:
            continue
        way = activity.way(placed.who, placed.mode)
        for demand in (*activity.demands, *(way.demands if way else ())):
            taken = (placed.start_min, placed.end_min, demand.amount, (activity.id,))
            found.setdefault(demand.resource, []).append(taken)
    return found


def _held(problem: Problem, lies: dict[str, Placed], resource: str) -> Iterator[_Taken]:
    for hold in problem.holds:
        about = (hold.first, *hold.until)
        if hold.resource == resource and lies.keys() >= set(about):
            start = lies[hold.first].end_min
            end = max((lies[i].start_min for i in hold.until), default=start)
            yield start, end, hold.amount, about


def _closed(
    problem: Problem, lies: dict[str, Placed], free: frozenset[str]
) -> Iterator[Violation]:
    opened = {r.id: r.windows for r in problem.resources if r.windows is not None}
    for activity in problem.activities:
        placed = lies.get(activity.id)
        if placed is None or activity.id not in free:
            continue
        way = activity.way(placed.who, placed.mode)
        for demand in (*activity.demands, *(way.demands if way else ())):
            windows = opened.get(demand.resource)
            inside = windows is None or any(
                a <= placed.start_min and placed.end_min <= b for a, b in windows
            )
            if not inside:
                text = (
                    f"{activity.id} lies at {placed.start_min}–{placed.end_min}, while "
                    f"{demand.resource} is closed."
                )
                yield Violation(kind="closed place", about=(activity.id,), text=text)


def _unknown(problem: Problem, free: frozenset[str]) -> Iterator[Violation]:
    known = {r.id for r in problem.resources}
    asked = [(h.resource, (h.first, *h.until)) for h in problem.holds]
    asked += [(d.resource, (a.id,)) for a in problem.activities for d in a.demands]
    asked += [
        (d.resource, (a.id,)) for a in problem.activities for way in a.modes for d in way.demands
    ]
    for resource, about in asked:
        if resource not in known and free.intersection(about):
            text = f"{about[0]} takes {resource}, and there is none."
            yield Violation(kind="no place", about=about, text=text)
