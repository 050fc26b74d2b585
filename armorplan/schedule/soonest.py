"""How soon each activity can be: lags and hours, each by itself, gone through till nothing moves."""

from collections import deque
from collections.abc import Iterable
from typing import NamedTuple

from armorplan.schedule.activity import Activity
from armorplan.schedule.held import take_known_holds
from armorplan.schedule.lag_spans import first_end_open_till, opens_at
from armorplan.schedule.links import Links
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Problem
from armorplan.schedule.spans import least_minutes


class Moment(NamedTuple):
    """The start or the end of an activity."""

    id: str
    is_end: bool


class Tie(NamedTuple):
    """One moment lies at least so many minutes after another; fewer than 0: at most before.

    The first may be of ``network.ORIGIN``: minute 0.
    """

    first: Moment
    then: Moment
    minutes: int = 0


class Soonest(NamedTuple):
    """The minutes that activities cannot start or end before."""

    starts: dict[str, int]
    ends: dict[str, int]


def earliest_times(problem: Problem, ties: Iterable[Tie] = ()) -> Soonest:
    """Return for every activity what it cannot start or end before.

    What does not fit into the hours at all gets the horizon. The lags have to be free of rings
    (``lag_cycle``); ``ties`` hold beside them, and never of what is fixed.
    """
    return _Search(problem, ties).run()


class _Search:
    def __init__(self, problem: Problem, ties: Iterable[Tie]) -> None:
        self._horizon_min = problem.horizon_min
        self._links = Links(problem)
        self._by_id = {a.id: a for a in problem.activities}
        self._room = Occupancy(problem)
        self._fixed = {p.id: p for p in self._room.take_history(problem)}
        take_known_holds(problem, self._room.levels, self._fixed)
        self._starts = dict.fromkeys(self._by_id, 0)
        self._ends = {i: least_minutes(a) for i, a in self._by_id.items()}
        for name, placed in self._fixed.items():
            self._starts[name], self._ends[name] = placed.start_min, placed.end_min
        self._into: dict[str, list[Tie]] = {}
        self._out_of: dict[str, list[str]] = {}
        for tie in ties:
            self._into.setdefault(tie.then.id, []).append(tie)
            self._out_of.setdefault(tie.first.id, []).append(tie.then.id)

    def run(self) -> Soonest:
        waiting = deque(i for i in self._by_id if i not in self._fixed)
        is_waiting = set(waiting)
        while waiting:
            name = waiting.popleft()
            is_waiting.discard(name)
            if self._moves(name):
                for other in (*self._links.moved_by(name), *self._out_of.get(name, ())):
                    if other not in self._fixed and other not in is_waiting:
                        waiting.append(other)
                        is_waiting.add(other)
        return Soonest(self._starts, self._ends)

    def _moves(self, name: str) -> bool:
        """Put an activity where it can be at the soonest; tell whether it is later than before."""
        start, end = self._soonest(self._by_id[name])
        moves = start > self._starts[name] or end > self._ends[name]
        self._starts[name] = max(start, self._starts[name])
        self._ends[name] = max(end, self._ends[name])
        return moves

    def _soonest(self, activity: Activity) -> tuple[int, int]:
        name, starts, ends = activity.id, self._starts, self._ends
        lows = [0, activity.earliest_min]
        lows += [opens_at(lag, ends[lag.first]) for lag in self._links.into(name)]
        lows += [ends[rule.first] for rule in self._links.last_in(name) if len(rule.of) == 1]
        end_lows = [
            first_end_open_till(lag, starts[lag.then])
            for lag in self._links.out_of(name)
            if lag.is_window
        ]
        for tie in self._into.get(name, ()):
            moments = ends if tie.first.is_end else starts
            (end_lows if tie.then.is_end else lows).append(
                moments.get(tie.first.id, 0) + tie.minutes
            )
        fits = self._room.fits(activity, max(lows), max(end_lows, default=0))
        if not fits:
            return self._horizon_min, self._horizon_min + least_minutes(activity)
        return min(f.start_min for f in fits), min(f.end_min for f in fits)
