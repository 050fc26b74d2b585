"""Who is busy with what a plan has done: who does it, who is beside them, who comes for it."""

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed


def everybody(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return everybody who is there from start to end, who does it first."""
    way = activity.way(placed.who, placed.mode)
    if way is not None:
        return activity.there(way)
    return tuple(dict.fromkeys(who for who in (placed.who, *activity.also) if who is not None))


def at_bench(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return who is at work on it: who does it, and who is at the bench beside them."""
    beside = beside_in(activity, placed)
    return beside if placed.who is None else (placed.who, *beside)


def beside_in(activity: Activity, placed: Placed) -> tuple[str, ...]:
    """Return who is at the bench beside whoever does it."""
    way = activity.way(placed.who, placed.mode)
    return () if way is None else way.also
