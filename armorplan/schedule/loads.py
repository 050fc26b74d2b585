"""Work that has to fit into hours: how soon the last of it can be done at the very best."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from typing import NamedTuple

from armorplan.schedule.activity import Window


class Load(NamedTuple):
    """Minutes of work: begun no sooner than ``start_min``, followed by ``after_min`` at the least."""

    start_min: int
    minutes: int
    after_min: int


class Hours:
    """Minutes that several have together, counted from the origin: by windows and how many have them."""

    def __init__(self, windows: Iterable[Window], horizon_min: int, each: int = 1) -> None:
        self._horizon_min = horizon_min
        changes: dict[int, int] = {0: 0}
        for start, end in windows:
            if end > 0:
                since = max(0, start)
                changes[since] = changes.get(since, 0) + each
                changes[end] = changes.get(end, 0) - each
        self._minutes = sorted(changes)
        self._rates = list(accumulate(changes[m] for m in self._minutes))
        spans = zip(self._minutes, self._minutes[1:], self._rates, strict=False)
        self._total = [0, *accumulate((end - start) * rate for start, end, rate in spans)]

    def until(self, minute: int) -> int:
        """Return the minutes they have before ``minute``."""
        at = bisect_right(self._minutes, minute) - 1
        return self._total[at] + (minute - self._minutes[at]) * self._rates[at]

    def reached(self, worked: int) -> int:
        """Return the first minute by which they have had so many; the horizon if never."""
        at = bisect_right(self._total, worked - 1) - 1
        if at < 0:
            return 0
        if at + 1 >= len(self._total):
            return self._horizon_min
        return self._minutes[at] - (self._total[at] - worked) // self._rates[at]


def load_bound(loads: Sequence[Load], hours: Hours) -> int:
    """Return a minute before which not all of it can be done, with what follows.

    For every start and every time needed afterwards, all that begins no sooner and is followed by
    no less has to fit into the hours in between.
    """
    best = 0
    if not loads:
        return best
    longest_after_first = sorted(loads, key=lambda load: -load.after_min)
    most_after = longest_after_first[0].after_min
    minutes: dict[int, int] = {}
    for load in loads:
        minutes[load.start_min] = minutes.get(load.start_min, 0) + load.minutes
    later = sum(minutes.values())
    for start in sorted(minutes):
        done = hours.until(start)
        if hours.reached(done + later) + most_after > best:
            left = [load for load in longest_after_first if load.start_min >= start]
            best = _all_done(left, done, hours, best)
        later -= minutes[start]
    return best


def _all_done(longest_after_first: list[Load], done: int, hours: Hours, best: int) -> int:
    """Return the better of a bound and what these say that begin no sooner than some start."""
    all_by = hours.reached(done + sum(load.minutes for load in longest_after_first))
    for load, then in zip(longest_after_first, [*longest_after_first[1:], None], strict=True):
        done += load.minutes
        if all_by + load.after_min <= best:
            break
        if then is None or then.after_min != load.after_min:
            best = max(best, hours.reached(done) + load.after_min)
    return best
