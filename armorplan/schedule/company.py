"""Who is busy with what a plan has done: who does it, who is beside them, who comes for it."""

from collections.abc import Iterable, Mapping, Sequence

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed


def everybody(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return everybody who is there from start to end, who does it first."""
    there = (placed.who, *beside_in(activity, placed), *activity.also)
    return tuple(dict.fromkeys(who for who in there if who is not None))


def beside_in(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return who is at the bench beside whoever does it."""
    if not activity.in_pairs:
        return ()
    way = activity.way(placed.who, placed.mode)
    return () if way is None else way.also


def beside_somebody(
    activities: Iterable[Activity], lies: Mapping[str, Placed]
) -> dict[str, list[Placed]]:
    """Return, for everybody who is at the bench beside others, what is done meanwhile."""
    found: dict[str, list[Placed]] = {}
    for activity in activities:
        if activity.in_pairs and activity.id in lies:
            for who in beside_in(activity, lies[activity.id]):
                found.setdefault(who, []).append(lies[activity.id])
    return found


def beside_words(who: str, beside: Sequence[str]) -> str:
    """Return who is at work, by name, with who is beside them.

    >>> beside_words("Apprentice", ("Maker",))
    'Apprentice, with Maker beside'
    """
    return f"{who}, with {' and '.join(beside)} beside" if who and beside else who
