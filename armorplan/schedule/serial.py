"""The serial plan: one activity after another at its first fit, with modest backtracking.

A serial generation scheme that knows calendars. Where a maximum lag cannot be kept, what it
counts from is moved later by what is missing and everything laid since is laid again (after
Franck, Neumann and Schwindt, 'Truncated branch-and-bound, schedule-construction, and
schedule-improvement procedures for resource-constrained project scheduling', OR Spektrum 23
(2001): the unscheduling step; the reference is from memory).
"""

from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass

from armorplan.schedule.activity import Activity
from armorplan.schedule.allowed import Limit
from armorplan.schedule.batching import READY, Batching, Patience
from armorplan.schedule.bench import Bench, bench_of
from armorplan.schedule.lag_cycle import title
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Laying, Rank
from armorplan.schedule.trials import Fit

_ASKED_EACH = 500
"""Whether to stop is asked each time so many activities were laid; fewer are laid at once."""
_TRIES_EACH = 10
"""How often an activity may be moved later, on average, before the serial plan gives up."""


_NO_TIME = "There was no time to lay every step once"

Try = tuple[Mapping[str, Rank], Patience]
"""By which rank to lay, and how long dips wait for others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """Why the serial plan found no place; not a proof that there is none."""

    activity: str
    text: str


def serial_placing(
    problem: Problem, rank: Mapping[str, Rank], patience: Patience = READY
) -> tuple[Placed, ...] | Stuck:
    """Lay all activities by rank, each at its first fit; fixed ones stay where they are.

    Returns them in the problem's order, or where it got stuck. ``patience`` says how long dips
    wait for others of their family.
    """
    return next(serial_placings(problem, ((rank, patience),)))


def serial_placings(
    problem: Problem,
    tries: Iterable[Try],
    should_stop: Callable[[], bool] | None = None,
    *,
    alone_at: Container[int] = (),
) -> Iterator[tuple[Placed, ...] | Stuck]:
    """Yield what ``serial_placing`` returns for each of these, one by one as asked for.

    ``should_stop`` is asked now and then; once it says yes it is stuck for want of time. Those
    tries whose numbers are in ``alone_at``, counted from 0, have nobody beside anybody.
    """
    laying, bench = Laying(problem), bench_of(problem)
    for number, (rank, patience) in enumerate(tries):
        order = laying.order(rank)
        bench.room.in_pairs = number not in alone_at
        placing = _Placing(problem, laying, bench, Batching(problem, laying, order, patience))
        yield placing.run(should_stop or (lambda: False))
        placing.clear()


class _Placing:
    """One serial plan in the making: a stack of what is laid, and a stack of what is still to be.

    What is to be laid may stand there several times; only the first time counts.
    """

    def __init__(self, problem: Problem, laying: Laying, bench: Bench, batching: Batching) -> None:
        self._problem = problem
        self._laying = laying
        self._bench = bench
        self._placed = bench.placed
        self._batching = batching
        self._order = order = batching.order
        self._at = {name: at for at, name in enumerate(order)}
        self._by_id = {a.id: a for a in problem.activities}
        self._laid: list[Fit] = []
        self._pending = list(reversed(order))
        self._brought_forward: set[str] = set()
        self._tries = _TRIES_EACH * len(order)

    def run(self, should_stop: Callable[[], bool]) -> tuple[Placed, ...] | Stuck:
        """Place one after another; go back where a maximum lag asks for it."""
        left = _ASKED_EACH
        while self._pending:
            name = self._pending.pop()
            if name in self._placed:
                continue
            left -= 1
            if not left and should_stop():
                return Stuck(activity=name, text=_NO_TIME)
            left = left or _ASKED_EACH
            stuck = self._lay(self._by_id[name])
            if stuck:
                text = f"{title(self._problem, name)} {stuck}"
                return Stuck(activity=name, text=text)
        return tuple(self._placed[a.id] for a in self._problem.activities)

    def clear(self) -> None:
        """Take up everything that is not history."""
        while self._laid:
            self._take_up(self._laid.pop())
        self._bench.floors.forget()

    def _lay(self, activity: Activity) -> str:
        """Lay an activity, or make room for it; return what is in the way where that fails."""
        if activity.dip is not None:
            awaited = self._batching.waits_for(activity, self._bench)
            if awaited:
                self._put_next([*sorted(awaited, key=self._at.__getitem__), activity.id])
                return ""
        fit, limit = self._first_fit(activity)
        if fit is None:
            nowhere = "does not fit into the hours and places left"
            is_free = self._ends_a_hold(activity.id) or self._brings_forward(activity.id)
            return "" if is_free else nowhere
        if limit is None:
            is_dip = activity.dip is not None
            self._take(self._batching.with_others(fit, self._bench) if is_dip else fit)
            return ""
        self._tries -= 1
        if self._tries > 0 and limit.moves in self._at:
            self._back_to(limit, fit, activity.id)
        elif not self._brings_forward(activity.id):
            return f"would start {limit.missed_by(fit)} min too late"
        return ""

    def _first_fit(self, activity: Activity) -> tuple[Fit | None, Limit | None]:
        """Return where it ends first, and the limit that is missed there the most, if any is."""
        floor, end_floor = self._bench.allowed.floors(activity, self._bench.floors)
        latest = self._bench.held.latest(activity.id)
        lifted = self._bench.held.lift(activity.id)
        tails = self._bench.held.tails((activity.id,))
        fits = self._bench.room.fits(activity, floor, end_floor, tails)
        for name in lifted:
            self._bench.held.settle(name)
        limits = self._bench.allowed.limits(activity)
        best: tuple[int, int, Fit | None, Limit | None] | None = None
        for fit in (fit for fit in fits if fit.start_min <= latest):
            limit = max(limits, key=lambda x: x.missed_by(fit), default=None)
            missed = 0 if limit is None else max(0, limit.missed_by(fit))
            found = (missed, fit.end_min, fit, limit if missed else None)
            if best is None or found[:2] < best[:2]:
                best = found
        return best[2:] if best else (None, None)

    def _back_to(self, limit: Limit, fit: Fit, name: str) -> None:
        """Take up what was laid since an activity, which now has to start later."""
        self._pending.append(name)
        batch: list[str] = []
        while limit.moves in self._placed:
            taken_up = self._laid.pop()
            self._take_up(taken_up)
            batch = [activity.id for activity, _ in taken_up.trial.members]
        if len(batch) > 1:
            self._batching.part(batch)
        else:
            self._bench.floors.move(limit, fit)

    def _ends_a_hold(self, name: str) -> bool:
        """Let what ends a hold come first, with all it waits for; tell whether any may."""
        self._tries -= 1
        if self._tries < 0:
            return False
        for hold in self._bench.held.begun():
            ending = self._laying.behind(hold.until, self._placed)
            if ending and name not in ending:
                self._put_next([*sorted(ending, key=self._at.__getitem__), name])
                return True
        return False

    def _brings_forward(self, name: str) -> bool:
        """Begin anew with an activity and all it waits for; tell whether it was not tried yet."""
        if name in self._brought_forward:
            return False
        self._brought_forward.add(name)
        self.clear()
        first = self._laying.behind((name,), self._placed)
        self._pending = list(reversed(self._order))
        self._put_next(sorted(first, key=self._at.__getitem__))
        return True

    def _put_next(self, names: Iterable[str]) -> None:
        self._pending += reversed(list(names))

    def _take(self, fit: Fit) -> None:
        fit.trial.take(fit.start_min, fit.end_min)
        self._laid.append(fit)
        for placed in fit.placed():
            self._placed[placed.id] = placed
            self._bench.held.settle(placed.id)
        for activity, _ in fit.trial.members:
            urgent = self._laying.soon_after(activity.id)
            if urgent:
                self._put_next(urgent)

    def _take_up(self, fit: Fit) -> None:
        names = [activity.id for activity, _ in fit.trial.members]
        for name in names:
            del self._placed[name]
            self._bench.held.settle(name)
        fit.trial.give_back(fit.start_min, fit.end_min)
        self._put_next(names)
