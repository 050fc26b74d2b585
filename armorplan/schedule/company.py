"""Who is busy with what a plan has done: who does it, who is beside them, who comes for it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed


def everybody(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return everybody who is there from start to end, who does it first."""
    there = (placed.who, *beside_in(activity, placed), *activity.also)
    return tuple(dict.fromkeys(who for who in there if who is not None))


def beside_in(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return who is at the bench beside whoever does it."""
    if not (activity.in_pairs or activity.taught):
        return ()
    way = activity.way(placed.who, placed.mode)
    return () if way is None else way.also


def as_alone(activity: Activity, placed: Placed) -> Placed:
    """Return what somebody learns as the one beside them does it alone; all else as it is.

    It takes them no longer, so that it ends within the same hours.
    """
    lesson = activity.lesson(placed.who, placed.mode) if activity.taught else None
    if lesson is None:
        return placed
    ways = (w for w in activity.ways if w.who in lesson.also and not w.also)
    alone = next((w for w in ways if w.demands == lesson.demands), None)
    if alone is None:
        return placed
    end = placed.start_min + alone.minutes
    return replace(placed, end_min=end, who=alone.who, mode=alone.name)


def beside_somebody(
    activities: Iterable[Activity], lies: Mapping[str, Placed]
) -> dict[str, list[Placed]]:
    """Return, for everybody who is at the bench beside others, what is done meanwhile."""
    found: dict[str, list[Placed]] = {}
    for activity in activities:
        if (activity.in_pairs or activity.taught) and activity.id in lies:
            for who in beside_in(activity, lies[activity.id]):
                found.setdefault(who, []).append(lies[activity.id])
    return found


def beside_words(who: str, beside: Sequence[str]) -> str:
    """Return who is at work, by name, with who is beside them.

    >>> beside_words("Apprentice", ("Maker",))
    'Apprentice, with Maker beside'
    """
    return f"{who}, with {' and '.join(beside)} beside" if who and beside else who
