"""Room before windows close: damp work begins early in its window where nothing else changes.

A plan pulled earlier cases leather as soon as hands are free, and may bend it in the last minute
in which it still bends. Of a plan that is as good the one is better in which a knock on the door
spoils nothing: what makes it damp comes later, or what has to be done while it is damp sooner.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.links import Links
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Lag, Placed, Plan, Problem, Status

WANTED_MIN = 20
"""So long before a window closes what it waits for should begin (common practice, no source)."""
_MOST_CHECKS = 40
"""So many changed plans are checked in whole: for 600 steps that is about two seconds."""

Lies = Mapping[str, Placed]


def with_reserve(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return a plan that holds and is worth as much, with more room before windows close."""
    return _Reserve(problem, placed).run()


def reserve_min(lag: Lag, lies: Lies) -> int | None:
    """Return the minutes from the start of what follows till it would be too late."""
    closes = closes_at(lag, lies[lag.first].end_min)
    return None if closes is None else closes - lies[lag.then].start_min


class _Reserve:
    def __init__(self, problem: Problem, placed: tuple[Placed, ...]) -> None:
        self._problem = problem
        self._by_id = {a.id: a for a in problem.activities}
        self._lies = {p.id: p for p in placed}
        self._links = Links(problem)
        self._worth = tuple(goals(problem, placed).values())
        self._checks = 0
        self._windows = [g for g in problem.lags if self._is_by_hand(g)]

    def run(self) -> tuple[Placed, ...]:
        for lag in sorted(self._windows, key=lambda g: (reserve_min(g, self._lies) or 0, g.then)):
            if self._missing(lag, self._lies) and self._checks < _MOST_CHECKS:
                self._give_room(lag)
        return tuple(self._lies.values())

    def _is_by_hand(self, lag: Lag) -> bool:
        """Tell whether a window lies between two pieces of work that may move, each by itself."""
        ends = self._by_id[lag.first], self._by_id[lag.then]
        is_plain = all(_may_move(a, self._lies[a.id]) for a in ends)
        return is_plain and lag.is_window and self._wanted(lag, self._lies) > 0

    @staticmethod
    def _wanted(lag: Lag, lies: Lies) -> int:
        """Return the room wished for: no more than half of a short window."""
        end = lies[lag.first].end_min
        closes = closes_at(lag, end)
        return 0 if closes is None else min(WANTED_MIN, (closes - opens_at(lag, end)) // 2)

    def _missing(self, lag: Lag, lies: Lies) -> int:
        """Return how many minutes of the room that is wished for a window lacks."""
        return max(0, self._wanted(lag, lies) - (reserve_min(lag, lies) or 0))

    def _lacks(self, lies: Lies) -> int:
        return sum(self._missing(lag, lies) for lag in self._windows)

    def _give_room(self, lag: Lag) -> None:
        lacks = self._lacks(self._lies)
        found = []
        for number, moved in enumerate(self._moves(lag)):
            lies = self._lies | {p.id: p for p in moved}
            if self._keeps_lags(lies, moved):
                found.append((self._lacks(lies), number, lies))
        for still, _, lies in sorted(found, key=lambda f: f[:2]):
            if still >= lacks or self._checks >= _MOST_CHECKS:
                return
            if self._is_as_good(lies):
                self._lies = lies
                return

    def _moves(self, lag: Lag) -> Iterator[list[Placed]]:
        """Yield what may lie elsewhere: what makes damp later, or what has to be done sooner."""
        first, then = self._lies[lag.first], self._lies[lag.then]
        between = self._between(first, first.end_min, then.start_min)
        yield from _later(first, between, then.start_min)
        opens = opens_at(lag, first.end_min)
        yield from _sooner(then, self._between(then, opens, then.start_min), opens)

    def _between(self, one: Placed, from_min: int, until_min: int) -> list[Placed]:
        """Return what the person of a step does in between, in order."""
        found = (
            p
            for p in self._lies.values()
            if p.who == one.who and from_min <= p.start_min and p.end_min <= until_min
        )
        mine = (p for p in found if p.id != one.id and p.start_min < p.end_min)
        return sorted(mine, key=lambda p: p.start_min)

    def _keeps_lags(self, lies: Lies, moved: Iterable[Placed]) -> bool:
        """Tell by what is near whether moved steps may lie there: most that do not are seen here."""
        for placed in moved:
            activity = self._by_id[placed.id]
            if not _may_move(activity, placed) or placed.start_min < activity.earliest_min:
                return False
            lags = (*self._links.into(placed.id), *self._links.out_of(placed.id))
            if not all(_holds(lag, lies) for lag in lags):
                return False
        return True

    def _is_as_good(self, lies: Lies) -> bool:
        self._checks += 1
        placed = tuple(lies.values())
        if tuple(goals(self._problem, placed).values()) > self._worth:
            return False
        return not violations(self._problem, Plan(status=Status.GOOD, placed=placed))


def _may_move(activity: Activity, placed: Placed) -> bool:
    is_free = activity.fixed_start_min is None and activity.dip is None
    return is_free and activity.table is None and placed.who is not None


def _holds(lag: Lag, lies: Lies) -> bool:
    end, start = lies[lag.first].end_min, lies[lag.then].start_min
    closes = closes_at(lag, end)
    return opens_at(lag, end) <= start and (closes is None or start <= closes)


def _at(placed: Placed, start_min: int) -> Placed:
    minutes = placed.end_min - placed.start_min
    return replace(placed, start_min=start_min, end_min=start_min + minutes)


def _later(first: Placed, between: list[Placed], until_min: int) -> Iterator[list[Placed]]:
    """Yield a step later: in what is free between others, or after some that come sooner by it."""
    takes = first.end_min - first.start_min
    ends = [*(p.start_min for p in between), until_min]
    for end in ends:
        yield [_at(first, end - takes)]
    for at, placed in enumerate(between):
        sooner = [_at(p, p.start_min - takes) for p in between[: at + 1]]
        yield [_at(first, placed.end_min - takes), *sooner]


def _sooner(then: Placed, between: list[Placed], opens_min: int) -> Iterator[list[Placed]]:
    """Yield a step sooner: in what is free between others, or before some that come later by it."""
    takes = then.end_min - then.start_min
    for start in (opens_min, *(p.end_min for p in between)):
        yield [_at(then, start)]
    for at, placed in enumerate(between):
        later = [_at(p, p.start_min + takes) for p in between[at:]]
        yield [_at(then, placed.start_min), *later]
