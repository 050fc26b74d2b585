"""Which part of a plan to free so that coats of several builds can go into the bath together."""

from collections.abc import Callable, Iterable, Mapping
from random import Random

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Placed, Problem

Lies = Mapping[str, Placed]
Batch = tuple[str, ...]


def batches_of(activities: Iterable[Activity], lies: Lies) -> dict[str, list[Batch]]:
    """Return the batches of each family in the order in which they are dipped."""
    found: dict[tuple[str, int, str], list[str]] = {}
    for activity in activities:
        placed = lies[activity.id]
        way = activity.way(placed.who, placed.mode)
        if activity.dip is not None and way is not None:
            batch = activity.dip.family, placed.start_min, way.bath
            found.setdefault(batch, []).append(activity.id)
    families: dict[str, list[Batch]] = {}
    for family, start_min, bath in sorted(found):
        families.setdefault(family, []).append(tuple(found[family, start_min, bath]))
    return families


class Coats:
    """Draws two batches of one family, with all that has to move if they are to be one."""

    def __init__(self, problem: Problem) -> None:
        self._dips = tuple(
            a for a in problem.activities if a.dip is not None and a.fixed_start_min is None
        )
        self._before: dict[str, list[str]] = {}
        self._after: dict[str, list[str]] = {}
        for lag in problem.lags:
            self._before.setdefault(lag.then, []).append(lag.first)
            self._after.setdefault(lag.first, []).append(lag.then)

    def draw(self, lies: Lies, rng: Random) -> tuple[set[str], int]:
        """Return what to free, and the minute about which to free more; nothing where none can.

        The later batch may come sooner with what leads to it, or the sooner one later with what
        follows it.
        """
        pairs = [
            (one, other)
            for _, batches in sorted(batches_of(self._dips, lies).items())
            for at, one in enumerate(batches)
            for other in batches[at + 1 : at + 3]
        ]
        if not pairs:
            return set(), 0
        one, other = rng.choice(pairs)
        begin, end = lies[one[0]].start_min, lies[other[0]].end_min
        free = {*one, *other}
        free |= _reached(other, self._before, lambda i: lies[i].end_min > begin)
        free |= _reached(one, self._after, lambda i: lies[i].start_min < end)
        return free, (begin + end) // 2


def _reached(
    names: Iterable[str],
    along: Mapping[str, list[str]],
    lies_between: Callable[[str], bool],
) -> set[str]:
    """Return what is reached along lags as long as it lies between the batches."""
    found: set[str] = set()
    todo = list(names)
    while todo:
        for name in along.get(todo.pop(), ()):
            if name not in found and lies_between(name):
                found.add(name)
                todo.append(name)
    return found
