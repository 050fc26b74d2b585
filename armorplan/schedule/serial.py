"""The serial plan: one activity after another at its first fit, with modest backtracking.

A serial generation scheme that knows calendars. Where a maximum lag cannot be kept, what it
counts from is moved later by what is missing and everything laid since is laid again (after
Franck, Neumann and Schwindt, 'Truncated branch-and-bound, schedule-construction, and
schedule-improvement procedures for resource-constrained project scheduling', OR Spektrum 23
(2001): the unscheduling step; the reference is from memory).
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_cycle import title
from armorplan.schedule.lag_spans import (
    closes_at,
    first_end_open_till,
    last_end_open_by,
    opens_at,
)
from armorplan.schedule.links import Links
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Lag, Placed, Problem
from armorplan.schedule.sequence import Laying, Rank
from armorplan.schedule.spans import (
    first_start_ending_from,
    last_start_ending_by,
    placed_by_history,
)

_TRIES_EACH = 10
"""How often an activity may be moved later, on average, before the serial plan gives up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """Why the serial plan found no place; not a proof that there is none."""

    activity: str
    text: str


def serial_placing(problem: Problem, rank: Mapping[str, Rank]) -> tuple[Placed, ...] | Stuck:
    """Lay all activities by rank, each at its first fit; fixed ones stay where they are.

    Returns them in the problem's order, or where it got stuck.
    """
    return next(serial_placings(problem, (rank,)))


def serial_placings(
    problem: Problem, ranks: Iterable[Mapping[str, Rank]]
) -> Iterator[tuple[Placed, ...] | Stuck]:
    """Yield what ``serial_placing`` returns for each of these ranks, one by one as asked for."""
    laying = Laying(problem)
    for rank in ranks:
        yield _Placing(problem, laying.order(rank)).run()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Limit:
    """The latest start something allows, and the activity to move later to allow more.

    ``by`` is the lag that says so; ``None`` where another has to end before the last of some.
    """

    start_min: int
    moves: str
    by: Lag | None = None


class _Placing:
    def __init__(self, problem: Problem, order: tuple[str, ...]) -> None:
        self._problem = problem
        self._order = order
        self._position = {name: at for at, name in enumerate(order)}
        self._links = Links(problem)
        self._by_id = {a.id: a for a in problem.activities}
        self._room = Occupancy(problem)
        self._floors = {a.id: max(0, a.earliest_min) for a in problem.activities}
        self._placed: dict[str, Placed] = {}
        for placed in placed_by_history(problem):
            self._take(placed)

    def run(self) -> tuple[Placed, ...] | Stuck:
        """Place one after another; go back where a maximum lag asks for it."""
        tries = _TRIES_EACH * len(self._order)
        at = 0
        while at < len(self._order):
            activity = self._by_id[self._order[at]]
            fit = self._room.first_fit(activity, self._floor(activity))
            if fit is None:
                return self._stuck(activity.id, "does not fit into the hours and places left")
            limit = min(self._limits(activity), key=lambda x: x.start_min, default=None)
            missing = 0 if limit is None else fit.start_min - limit.start_min
            if limit is None or missing <= 0:
                self._take(fit)
                at += 1
                continue
            tries -= 1
            if limit.moves not in self._position or tries < 0:
                return self._stuck(activity.id, f"would start {missing} min too late")
            at = self._back_to(limit, fit, at)
        return tuple(self._placed[a.id] for a in self._problem.activities)

    def _back_to(self, limit: _Limit, fit: Placed, at: int) -> int:
        """Take up what was laid since an activity, which now has to start later; return where."""
        self._floors[limit.moves] = self._late_enough(limit, fit)
        back = self._position[limit.moves]
        for other in self._order[back:at]:
            self._room.give_back(self._placed.pop(other))
        return back

    def _late_enough(self, limit: _Limit, fit: Placed) -> int:
        """Return the first start of what has to move from which on ``fit`` is not too late."""
        lag = limit.by
        if lag is None:
            return fit.end_min
        if limit.moves == lag.then:
            return opens_at(lag, fit.end_min)
        return first_start_ending_from(
            self._by_id[lag.first], first_end_open_till(lag, fit.start_min)
        )

    def _take(self, placed: Placed) -> None:
        self._placed[placed.id] = placed
        self._room.take(placed)

    def _stuck(self, name: str, text: str) -> Stuck:
        return Stuck(activity=name, text=f"{title(self._problem, name)} {text}")

    def _floor(self, activity: Activity) -> int:
        """Return the first start that lags, 'before the last of' and what follows soon allow."""
        starts = [self._floors[activity.id], self._ready(activity.id)]
        ends = []
        for lag in self._links.out_of(activity.id):
            if not lag.is_window:
                continue
            then = self._placed.get(lag.then)
            start = self._soonest(lag.then) if then is None else then.start_min
            ends.append(first_end_open_till(lag, start))
        starts += [first_start_ending_from(activity, end) for end in ends]
        starts += [
            self._placed[rule.first].end_min
            for rule in self._links.last_in(activity.id)
            if rule.first in self._placed and self._must_be_last(activity.id, rule.first, rule.of)
        ]
        return max(starts)

    def _ready(self, name: str) -> int:
        return max(
            (
                opens_at(lag, self._placed[lag.first].end_min)
                for lag in self._links.into(name)
                if lag.first in self._placed
            ),
            default=0,
        )

    def _soonest(self, name: str) -> int:
        """Return when an activity not yet placed may start at the soonest, as far as is known."""
        floor = max(self._floors[name], self._ready(name))
        fit = self._room.first_fit(self._by_id[name], floor)
        return floor if fit is None else fit.start_min

    def _must_be_last(self, name: str, first: str, of: frozenset[str]) -> bool:
        others = of - {name}
        end = self._placed[first].end_min
        return all(o in self._placed and self._placed[o].start_min < end for o in others)

    def _limits(self, activity: Activity) -> list[_Limit]:
        """Return the latest starts that what is placed allows."""
        limits = [
            _Limit(start_min=latest, moves=lag.first, by=lag)
            for lag in self._links.into(activity.id)
            if lag.first in self._placed
            and (latest := closes_at(lag, self._placed[lag.first].end_min)) is not None
        ]
        ends: list[tuple[int, str, Lag | None]] = [
            (last_end_open_by(lag, self._placed[lag.then].start_min), lag.then, lag)
            for lag in self._links.out_of(activity.id)
            if lag.then in self._placed
        ]
        for rule in self._links.first_in(activity.id):
            if all(o in self._placed for o in rule.of):
                last = max(sorted(rule.of), key=lambda o: self._placed[o].start_min)
                ends.append((self._placed[last].start_min, last, None))
        limits += [
            _Limit(start_min=last_start_ending_by(activity, end), moves=name, by=lag)
            for end, name, lag in ends
        ]
        return limits
