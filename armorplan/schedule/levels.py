"""How much of a resource is in use over time while a plan is laid."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable

FOREVER = 2**60


class Level:
    """How much of a resource is in use over time."""

    def __init__(self, capacity: int) -> None:
        self._capacity = capacity
        self._minutes = [-FOREVER]
        """Where the use changes, ascending."""
        self._used = [0]
        """How much is in use from each of these on."""

    def first_fit(self, start_min: int, ends: Callable[[int], int], amount: int) -> int | None:
        """Return the first start from ``start_min`` at which the amount is free till the end."""
        room = self._capacity - amount
        if room < 0:
            return None
        minutes, used = self._minutes, self._used
        start, end = start_min, ends(start_min)
        if end == start:  # What takes no time takes no place.
            return start
        at = bisect_right(minutes, start) - 1
        while at < len(minutes) and minutes[at] < end:
            if used[at] > room:
                if at + 1 == len(minutes):
                    return None
                start = minutes[at + 1]
                end = ends(start)
            at += 1
        return start

    def full_till(self, start_min: int, end_min: int, amount: int) -> int:
        """Return where a stretch last has no room for the amount; its start where it has."""
        at = bisect_left(self._minutes, end_min) - 1
        while at >= 0:
            till = self._minutes[at + 1] if at + 1 < len(self._minutes) else FOREVER
            if till <= start_min:
                break
            if self._used[at] + amount > self._capacity:
                return till
            at -= 1
        return start_min

    def full_from(self, start_min: int, amount: int) -> int:
        """Return the first minute from ``start_min`` on with no room for the amount; or for ever."""
        at = bisect_right(self._minutes, start_min) - 1
        full = (n for n in range(at, len(self._used)) if self._used[n] + amount > self._capacity)
        found = next(full, None)
        return FOREVER if found is None else max(start_min, self._minutes[found])

    def take(self, start_min: int, end_min: int, amount: int) -> None:
        """Use the amount for this stretch."""
        if start_min < end_min and amount:
            begin, end = self._cut(start_min), self._cut(end_min)
            for at in range(begin, end):
                self._used[at] += amount
            self._join(end)
            self._join(begin)

    def give_back(self, start_min: int, end_min: int, amount: int) -> None:
        """Undo ``take``."""
        self.take(start_min, end_min, -amount)

    def _cut(self, minute: int) -> int:
        """Return which entry begins at this minute; make one where there is none."""
        at = bisect_left(self._minutes, minute)
        if at == len(self._minutes) or self._minutes[at] != minute:
            self._minutes.insert(at, minute)
            self._used.insert(at, self._used[at - 1])
        return at

    def _join(self, at: int) -> None:
        if at and self._used[at] == self._used[at - 1]:
            del self._minutes[at], self._used[at]
