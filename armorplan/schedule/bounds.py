"""How soon things can be at the very best: proved without a solver, in milliseconds."""

from bisect import bisect_right
from itertools import accumulate

from armorplan.schedule.critical import critical_times
from armorplan.schedule.network import shortest
from armorplan.schedule.problem import Problem
from armorplan.schedule.soonest import earliest_times

_Load = tuple[int, int, int]
"""First start, hands-on minutes, minutes needed after the end."""


def earliest_starts(problem: Problem) -> dict[str, int]:
    """Return for every activity a minute it cannot start before: lags and hours, each by itself.

    What does not fit into the hours at all gets the horizon. The lags have to be free of rings
    (``lag_cycle``).
    """
    return earliest_times(problem).starts


def finish_bound(problem: Problem) -> int:
    """Return a minute no plan can finish before.

    The greater of two bounds: every step at its first fit as if it were alone, lags kept; and
    for every such start and every time needed afterwards, all hands-on minutes that begin no
    sooner and are followed by no less have to fit into the hours in between. Raises ValueError
    where the lags contradict each other.
    """
    times = critical_times(problem)
    starts, ends = earliest_times(problem)
    finish = max((t.latest_end_min for t in times), default=0)
    after = {t.id: finish - t.latest_end_min for t in times}
    taken = {a.id: shortest(a) for a in problem.activities}
    alone = max((ends[i] + after[i] for i in taken), default=0)
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
