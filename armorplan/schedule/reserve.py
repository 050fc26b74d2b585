"""Room before windows close, and few visits: what makes a plan better that is worth the same.

A plan pulled earlier cases leather as soon as hands are free, and may bend it in the last minute
in which it still bends. Of a plan that is as good the one is better in which a knock on the door
spoils nothing: what makes it damp comes later, or what has to be done while it is damp sooner.
The wearer is marked and fitted in one go where the work between can wait or comes before.
"""

from collections.abc import Iterable, Iterator

from armorplan.schedule.checker import violations
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.links import Links
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Lag, Placed, Plan, Problem, Status
from armorplan.schedule.small_moves import Lies, done_between, holds, later, may_move, sooner
from armorplan.schedule.waiting import Visits

WANTED_MIN = 20
"""So long before a window closes what it waits for should begin (common practice, no source)."""
_MOST_CHECKS, _LEAST_CHECKS, _CHECKED_STEPS = 40, 4, 24000
"""So many changed plans are checked in whole, for visits and for windows each: as many as have so
many steps in all. For 600 steps that is about two seconds."""


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
        self._visits = Visits(problem)
        self._checks = 0
        steps = max(1, len(problem.activities))
        self._most = min(_MOST_CHECKS, max(_LEAST_CHECKS, _CHECKED_STEPS // steps))
        self._windows = [g for g in problem.lags if self._is_by_hand(g)]

    def run(self) -> tuple[Placed, ...]:
        self._shorten_visits()
        self._checks = 0
        for lag in sorted(self._windows, key=lambda g: (reserve_min(g, self._lies) or 0, g.then)):
            if self._missing(lag, self._lies) and self._checks < self._most:
                self._take_best(self._moves(lag))
        return tuple(self._lies.values())

    def _is_by_hand(self, lag: Lag) -> bool:
        """Tell whether a window lies between two pieces of work that may move, each by itself."""
        ends = self._by_id[lag.first], self._by_id[lag.then]
        is_plain = all(may_move(a, self._lies[a.id]) for a in ends)
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
        """Return the minutes of room that windows lack, and those that wearers wait."""
        lacking = sum(self._missing(lag, lies) for lag in self._windows)
        return lacking + self._visits.waiting_min(lies)

    def _shorten_visits(self) -> None:
        """Let what is done in one visit follow each other, as far as it can."""
        gains = True
        while gains and self._checks < self._most:
            gains = any(
                self._take_best(self._closer(visit, at))
                for _, visit in [*self._visits.visits(self._lies)]
                for at in range(1, len(visit))
                if visit[at - 1].end_min < visit[at].start_min
            )

    def _closer(self, visit: list[Placed], at: int) -> Iterator[list[Placed]]:
        """Yield what closes the gap before one of a visit: what is before it later, or it sooner."""
        rows = [
            [p for p in row if p.who == row[0].who] for row in (visit[at - 1 :: -1], visit[at:])
        ]
        before, after = _row(rows[0][::-1], is_last=True), _row(rows[1], is_last=False)
        begin = visit[0].start_min
        beside = done_between(self._lies, before[0].who, before[-1].end_min, after[0].start_min)
        yield from later(before, beside, after[0].start_min)
        beside = done_between(self._lies, after[0].who, begin, after[0].start_min)
        yield from sooner(after, beside, before[-1].end_min)

    def _take_best(self, moves: Iterable[list[Placed]]) -> bool:
        """Take the move that leaves the least lacking and holds; tell whether there is one."""
        lacks = self._lacks(self._lies)
        found = []
        for number, moved in enumerate(moves):
            lies = self._lies | {p.id: p for p in moved}
            if self._keeps_lags(lies, moved):
                found.append((self._lacks(lies), number, lies))
        for still, _, lies in sorted(found, key=lambda f: f[:2]):
            if still >= lacks or self._checks >= self._most:
                break
            if self._is_as_good(lies):
                self._lies = lies
                return True
        return False

    def _moves(self, lag: Lag) -> Iterator[list[Placed]]:
        """Yield what may lie elsewhere: what makes damp later, or what has to be done sooner."""
        first, then = self._lies[lag.first], self._lies[lag.then]
        beside = done_between(self._lies, first.who, first.end_min, then.start_min)
        yield from later([first], beside, then.start_min)
        opens = opens_at(lag, first.end_min)
        yield from sooner([then], done_between(self._lies, then.who, opens, then.start_min), opens)

    def _keeps_lags(self, lies: Lies, moved: Iterable[Placed]) -> bool:
        """Tell by what is near whether moved steps may lie there: most that do not are seen here."""
        for placed in moved:
            activity = self._by_id[placed.id]
            if not may_move(activity, placed) or placed.start_min < activity.earliest_min:
                return False
            lags = (*self._links.into(placed.id), *self._links.out_of(placed.id))
            if not all(holds(lag, lies) for lag in lags):
                return False
        return True

    def _is_as_good(self, lies: Lies) -> bool:
        self._checks += 1
        placed = tuple(lies.values())
        if tuple(goals(self._problem, placed).values()) > self._worth:
            return False
        return not violations(self._problem, Plan(status=Status.GOOD, placed=placed))


def _row(visit: list[Placed], *, is_last: bool) -> list[Placed]:
    """Return the last, or the first, of a visit that follow each other without a gap."""
    row: list[Placed] = []
    for placed in reversed(visit) if is_last else visit:
        near = row and (
            placed.end_min == row[-1].start_min if is_last else placed.start_min == row[-1].end_min
        )
        if row and not near:
            break
        row.append(placed)
    return row[::-1] if is_last else row
