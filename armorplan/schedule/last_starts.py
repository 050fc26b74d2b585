"""When steps have to start at the latest so that builds end when they are due, hours and all.

A guide to what is urgent: a fit that has to wait for its wearer is due as the wearer last comes
before the build is due, and what leads to it is due before that. It proves nothing.
"""

from bisect import bisect_right
from collections import deque

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.critical import latest_ends
from armorplan.schedule.lag_spans import last_end_open_by
from armorplan.schedule.problem import Lag, Problem
from armorplan.schedule.spans import last_start_ending_by, own_minutes

_ROUNDS = 4
"""So often each step is looked at, on average, before what is known so far has to do."""


def last_starts(problem: Problem) -> dict[str, int]:
    """Return the last start of each step that is not fixed; the lags have to be free of rings.

    Of what is not due it is that of what ends with the last of all. One that is due before it can
    be has a start before the origin.
    """
    return _Backwards(problem).run()


class _Backwards:
    def __init__(self, problem: Problem) -> None:
        self._by_id = {a.id: a for a in problem.activities if a.fixed_start_min is None}
        self._ends = latest_ends(problem)
        self._hours = _Hours(problem)
        self._after: dict[str, list[Lag]] = {}
        self._before: dict[str, list[str]] = {}
        for lag in problem.lags:
            if lag.first in self._by_id and lag.then in self._by_id:
                self._after.setdefault(lag.first, []).append(lag)
                self._before.setdefault(lag.then, []).append(lag.first)

    def run(self) -> dict[str, int]:
        starts: dict[str, int] = {}
        todo = deque(sorted(self._by_id, key=lambda name: (-self._ends[name], name)))
        waiting = set(todo)
        left = _ROUNDS * len(todo)
        while todo and left:
            left -= 1
            name = todo.popleft()
            waiting.discard(name)
            ends = [last_end_open_by(g, starts[g.then]) for g in self._following(name, starts)]
            start = self._hours.last_start(self._by_id[name], min([self._ends[name], *ends]))
            if start < starts.get(name, start + 1):
                starts[name] = start
                again = [i for i in self._before.get(name, ()) if i not in waiting]
                todo += again
                waiting.update(again)
        return starts

    def _following(self, name: str, starts: dict[str, int]) -> list[Lag]:
        return [lag for lag in self._after.get(name, ()) if lag.then in starts]


class _Hours:
    """When everybody and everything an activity needs is there at once."""

    def __init__(self, problem: Problem) -> None:
        self._windows = {w.id: w.windows for w in problem.workers}
        self._open = {r.id: r.windows for r in problem.resources if r.windows is not None}
        self._met: dict[tuple[str, ...], tuple[Window, ...]] = {}

    def last_start(self, activity: Activity, end_min: int) -> int:
        """Return the last start that ends in time; where hours leave none, that by its minutes."""
        starts = [self._last_start(activity, way, end_min) for way in activity.ways]
        return max(starts, default=end_min)

    def _last_start(self, activity: Activity, way: Mode, end_min: int) -> int:
        by_hours = activity.table is None
        takes = own_minutes(activity, way)
        wanted = end_min - takes if by_hours else last_start_ending_by(activity, end_min)
        places = (d.resource for d in (*activity.demands, *way.demands))
        needs = [p for p in places if p in self._open]
        needs += activity.there(way)
        may_pause = activity.sitting(way) > 0
        if not needs:
            return wanted
        windows = self._meeting(tuple(sorted(set(needs))))
        last = end_min if may_pause else wanted
        at = bisect_right(windows, (last, 2**60)) - 1
        left = takes
        while at >= 0:
            begin, end = windows[at]
            end = min(end, end_min) if by_hours else end
            if not by_hours or end - begin >= takes:
                return min(wanted, end - (takes if by_hours else 0))
            if may_pause:
                left -= max(0, end - begin)
                if left <= 0:
                    return begin - left
            at -= 1
        return wanted

    def _meeting(self, needs: tuple[str, ...]) -> tuple[Window, ...]:
        """Return the windows in which all of these are there."""
        if needs not in self._met:
            first, *others = (self._windows.get(n, self._open.get(n, ())) for n in needs)
            met = tuple(first)
            for other in others:
                met = tuple(
                    (max(a, c), min(b, d))
                    for a, b in met
                    for c, d in other
                    if max(a, c) < min(b, d)
                )
            self._met[needs] = met
        return self._met[needs]
