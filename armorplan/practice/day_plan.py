"""One person's day around waits and windows: the best finish, proved, and the nearest right plan.

A day is a ``schedule.problem.Problem`` of a few steps that one person does, each in one go, with
lags and 'before the last of'; its horizon is when all has to be done. Minutes count from midnight.

Exact by trying orders: for one order all conditions only ever push starts later (the end of the one
before, the least wait, a closed hour, a latest time that pulls its first step after it), so that
there is one earliest start for each step (Tarski, Pacific J. Math. 5, 1955: the least fixed point of
monotone conditions), and what the first steps of an order take no later one makes less.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations

from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Placed, Plan, Problem, Status

MOST_DAY_STEPS = 8
"""Up to here all orders are tried."""

Starts = Mapping[str, int]
"""By step the minute it starts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nearest:
    """A right plan that changes the times of as few steps as any does.

    Attributes:
        starts: by step.
        changed: the steps that start at another time, in the problem's order.
    """

    starts: Starts
    changed: tuple[str, ...]


def placed_at(problem: Problem, starts: Starts) -> Plan:
    """Return a plan of these starts, for the checker and for pictures."""
    who = problem.workers[0].id
    placed = tuple(
        Placed(id=a.id, start_min=starts[a.id], end_min=starts[a.id] + a.ways[0].minutes, who=who)
        for a in problem.activities
        if a.id in starts
    )
    return Plan(status=Status.GOOD, placed=placed, made_by="by hand")


def best_day(problem: Problem, *, grid_min: int, pins: Starts | None = None) -> Starts | None:
    """Return the plan that ends soonest, all starts on the grid; ``None``: there is none.

    Args:
        problem: the day; no more than ``MOST_DAY_STEPS`` steps.
        grid_min: steps start at multiples of this.
        pins: steps that start just then, on the grid or not.
    """
    return _Search(problem, grid_min, pins or {}).best()


def can_be_done(problem: Problem, *, grid_min: int, pins: Starts) -> Starts | None:
    """Return a plan that keeps everything, or ``None`` where none does; see ``best_day``."""
    return _Search(problem, grid_min, pins).any()


def nearest_day(problem: Problem, given: Starts, *, grid_min: int) -> Nearest | None:
    """Return a right plan in which as few steps as possible start at another time than given.

    Of several that change as few the one is taken whose changed steps stand first. ``None``: no
    plan of this day is right.
    """
    names = [activity.id for activity in problem.activities]
    for changes in range(len(names) + 1):
        for changed in combinations(names, changes):
            pins = {name: given[name] for name in names if name not in changed}
            starts = can_be_done(problem, grid_min=grid_min, pins=pins)
            if starts is not None:
                return Nearest(
                    starts=starts, changed=tuple(n for n in names if starts[n] != given[n])
                )
    return None


def one_after_another(problem: Problem, order: tuple[str, ...], *, grid_min: int) -> Starts | None:
    """Return the earliest plan in one order; ``None``: in that order it cannot be done in time."""
    return _Search(problem, grid_min, {}).in_order(order)


