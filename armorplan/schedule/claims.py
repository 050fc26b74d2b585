"""What a plan has to keep and could be freed of, one claim at a time: to find which of them clash.

A due date is none: it is only wished for, and costs lateness at the most.
"""

from collections.abc import Collection, Iterator
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeVar

from armorplan.schedule.activity import Activity, Demand, Mode, Window
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.problem import Lag, Problem, Resource, Worker

_T = TypeVar("_T")


class Kind(StrEnum):
    """What a claim asks for. Those that a maker can do something about come first."""

    WINDOW = "starts in time after another"
    LATEST = "starts by a time"
    EARLIEST = "starts from a time on"
    HOURS = "lies within a person's hours"
    ABSENCE = "lies outside one closed stretch of a person"
    HANDS = "is done by certain people"
    PLACES = "finds a place"
    OPEN = "lies within the hours of a place"
    BATH = "finds room in a bath"
    CHANGE = "waits until a bath is changed"
    HANGS = "hangs until somebody takes it down"
    SHUT = "ends outside certain hours"
    WAIT = "starts after another ends"
    LAST = "ends before the last of others starts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One of them.

    Attributes:
        of: the activity, person, resource or bath it speaks of; of a lag or rule what waits.
        at: which of the problem's lags, rules or holds it is; -1 where it is none of these.
        window: of an absence, in minutes from the origin.
    """

    kind: Kind
    of: str
    at: int = -1
    window: Window = (0, 0)


FREE_MIN = -(2**40)
"""A least wait that asks for nothing, far below any horizon."""


def claims_of(problem: Problem) -> tuple[Claim, ...]:
    """Return all claims of a problem, what a maker can act on first; hours as one for a person."""
    found = [
        *_times(problem),
        *(Claim(kind=Kind.HOURS, of=w.id) for w in problem.workers if w.id != NOBODY),
        *_hands(problem),
        *_places(problem),
        *_after_others(problem),
    ]
    order = {kind: at for at, kind in enumerate(Kind)}
    return tuple(sorted(found, key=lambda claim: order[claim.kind]))


def _times(problem: Problem) -> Iterator[Claim]:
    for at, lag in enumerate(problem.lags):
        if lag.is_window:
            yield Claim(kind=Kind.WINDOW, of=lag.then, at=at)
    for activity in _free(problem):
        if activity.latest_start_min is not None:
            yield Claim(kind=Kind.LATEST, of=activity.id)
        if activity.earliest_min > 0:
            yield Claim(kind=Kind.EARLIEST, of=activity.id)
        if activity.ends_outside:
            yield Claim(kind=Kind.SHUT, of=activity.id)


def _hands(problem: Problem) -> Iterator[Claim]:
    everyone = set(_hands_on(problem))
    for activity in _free(problem):
        if activity.people and everyone - set(activity.alone):
            yield Claim(kind=Kind.HANDS, of=activity.id)


def _places(problem: Problem) -> Iterator[Claim]:
    for resource in problem.resources:
        yield Claim(kind=Kind.PLACES, of=resource.id)
        if resource.windows is not None:
            yield Claim(kind=Kind.OPEN, of=resource.id)
    for bath in problem.baths:
        yield Claim(kind=Kind.BATH, of=bath.id)
        if bath.change_min:
            yield Claim(kind=Kind.CHANGE, of=bath.id)
    for at, hold in enumerate(problem.holds):
        yield Claim(kind=Kind.HANGS, of=hold.first, at=at)


def _after_others(problem: Problem) -> Iterator[Claim]:
    for at, lag in enumerate(problem.lags):
        yield Claim(kind=Kind.WAIT, of=lag.then, at=at)
    for at, rule in enumerate(problem.before_last):
        yield Claim(kind=Kind.LAST, of=rule.first, at=at)


def _free(problem: Problem) -> Iterator[Activity]:
    return (a for a in problem.activities if a.fixed_start_min is None)


def _hands_on(problem: Problem) -> tuple[str, ...]:
    """Return who does anything, in the order in which they are told."""
    doing = {who for a in problem.activities for who in a.people}
    return tuple(w.id for w in problem.workers if w.id in doing and w.id != NOBODY)


def absences_of(problem: Problem, who: str) -> tuple[Claim, ...]:
    """Return one claim for each stretch in which a person is not there, within the horizon."""
    windows = next((w.windows for w in problem.workers if w.id == who), ())
    ends = [0, *(end for _, end in windows)]
    starts = [*(start for start, _ in windows), problem.horizon_min]
    return tuple(
        Claim(kind=Kind.ABSENCE, of=who, window=(end, start))
        for end, start in zip(ends, starts, strict=True)
        if end < start
    )


def without(problem: Problem, gone: Collection[Claim]) -> Problem:
    """Return the problem freed of some claims; whatever keeps it with them keeps it without."""
    if not gone:
        return problem
    by_kind: dict[Kind, set[Claim]] = {kind: set() for kind in Kind}
    for claim in gone:
        by_kind[claim.kind].add(claim)
    names = {kind: {c.of for c in claims} for kind, claims in by_kind.items()}
    spots = {kind: {c.at for c in claims} for kind, claims in by_kind.items()}
    everyone = _hands_on(problem)
    return replace(
        problem,
        activities=tuple(_freed(a, names, everyone) for a in problem.activities),
        lags=tuple(
            _loose(lag, at, spots)
            for at, lag in enumerate(problem.lags)
            if not (at in spots[Kind.WAIT] and (at in spots[Kind.WINDOW] or not lag.is_window))
        ),
        before_last=_all_but(problem.before_last, spots[Kind.LAST]),
        holds=_all_but(problem.holds, spots[Kind.HANGS]),
        resources=tuple(_roomy(problem, r, names) for r in problem.resources),
        baths=tuple(
            replace(
                bath,
                capacity=_all_dips(problem) if bath.id in names[Kind.BATH] else bath.capacity,
                change_min=0 if bath.id in names[Kind.CHANGE] else bath.change_min,
            )
            for bath in problem.baths
        ),
        workers=tuple(_there(problem, w, by_kind) for w in problem.workers),
    )


def _all_but(things: tuple[_T, ...], gone: AbstractSet[int]) -> tuple[_T, ...]:
    return tuple(thing for at, thing in enumerate(things) if at not in gone)


def _freed(activity: Activity, names: dict[Kind, set[str]], everyone: tuple[str, ...]) -> Activity:
    here = {kind for kind, ids in names.items() if activity.id in ids}
    if Kind.LATEST in here:
        activity = replace(activity, latest_start_min=None)
    if Kind.EARLIEST in here:
        activity = replace(activity, earliest_min=0)
    if Kind.SHUT in here:
        activity = replace(activity, ends_outside=())
    if Kind.HANDS in here:
        activity = open_to(activity, everyone)
    return activity


def open_to(activity: Activity, people: Collection[str]) -> Activity:
    """Return an activity that these may do as well, alone, as slowly as the slowest who may."""
    others = [who for who in people if who not in activity.alone]
    if not activity.modes:
        return replace(activity, people=(*activity.people, *others))
    slowest: dict[tuple[str, str], Mode] = {}
    for mode in [m for m in activity.modes if not m.also] or activity.modes:
        known = slowest.get((mode.name, mode.bath))
        if known is None or known.minutes < mode.minutes:
            slowest[mode.name, mode.bath] = mode
    more = (replace(mode, who=who, also=()) for who in others for mode in slowest.values())
    return replace(activity, modes=(*activity.modes, *more))


def _loose(lag: Lag, at: int, spots: dict[Kind, set[int]]) -> Lag:
    if at in spots[Kind.WINDOW]:
        lag = replace(lag, max_lag=None, closes=None)
    if at in spots[Kind.WAIT]:
        lag = replace(lag, min_lag=FREE_MIN, opens=None)
    return lag


def _roomy(problem: Problem, resource: Resource, names: dict[Kind, set[str]]) -> Resource:
    if resource.id in names[Kind.PLACES]:
        resource = replace(resource, capacity=max(resource.capacity, _asked(problem, resource.id)))
    if resource.id in names[Kind.OPEN]:
        resource = replace(resource, windows=None)
    return resource


def _asked(problem: Problem, resource: str) -> int:
    """Return what all that ever takes a resource adds up to."""
    asked = sum(h.amount for h in problem.holds if h.resource == resource)
    for activity in problem.activities:
        asked += sum(d.amount for d in activity.demands if d.resource == resource)
        asked += max((_of(way.demands, resource) for way in activity.modes), default=0)
    return asked


def _of(demands: tuple[Demand, ...], resource: str) -> int:
    return sum(d.amount for d in demands if d.resource == resource)


def _all_dips(problem: Problem) -> int:
    return max(1, sum(a.dip.amount for a in problem.activities if a.dip is not None))


def _there(problem: Problem, worker: Worker, by_kind: dict[Kind, set[Claim]]) -> Worker:
    if any(c.of == worker.id for c in by_kind[Kind.HOURS]):
        return replace(worker, windows=((0, problem.horizon_min),))
    more = [c.window for c in by_kind[Kind.ABSENCE] if c.of == worker.id]
    return replace(worker, windows=joined((*worker.windows, *more))) if more else worker


def joined(windows: Collection[Window]) -> tuple[Window, ...]:
    """Return windows ascending, with those that touch or overlap as one."""
    told: list[Window] = []
    for start, end in sorted(windows):
        if told and start <= told[-1][1]:
            told[-1] = (told[-1][0], max(told[-1][1], end))
        else:
            told.append((start, end))
    return tuple(told)
