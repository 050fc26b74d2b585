"""A plan mended in place: what cannot stay is laid into gaps, and all else stays where it stands.

Each round lays what moves among the rest, which is pinned; what that breaks is freed as well, with
what belongs to it, and the next round begins. So a delay of an hour moves some steps and no more,
where laying everything anew in the old order would push each step behind it. Where a build would
be late, the rest of the day is put off with it, then that of the next.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import replace
from functools import cached_property

from armorplan.kernel.units import HOUR_MIN
from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.measures import goals, lateness
from armorplan.schedule.neighbourhoods import Grounds
from armorplan.schedule.pinning import pinned_at
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.ranks import by_starts
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, serial_placing
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.stages import FINISH, LATENESS

_ROUNDS = 24
"""So often more is freed at most."""
_NEXT_MIN = (12 * HOUR_MIN, 30 * HOUR_MIN)
"""What the same people do within so long after may be put off with it, as long as a build is late."""

Lies = Mapping[str, Placed]


def mended_in_place(
    problem: Problem, old: Iterable[Placed], should_stop: Callable[[], bool]
) -> tuple[Placed, ...]:
    """Return a plan that holds and leaves most of an old one where it was; empty where none is found.

    Args:
        problem: as things stand now.
        old: where what is still to come stood, as far as it may still lie there; the rest is laid
            anew.
        should_stop: asked between rounds.
    """
    return _Mending(problem, old, should_stop).run()


def must_move(problem: Problem, old: Iterable[Placed]) -> frozenset[str]:
    """Return what of a problem cannot stay where it stood, with what belongs to it."""
    return _Mending(problem, old, lambda: False).must_move()


class _Mending:
    def __init__(
        self, problem: Problem, old: Iterable[Placed], should_stop: Callable[[], bool]
    ) -> None:
        self._problem = problem
        self._should_stop = should_stop
        self._grounds = Grounds(problem)
        self._free = {a.id: a for a in problem.activities if a.fixed_start_min is None}
        self._stood: Lies = {p.id: p for p in old if p.id in self._free}
        self._history = tuple(placed_by_history(problem))
        self._around = _neighbours(problem)

    def must_move(self) -> frozenset[str]:
        """Return what stands nowhere or cannot stay where it stood, with what belongs to it."""
        lost = frozenset(self._free.keys() - self._stood.keys())
        return self._closed(lost | self._broken(tuple(self._stood.values())))

    def run(self) -> tuple[Placed, ...]:
        moves = self.must_move()
        if not moves:
            return (*self._history, *self._stood.values())
        best, late = self._settled(moves), self._late_before
        for within_min in _NEXT_MIN:
            if (best and self._worth(best)[0] <= late) or self._should_stop():
                break
            found = self._settled(self._closed(moves | self._next(moves, within_min)))
            if found and (not best or self._worth(found) < self._worth(best)):
                best = found
        return best

    def _settled(self, moves: frozenset[str]) -> tuple[Placed, ...]:
        """Return a plan in which these move, and what has to with them; empty where none is found."""
        for _ in range(_ROUNDS):
            if self._should_stop():
                break
            found = self._laid(moves)
            is_stuck = isinstance(found, Stuck)
            more = (
                frozenset((found.activity,)) if isinstance(found, Stuck) else self._broken(found)
            )
            if not more and not isinstance(found, Stuck):
                return found
            grown = self._closed(moves | more)
            if grown == moves or is_stuck:
                grown = self._closed(grown | self._beside(more))
            if grown == moves:
                grown = self._closed(moves | self._next_to(moves))
            if grown == moves:
                break
            moves = grown
        return ()

    @cached_property
    def _as_it_stood(self) -> Mapping[str, Rank]:
        return by_starts(self._problem, tuple(self._stood.values()))

    @cached_property
    def _late_before(self) -> int:
        """The lateness as things stood: a plan no later than that needs no more room."""
        lies = {p.id: p for p in (*self._history, *self._stood.values())}
        is_whole = len(lies) == len(self._problem.activities)
        return lateness(self._problem, lies) if is_whole else 0

    def _next(self, moves: AbstractSet[str], within_min: int) -> frozenset[str]:
        """Return what people do so soon after the first step that cannot stay."""
        first = min((p.start_min for i, p in self._stood.items() if i in moves), default=0)
        return frozenset(
            i
            for i, p in self._stood.items()
            if p.who and first <= p.start_min <= first + within_min
        )

    def _worth(self, placed: tuple[Placed, ...]) -> tuple[int, int, int]:
        """Return lateness, steps moved, and finish: the less, the better."""
        values = goals(self._problem, placed)
        moved = sum(p.id in self._stood and not _stays(p, self._stood[p.id]) for p in placed)
        return values.get(LATENESS, 0), moved, values[FINISH]

    def _closed(self, moves: AbstractSet[str]) -> frozenset[str]:
        """Return what moves with what belongs to it; what never stood anywhere belongs to nothing."""
        known = self._grounds.closed(moves & self._stood.keys(), _Anywhere(self._stood))
        return known | moves

    def _laid(self, moves: AbstractSet[str]) -> tuple[Placed, ...] | Stuck:
        activities = tuple(self._pinned(a, moves) for a in self._problem.activities)
        return serial_placing(replace(self._problem, activities=activities), self._as_it_stood)

    def _pinned(self, activity: Activity, moves: AbstractSet[str]) -> Activity:
        if activity.id in moves or activity.id not in self._stood:
            return activity
        return pinned_at(activity, self._stood[activity.id])

    def _broken(self, placed: tuple[Placed, ...]) -> frozenset[str]:
        """Return what is not history of all that a plan breaks."""
        lies = {p.id: p for p in (*self._history, *placed)}
        plan = Plan(status=Status.GOOD, placed=tuple(lies.values()))
        found = violations(self._problem, plan)
        return frozenset(i for v in found for i in v.about if i in self._free)

    def _beside(self, names: AbstractSet[str]) -> frozenset[str]:
        """Return what waits for these or is waited for."""
        return frozenset(
            i for name in names for i in self._around.get(name, ()) if i in self._free
        )

    def _next_to(self, names: AbstractSet[str]) -> frozenset[str]:
        """Return what people do within an hour of what moves, as it stood."""
        spans = [
            (p.start_min - HOUR_MIN, p.end_min + HOUR_MIN)
            for name in names
            if (p := self._stood.get(name)) is not None
        ]
        return frozenset(
            name
            for name, p in self._stood.items()
            if p.who and any(low < p.end_min and p.start_min < high for low, high in spans)
        )


def _stays(one: Placed, other: Placed) -> bool:
    return (one.start_min, one.who) == (other.start_min, other.who)


class _Anywhere(dict[str, Placed]):
    """Where things stood; what stood nowhere lies by itself."""

    def __missing__(self, name: str) -> Placed:
        return Placed(id=name, start_min=-1, end_min=-1, who=name)


def _neighbours(problem: Problem) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one, other in _pairs(problem):
        found.setdefault(one, []).append(other)
        found.setdefault(other, []).append(one)
    return found


def _pairs(problem: Problem) -> Iterator[tuple[str, str]]:
    for lag in problem.lags:
        yield lag.first, lag.then
    for hold in problem.holds:
        for end in hold.until:
            yield hold.first, end
