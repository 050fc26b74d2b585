"""A person's free time while a plan is laid: in one go, or in sittings with pauses at closing."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator

from armorplan.schedule.activity import Window
from armorplan.schedule.pauses import end_with_pauses

_FOREVER = 2**60


class FreeTime:
    """The free stretches of a person's or a place's windows, ascending and apart."""

    def __init__(self, windows: Iterable[Window]) -> None:
        self._windows = tuple(windows)
        self._free = list(self._windows)

    def first_fit(self, start_min: int, ends: Callable[[int], int]) -> int | None:
        """Return the first start from ``start_min`` whose work lies within one free stretch."""
        free = self._free
        at = max(0, bisect_left(free, (start_min, -1)) - 1)
        while at < len(free):
            begin, end = free[at]
            start = max(begin, start_min)
            if ends(start) <= end:
                return start
            at += 1
        return None

    def is_free(self, start_min: int, end_min: int) -> bool:
        """Tell whether all of a stretch lies within one that is free."""
        return self.first_fit(start_min, lambda _: end_min) == start_min

    def stretches(self, start_min: int) -> Iterator[Window]:
        """Yield the free stretches that end after ``start_min``."""
        at = max(0, bisect_right(self._free, (start_min, _FOREVER)) - 1)
        while at < len(self._free):
            if self._free[at][1] > start_min:
                yield self._free[at]
            at += 1

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
        """Free a stretch that was taken whole before, as far as it lies within the windows."""
        at = max(0, bisect_right(self._windows, (start_min, _FOREVER)) - 1)
        while at < len(self._windows) and self._windows[at][0] < end_min:
            begin, end = self._windows[at]
            self._give_back(max(begin, start_min), min(end, end_min), self._windows[at])
            at += 1

    def _give_back(self, start_min: int, end_min: int, window: Window) -> None:
        if start_min >= end_min:
            return
        at = bisect_left(self._free, (start_min, -1))
        if at < len(self._free) and self._free[at][0] == end_min < window[1]:
            end_min = self._free.pop(at)[1]
        if at and self._free[at - 1][1] == start_min > window[0]:
            at -= 1
            start_min = self._free.pop(at)[0]
        self._free.insert(at, (start_min, end_min))


class PausedTime:
    """A person's free time for work of so many minutes that may stop where their hours end."""

    def __init__(
        self, windows: tuple[Window, ...], hands: FreeTime, minutes: int, sitting_min: int
    ) -> None:
        self._windows = windows
        self._hands = hands
        self._minutes = minutes
        self._sitting = sitting_min

    def ends(self, start_min: int) -> int:
        """Return where it ends that starts there; beyond everything where it cannot."""
        end = end_with_pauses(self._minutes, start_min, self._windows, self._sitting)
        return _FOREVER if end is None else end

    def first_fit(self, start_min: int) -> int | None:
        """Return the first start from ``start_min`` on with all hours free that it works in."""
        at = bisect_right(self._windows, (start_min, _FOREVER)) - 1
        for begin, end in self._hands.stretches(start_min):
            start = max(begin, start_min)
            if start + self._minutes <= end:
                return start
            while at + 1 < len(self._windows) and self._windows[at + 1][0] <= start:
                at += 1
            if end == self._windows[at][1]:
                found = self._over_closing(start, at)
                if found is not None:
                    return found
        return None

    def later(self, start_min: int, end_min: int, target_min: int) -> int:
        """Return a start no later than the first that ends at ``target_min``, but later than this."""
        worked = sum(
            max(0, min(b, target_min) - max(a, end_min))
            for a, b in self._windows
            if b > end_min and a < target_min
        )
        return start_min + max(1, worked)

    def _over_closing(self, start_min: int, at: int) -> int | None:
        """Return the first start in a window, free to its close, of work that goes on after it.

        Starting later leaves more for later hours: those that are busy stay so.
        """
        close = self._windows[at][1]
        least = min(self._sitting, self._minutes)
        for start in range(start_min, min(close - least, start_min + least) + 1):
            end = self.ends(start)
            if end < _FOREVER:
                return start if self._is_free(at + 1, end) else None
        return None

    def _is_free(self, at: int, end_min: int) -> bool:
        """Tell whether the hours from a window on are free till its end."""
        while at < len(self._windows) and self._windows[at][0] < end_min:
            begin, close = self._windows[at]
            if not self._hands.is_free(begin, min(close, end_min)):
                return False
            at += 1
        return True
