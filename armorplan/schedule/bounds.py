"""How soon things can be at the very best: proved without a solver, in milliseconds."""

from bisect import bisect_right
from collections import deque
from itertools import accumulate

from armorplan.schedule.critical import critical_times
from armorplan.schedule.lag_spans import first_end_open_till, opens_at
from armorplan.schedule.links import Links
from armorplan.schedule.network import shortest
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Problem
from armorplan.schedule.spans import end_from, first_start_ending_from, placed_by_history

_Load = tuple[int, int, int]
"""First start, hands-on minutes, minutes needed after the end."""


def earliest_starts(problem: Problem) -> dict[str, int]:
    """Return for every activity a minute it cannot start before: lags and hours, each by itself.

    What does not fit into the hours at all gets the horizon. The lags have to be free of rings
    (``lag_cycle``).
    """
    links = Links(problem)
    room = Occupancy(problem)
    fixed = {p.id: p for p in placed_by_history(problem)}
    for placed in fixed.values():
        room.take(placed)
    by_id = {a.id: a for a in problem.activities}
    starts = {i: fixed[i].start_min if i in fixed else 0 for i in by_id}

    def end(name: str) -> int:
        return fixed[name].end_min if name in fixed else end_from(by_id[name], starts[name])

    def soonest(name: str) -> int:
        a = by_id[name]
        lows = [max(0, a.earliest_min)]
        lows += [opens_at(lag, end(lag.first)) for lag in links.into(name)]
        lows += [
            first_start_ending_from(a, first_end_open_till(lag, starts[lag.then]))
            for lag in links.out_of(name)
            if lag.is_window
        ]
        lows += [end(rule.first) for rule in links.last_in(name) if len(rule.of) == 1]
        fit = room.first_fit(a, max(lows))
        return problem.horizon_min if fit is None else fit.start_min

    waiting = deque(i for i in by_id if i not in fixed)
    is_waiting = set(waiting)
    while waiting:
        name = waiting.popleft()
        is_waiting.discard(name)
        start = soonest(name)
        if start <= starts[name]:
            continue
        starts[name] = start
        for other in links.around(name):
            if other not in fixed and other not in is_waiting:
                waiting.append(other)
                is_waiting.add(other)
    return starts


def finish_bound(problem: Problem) -> int:
    """Return a minute no plan can finish before.

    The greater of two bounds: every step at its first fit as if it were alone, lags kept; and
    for every such start and every time needed afterwards, all hands-on minutes that begin no
    sooner and are followed by no less have to fit into the hours in between. Raises ValueError
    where the lags contradict each other.
    """
    times = critical_times(problem)
    starts = earliest_starts(problem)
    finish = max((t.latest_end_min for t in times), default=0)
    after = {t.id: finish - t.latest_end_min for t in times}
    taken = {a.id: shortest(a) for a in problem.activities}
    alone = max((starts[i] + taken[i] + after[i] for i in taken), default=0)
    by_hand = [
        (starts[a.id], taken[a.id], after[a.id])
        for a in problem.activities
        if a.people and a.fixed_start_min is None
    ]
    return max(alone, _load_bound(by_hand, _Hours(problem)))


def _load_bound(by_hand: list[_Load], hours: "_Hours") -> int:
    best = 0
    longest_after_first = sorted(by_hand, key=lambda load: -load[2])
    for start in sorted({load[0] for load in by_hand}):
        passed = hours.until(start)
        load = 0
        for begin, minutes, after in longest_after_first:
            if begin >= start:
                load += minutes
                best = max(best, hours.reached(passed + load) + after)
    return best


class _Hours:
    """The minutes that all people together have, counted from the origin."""

    def __init__(self, problem: Problem) -> None:
        self._horizon_min = problem.horizon_min
        changes: dict[int, int] = {0: 0}
        for worker in problem.workers:
            for start, end in worker.windows:
                changes[start] = changes.get(start, 0) + 1
                changes[end] = changes.get(end, 0) - 1
        self._minutes = sorted(changes)
        self._rates = list(accumulate(changes[m] for m in self._minutes))
        spans = zip(self._minutes, self._minutes[1:], self._rates, strict=False)
        self._total = [0, *accumulate((end - start) * rate for start, end, rate in spans)]

    def until(self, minute: int) -> int:
        """Return the person-minutes before ``minute``."""
        at = bisect_right(self._minutes, minute) - 1
        return self._total[at] + (minute - self._minutes[at]) * self._rates[at]

    def reached(self, person_minutes: int) -> int:
        """Return the first minute by which so many have passed; the horizon if never."""
        at = bisect_right(self._total, person_minutes - 1) - 1
        if at < 0:
            return 0
        if at + 1 >= len(self._total):
            return self._horizon_min
        return self._minutes[at] - (self._total[at] - person_minutes) // self._rates[at]
