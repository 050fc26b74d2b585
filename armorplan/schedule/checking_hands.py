"""Checks hands: who does it, how long it takes them, within their hours, one thing at a time."""

from collections.abc import Iterator

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.violation import Violation


def hand_violations(problem: Problem, activity: Activity, placed: Placed) -> Iterator[Violation]:
    """Check one activity by itself: its person, its duration, the hours it lies in."""
    for kind, text in _said(problem, activity, placed):
        yield Violation(kind=kind, about=(activity.id,), text=f"{activity.id} {text}.")


def _said(problem: Problem, activity: Activity, placed: Placed) -> Iterator[tuple[str, str]]:
    way = _way(activity, placed)
    is_fixed = activity.fixed_start_min is not None
    if is_fixed and activity.fixed_end_min is not None:
        if placed.end_min != activity.fixed_end_min:
            yield "duration", f"ended at {activity.fixed_end_min}, not {placed.end_min}"
    elif way is not None:
        yield from _duration(problem, activity, placed, way)
    who = placed.who
    if way is None and (not is_fixed or who not in (*activity.people, activity.fixed_who, None)):
        yield "wrong person", f"is given to {who} ({placed.mode}), which is none of its ways"
    if not is_fixed:
        yield from _hours(problem, activity, placed)


def _duration(
    problem: Problem, activity: Activity, placed: Placed, way: Mode
) -> Iterator[tuple[str, str]]:
    start, end = placed.start_min, placed.end_min
    if activity.dip is not None:
        return  # The batch says how long it takes.
    if activity.sitting_min and not way.also:
        worked = sum(_stretches(_windows(problem, placed.who), placed))
        if worked != way.minutes:
            yield "duration", f"is worked at for {worked} min, not {way.minutes}"
        return
    wanted = start + way.minutes if activity.table is None else activity.table.ready_at(start)
    if end != wanted:
        yield "duration", f"starts at {start} and has to end at {wanted}, not {end}"


def _hours(problem: Problem, activity: Activity, placed: Placed) -> Iterator[tuple[str, str]]:
    start, end = placed.start_min, placed.end_min
    in_one_go = not activity.sitting_min or bool(_beside(activity, placed))
    for person in _busy(activity, placed):
        windows = _windows(problem, person)
        if not in_one_go and end > start:
            yield from _sittings(activity, placed, windows)
        elif not any(a <= start and end <= b for a, b in windows):
            yield "outside hours", f"lies at {start}–{end}, outside the hours of {person}"


def _sittings(
    activity: Activity, placed: Placed, windows: tuple[Window, ...]
) -> Iterator[tuple[str, str]]:
    """Check that it begins and ends within hours, and that no stretch is too short to sit down."""
    stretches = _stretches(windows, placed)
    begins = any(a <= placed.start_min < b for a, b in windows)
    ends = any(a < placed.end_min <= b for a, b in windows)
    if not (begins and ends):
        yield "outside hours", f"begins or ends outside the hours of {placed.who}"
    least = min(activity.sitting_min, sum(stretches))
    if stretches and min(stretches) < least:
        yield "short sitting", f"is sat at for {min(stretches)} min, not at least {least}"


def _beside(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return who has to be there in this way of doing it, beside who does it."""
    way = _way(activity, placed)
    return () if way is None else way.also


def _way(activity: Activity, placed: Placed) -> Mode | None:
    """Return the way it is done in, be it one that only a lesson takes."""
    ways = (*activity.ways, *activity.taught)
    return next((w for w in ways if (w.who, w.name) == (placed.who, placed.mode)), None)


def _busy(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return everybody it keeps from start to end, each once."""
    hands = () if placed.who is None else (placed.who,)
    return tuple(dict.fromkeys((*hands, *_beside(activity, placed), *activity.also)))


def _windows(problem: Problem, who: str | None) -> tuple[Window, ...]:
    return next((w.windows for w in problem.workers if w.id == who), ())


def _stretches(windows: tuple[Window, ...], placed: Placed) -> list[int]:
    """Return how long it is worked at in each window that it lies in, none of them for no time."""
    start, end = placed.start_min, placed.end_min
    return [min(b, end) - max(a, start) for a, b in windows if a < end and start < b]


def people_violations(
    problem: Problem, lies: dict[str, Placed], free: frozenset[str]
) -> Iterator[Violation]:
    """Check that nobody does two things at once; dips of one batch are one thing."""
    known = {a.id: a for a in problem.activities}
    busy: dict[str, list[Placed]] = {}
    for placed in lies.values():
        if placed.start_min < placed.end_min:
            for person in _busy(known[placed.id], placed):
                busy.setdefault(person, []).append(placed)
    for person, things in sorted(busy.items()):
        for one, other in _at_once(things):
            if free.intersection((one.id, other.id)) and not _are_one_batch(known, one, other):
                text = f"{person} does {one.id} and {other.id} at minute {other.start_min}."
                yield Violation(kind="two at once", about=(one.id, other.id), text=text)


def _at_once(things: list[Placed]) -> Iterator[tuple[Placed, Placed]]:
    things.sort(key=lambda p: (p.start_min, p.end_min, p.id))
    for at, one in enumerate(things):
        for other in things[at + 1 :]:
            if other.start_min >= one.end_min:
                break
            yield one, other


def _are_one_batch(known: dict[str, Activity], one: Placed, other: Placed) -> bool:
    ways = [known[p.id].way(p.who, p.mode) for p in (one, other)]
    baths = {way.bath for way in ways if way is not None}
    dips = [known[p.id].dip for p in (one, other)]
    same_time = (one.start_min, one.who) == (other.start_min, other.who)
    return None not in ways and None not in dips and len(baths) == 1 and same_time
