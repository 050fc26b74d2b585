"""What if the shop were otherwise: a problem with one more rack, an extra evening, somebody ill."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.claims import joined
from armorplan.schedule.problem import Bath, Problem, Worker

ANOTHER = " 2"
"""Follows the id of a bath that stands beside the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MorePlaces:
    """A rack, press or tray holds so much more."""

    resource: str
    amount: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraHours:
    """Somebody is at the bench besides their hours."""

    who: str
    window: Window


@dataclass(frozen=True, slots=True, kw_only=True)
class Away:
    """Somebody is ill or away: nothing of theirs lies in this stretch."""

    who: str
    window: Window


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherBath:
    """A second bath like this one stands beside it, clean."""

    bath: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherPair:
    """Somebody with the same hours and skills as this person comes to help."""

    who: str


WhatIf = MorePlaces | ExtraHours | Away | AnotherBath | AnotherPair


def changed(problem: Problem, *whats: WhatIf) -> Problem:
    """Return the problem with all of these changed, one after the other.

    Raises:
        KeyError: there is no such person, place or bath.
    """
    for what in whats:
        problem = _changed(problem, what)
    return problem


def _changed(problem: Problem, what: WhatIf) -> Problem:
    match what:
        case MorePlaces():
            return _more_places(problem, what)
        case ExtraHours():
            added = what.window

            def longer(windows: tuple[Window, ...]) -> tuple[Window, ...]:
                return joined((*windows, (max(0, added[0]), min(added[1], problem.horizon_min))))

            return _other_hours(problem, what.who, longer)
        case Away():
            return _other_hours(problem, what.who, lambda w: cut_out(w, what.window))
        case AnotherBath():
            return _another_bath(problem, what.bath)
        case AnotherPair():
            return _another_pair(problem, what.who)


def cut_out(windows: tuple[Window, ...], gone: Window) -> tuple[Window, ...]:
    """Return windows less one stretch."""
    left = [
        part
        for start, end in windows
        for part in ((start, min(end, gone[0])), (max(start, gone[1]), end))
        if part[0] < part[1]
    ]
    return tuple(left)


def _more_places(problem: Problem, what: MorePlaces) -> Problem:
    _known(what.resource, (r.id for r in problem.resources))
    resources = tuple(
        replace(r, capacity=r.capacity + what.amount) if r.id == what.resource else r
        for r in problem.resources
    )
    return replace(problem, resources=resources)


def _other_hours(
    problem: Problem, who: str, change: Callable[[tuple[Window, ...]], tuple[Window, ...]]
) -> Problem:
    _known(who, (w.id for w in problem.workers))
    workers = tuple(
        replace(w, windows=change(w.windows)) if w.id == who else w for w in problem.workers
    )
    return replace(problem, workers=workers)


def _another_bath(problem: Problem, bath: str) -> Problem:
    _known(bath, (b.id for b in problem.baths))
    first = next(b for b in problem.baths if b.id == bath)
    other = Bath(
        id=_new_id(bath, {b.id for b in problem.baths}),
        capacity=first.capacity,
        change_min=first.change_min,
    )

    def beside(activity: Activity) -> Activity:
        more = tuple(
            replace(m, bath=other.id, name=f"{m.name}{ANOTHER}")
            for m in activity.modes
            if m.bath == bath
        )
        return replace(activity, modes=(*activity.modes, *more)) if more else activity

    activities = tuple(
        a if a.fixed_start_min is not None else beside(a) for a in problem.activities
    )
    return replace(problem, baths=(*problem.baths, other), activities=activities)


def _another_pair(problem: Problem, who: str) -> Problem:
    _known(who, (w.id for w in problem.workers))
    first = next(w for w in problem.workers if w.id == who)
    other = Worker(id=_new_id(who, {w.id for w in problem.workers}), windows=first.windows)

    def open_to_both(activity: Activity) -> Activity:
        if activity.fixed_start_min is not None:
            return activity
        if not activity.modes:
            is_theirs = who in activity.people
            return (
                replace(activity, people=(*activity.people, other.id)) if is_theirs else activity
            )
        more = tuple(
            _as_other(m, who, other.id) for m in activity.modes if who in (m.who, *m.also)
        )
        lessons = tuple(
            _as_other(m, who, other.id) for m in activity.taught if who in (m.who, *m.also)
        )
        if not (more or lessons):
            return activity
        modes, taught = (*activity.modes, *more), (*activity.taught, *lessons)
        return replace(activity, modes=modes, taught=taught)

    return replace(
        problem,
        workers=(*problem.workers, other),
        activities=tuple(open_to_both(a) for a in problem.activities),
    )


def _as_other(mode: Mode, who: str, other: str) -> Mode:
    """Return a way in which somebody else does what one does in it, or is beside instead of them."""
    if mode.who == who:
        return replace(mode, who=other)
    also = tuple(other if one == who else one for one in mode.also)
    return replace(mode, also=also, name=f"{mode.name}{ANOTHER}")


def _new_id(like: str, taken: set[str]) -> str:
    found = f"{like}{ANOTHER}"
    while found in taken:
        found += ANOTHER
    return found


def _known(an_id: str, ids: Iterable[str]) -> None:
    if an_id not in ids:
        raise KeyError(an_id)
