"""Who is busy with what a plan has done: who does it, who is beside them, who comes for it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.hands import beside_named, place_named
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

    Likewise what nobody learns any more, since their skill was taken back. Who was beside takes no
    longer, so that it ends within the same hours.
    """
    beside = beside_named(placed.mode)
    if not beside or any((w.who, w.name) == (placed.who, placed.mode) for w in activity.ways):
        return placed
    lesson = activity.lesson(placed.who, placed.mode)
    if lesson is not None:
        beside = lesson.also
    alone = (w for w in activity.ways if w.who in beside and not w.also)
    place = place_named(placed.mode)
    way = next(
        (w for w in alone if (w.demands == lesson.demands if lesson else w.name == place)), None
    )
    if way is None:
        return placed
    end = placed.start_min + way.minutes
    return replace(placed, end_min=end, who=way.who, mode=way.name)


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
