"""What is still free while a plan is laid: a person's hours, and a resource's places."""

from bisect import bisect_left, bisect_right, insort
from collections.abc import Callable, Iterable

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.spans import end_from, first_allowed

_FOREVER = 2**60


class Occupancy:
    """Everybody's free time and every resource's level while a plan is laid."""

    def __init__(self, problem: Problem) -> None:
        self._horizon_min = problem.horizon_min
        self._hours = {w.id: FreeTime(w.windows) for w in problem.workers}
        self._hands = {w.id: FreeTime(w.windows) for w in problem.workers}
        self._stores = {r.id: Level(r.capacity) for r in problem.resources}
        self._demands = {
            a.id: tuple((self._stores[d.resource], d.amount) for d in a.demands)
            for a in problem.activities
        }

    def first_fit(self, activity: Activity, floor_min: int) -> Placed | None:
        """Return the place that ends first, from ``floor_min`` on; among equals the first person.

        ``None`` where nothing fits within the horizon.
        """
        fits = [
            fit
            for who in activity.people or (None,)
            if (fit := self._fit_for(activity, who, floor_min)) is not None
        ]
        return min(fits, key=lambda p: p.end_min, default=None)

    def take(self, placed: Placed) -> None:
        """Take the person's time and the resources."""
        if placed.who in self._hands:
            self._hands[placed.who].take(placed.start_min, placed.end_min)
        for level, amount in self._demands[placed.id]:
            level.take(placed.start_min, placed.end_min, amount)

    def give_back(self, placed: Placed) -> None:
        """Undo ``take`` for what was placed by ``first_fit``."""
        if placed.who in self._hands:
            self._hands[placed.who].give_back(placed.start_min, placed.end_min)
        for level, amount in self._demands[placed.id]:
            level.give_back(placed.start_min, placed.end_min, amount)

    def _fit_for(self, activity: Activity, who: str | None, floor_min: int) -> Placed | None:
        start: int | None = floor_min
        while start is not None:
            tried = start
            start = self._later(activity, who, tried)
            if start == tried:
                end = end_from(activity, tried)
                fits = end <= self._horizon_min
                return (
                    Placed(id=activity.id, start_min=tried, end_min=end, who=who) if fits else None
                )
        return None

    def _later(self, activity: Activity, who: str | None, start_min: int) -> int | None:
        """Return ``start_min`` if everything fits there, else a later start worth a try."""

        def ends(start: int) -> int:
            return end_from(activity, start)

        start: int | None = start_min
        if who is not None:
            # What takes no time takes no hands either, only somebody being there.
            takes_none = activity.table is None and not activity.minutes
            free = (self._hours if takes_none else self._hands).get(who)
            start = None if free is None else free.first_fit(start_min, ends)
        for level, amount in self._demands[activity.id]:
            if start is not None:
                start = level.first_fit(start, ends, amount)
        return start if start is None else first_allowed(activity, start)


class FreeTime:
    """The free stretches of a person's windows, ascending and apart."""

    def __init__(self, windows: Iterable[Window]) -> None:
        self._free = list(windows)

    def first_fit(self, start_min: int, end_from: Callable[[int], int]) -> int | None:
        """Return the first start from ``start_min`` whose work lies within one free stretch."""
        at = max(0, bisect_left(self._free, (start_min, -1)) - 1)
        for begin, end in self._free[at:]:
            start = max(begin, start_min)
            if end_from(start) <= end:
                return start
        return None

    def take(self, start_min: int, end_min: int) -> None:
        """Take whatever part of a stretch is free."""
        if start_min >= end_min:
            return
        at = max(0, bisect_left(self._free, (start_min, -1)) - 1)
        while at < len(self._free) and self._free[at][0] < end_min:
            begin, end = self._free[at]
            left = [
                w
                for w in ((begin, min(end, start_min)), (max(begin, end_min), end))
                if w[0] < w[1]
            ]
            self._free[at : at + 1] = left
            at += len(left)

    def give_back(self, start_min: int, end_min: int) -> None:
        """Free a stretch that was taken whole before."""
        if start_min >= end_min:
            return
        at = bisect_left(self._free, (start_min, -1))
        if at < len(self._free) and self._free[at][0] == end_min:
            end_min = self._free.pop(at)[1]
        if at and self._free[at - 1][1] == start_min:
            at -= 1
            start_min = self._free.pop(at)[0]
        self._free.insert(at, (start_min, end_min))


class Level:
    """How much of a resource is in use over time."""

    def __init__(self, capacity: int) -> None:
        self._capacity = capacity
        self._changes: list[tuple[int, int]] = []
        """Minute and by how much the use changes then, ascending."""

    def first_fit(self, start_min: int, end_from: Callable[[int], int], amount: int) -> int | None:
        """Return the first start from ``start_min`` at which the amount is free till the end."""
        if amount > self._capacity:
            return None
        start, used = start_min, 0
        end = end_from(start)
        if end == start:  # What takes no time takes no place.
            return start
        for at, (minute, change) in enumerate(self._changes):
            if minute >= end and minute > start:
                break
            used += change
            until = self._changes[at + 1][0] if at + 1 < len(self._changes) else _FOREVER
            if used + amount > self._capacity and until > start and minute < end:
                start = until
                end = end_from(start)
        return start

    def take(self, start_min: int, end_min: int, amount: int) -> None:
        """Use the amount for this stretch."""
        if start_min < end_min:
            insort(self._changes, (start_min, amount))
            insort(self._changes, (end_min, -amount))

    def give_back(self, start_min: int, end_min: int, amount: int) -> None:
        """Undo ``take``."""
        if start_min < end_min:
            del self._changes[bisect_left(self._changes, (start_min, amount))]
            del self._changes[bisect_right(self._changes, (end_min, -amount)) - 1]