@dataclass(slots=True)
class _Search:
    """Tries the orders of one day; ``_most`` is the latest end that still counts."""

    problem: Problem
    grid_min: int
    pins: Starts
    _minutes: dict[str, int] = field(init=False)
    _windows: tuple[Window, ...] = field(init=False)
    _firsts: dict[str, frozenset[str]] = field(init=False)
    _tails: dict[str, int] = field(init=False)
    _most: int = field(init=False)

    def __post_init__(self) -> None:
        if len(self.problem.activities) > MOST_DAY_STEPS:
            message = f"a day of more than {MOST_DAY_STEPS} steps"
            raise ValueError(message)
        self._minutes = {a.id: a.ways[0].minutes for a in self.problem.activities}
        self._windows = self.problem.workers[0].windows
        self._firsts = {
            name: frozenset(lag.first for lag in self.problem.lags if lag.then == name)
            for name in self._minutes
        }
        self._tails = {}
        self._most = self.problem.horizon_min

    def best(self) -> Starts | None:
        """Return the plan that ends soonest."""
        found: Starts | None = None
        for better in self._plans((), {}) if self._pins_agree() else ():
            found = better
            self._most = self._end(better) - 1  # What is looked at from here on has to end sooner.
        return found

    def any(self) -> Starts | None:
        """Return the first plan found that ends in time."""
        if not self._pins_agree():
            return None
        return next(self._plans((), {}), None)

    def in_order(self, order: tuple[str, ...]) -> Starts | None:
        """Return the earliest starts in one order."""
        starts: dict[str, int] = {}
        for at, name in enumerate(order):
            if not self._may_follow(name, order[:at]):
                return None
            settled = self._settled(order[: at + 1], starts | {name: 0})
            if settled is None:
                return None
            starts = settled
        return starts

    def _plans(self, order: tuple[str, ...], starts: dict[str, int]) -> Iterator[Starts]:
        if len(order) == len(self._minutes):
            yield starts
            return
        for _, name, settled in sorted(self._next(order, starts), key=lambda one: one[:2]):
            if self._least_end((*order, name), settled) <= self._most:
                yield from self._plans((*order, name), settled)

    def _next(
        self, order: tuple[str, ...], starts: dict[str, int]
    ) -> Iterator[tuple[int, str, dict[str, int]]]:
        for name in self._minutes:
            if name in starts or not self._may_follow(name, order):
                continue
            settled = self._settled((*order, name), starts | {name: 0})
            if settled is not None and self._meets_pins(settled, name):
                yield settled[name], name, settled

    def _meets_pins(self, starts: dict[str, int], last: str) -> bool:
        """Tell whether what is pinned and not yet done is still ahead of the last step."""
        free_from = starts[last] + self._minutes[last]
        return all(pin >= free_from for name, pin in self.pins.items() if name not in starts)

    def _may_follow(self, name: str, order: tuple[str, ...]) -> bool:
        """Tell whether a step may be done next: all that it waits for is done."""
        done = frozenset(order)
        if not self._firsts[name] <= done:
            return False
        return all(
            rule.first in done or not rule.of <= done | {name} for rule in self.problem.before_last
        )

    def _settled(self, order: tuple[str, ...], starts: dict[str, int]) -> dict[str, int] | None:
        """Return the earliest starts of these steps in this order, none before ``starts``."""
        moves = True
        while moves:
            moves = False
            free_from = 0
            for name in order:
                start = self._fit(name, max(free_from, starts[name], self._waited(name, starts)))
                if start is None:
                    return None
                starts[name] = start
                free_from = start + self._minutes[name]
            for lag in self.problem.lags:
                if lag.max_lag is None or lag.then not in starts:
                    continue
                pulled = starts[lag.then] - lag.max_lag - self._minutes[lag.first]
                if starts[lag.first] < pulled:
                    starts[lag.first] = pulled
                    moves = True
        return starts

    def _waited(self, name: str, starts: dict[str, int]) -> int:
        return max(
            (
                starts[lag.first] + self._minutes[lag.first] + lag.min_lag
                for lag in self.problem.lags
                if lag.then == name
            ),
            default=0,
        )

    def _fit(self, name: str, least: int) -> int | None:
        """Return the first start from a minute on at which a step is done within hours."""
        if name in self.pins:
            pin = self.pins[name]
            return pin if least <= pin and self._lies_in_hours(name, pin) else None
        for opens, closes in self._windows:
            start = _up(max(least, opens), self.grid_min)
            end = start + self._minutes[name]
            if end <= closes:
                return start if end <= self._most else None
        return None

    def _lies_in_hours(self, name: str, start: int) -> bool:
        end = start + self._minutes[name]
        inside = any(opens <= start and end <= closes for opens, closes in self._windows)
        return inside and end <= self._most

    def _least_end(self, order: tuple[str, ...], starts: dict[str, int]) -> int:
        """Return a minute before which no plan ends that begins with this order."""
        free_from = starts[order[-1]] + self._minutes[order[-1]]
        left = [name for name in self._minutes if name not in starts]
        return max(
            [
                self._worked(free_from, left),
                *(starts[name] + self._minutes[name] + self._tail(name) for name in order),
                *(free_from + self._minutes[name] + self._tail(name) for name in left),
            ]
        )

    def _worked(self, since: int, left: list[str]) -> int:
        """Return a minute before which these are not all done, begun within hours only.

        Each keeps its place on the grid to itself, but for what the last one leaves of it, and what
        a step that is pinned beside the grid takes of the place before it.
        """
        if not left:
            return since
        grid_min = self.grid_min
        laid = [_up(self._minutes[name], grid_min) for name in left]
        spare = max(long - self._minutes[name] for long, name in zip(laid, left, strict=True))
        beside = sum(self.pins.get(name, 0) % grid_min > 0 for name in left)
        minutes = max(0, sum(laid) - beside * (grid_min - 1))
        since = since if beside else _up(since, grid_min)
        for opens, closes in self._windows:
            begun, shut = max(since, opens), _up(closes, grid_min)
            if begun + minutes <= shut:
                return begun + minutes - spare
            minutes -= max(0, shut - begun)
        return self.problem.horizon_min + 1

    def _tail(self, name: str) -> int:
        """Return the least minutes from the end of a step to the end of the last that waits for it."""
        if name not in self._tails:
            self._tails[name] = max(
                (
                    lag.min_lag + self._minutes[lag.then] + self._tail(lag.then)
                    for lag in self.problem.lags
                    if lag.first == name
                ),
                default=0,
            )
        return self._tails[name]

    def _end(self, starts: Starts) -> int:
        return max(start + self._minutes[name] for name, start in starts.items())

    def _pins_agree(self) -> bool:
        """Tell whether what is pinned keeps everything among itself."""
        order = tuple(sorted(self.pins, key=lambda name: (self.pins[name], name)))
        free_from = 0
        for name in order:
            if self.pins[name] < free_from or not self._lies_in_hours(name, self.pins[name]):
                return False
            free_from = self.pins[name] + self._minutes[name]
        return all(
            lag.min_lag
            <= self.pins[lag.then] - self.pins[lag.first] - self._minutes[lag.first]
            <= (self._most if lag.max_lag is None else lag.max_lag)
            for lag in self.problem.lags
            if lag.first in self.pins and lag.then in self.pins
        )


def _up(minute: int, grid_min: int) -> int:
    """Return the next minute on a grid, or the same."""
    return -(-minute // grid_min) * grid_min
