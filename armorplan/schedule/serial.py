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
from armorplan.schedule.allowed import Allowed, Floors, Limit
from armorplan.schedule.held import HeldPlaces
from armorplan.schedule.lag_cycle import title
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Laying, Rank
from armorplan.schedule.trials import Fit

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
        yield _Placing(problem, laying, rank).run()


class _Placing:
    """One serial plan in the making: a stack of what is laid, and a stack of what is still to be.

    What is to be laid may stand there several times; only the first time counts.
    """

    def __init__(self, problem: Problem, laying: Laying, rank: Mapping[str, Rank]) -> None:
        self._problem = problem
        self._laying = laying
        self._order = laying.order(rank)
        self._at = {name: at for at, name in enumerate(self._order)}
        self._by_id = {a.id: a for a in problem.activities}
        self._room = Occupancy(problem)
        self._placed: dict[str, Placed] = {}
        self._held = HeldPlaces(problem, self._room.levels, self._placed)
        self._allowed = Allowed(problem, self._room, self._placed)
        self._floors = Floors()
        self._laid: list[Fit] = []
        self._pending = list(reversed(self._order))
        self._brought_forward: set[str] = set()
        self._tries = _TRIES_EACH * len(self._order)
        for placed in self._room.take_history(problem):
            self._placed[placed.id] = placed
        for activity in problem.activities:
            if activity.fixed_start_min is not None:
                self._held.settle(activity.id)

    def run(self) -> tuple[Placed, ...] | Stuck:
        """Place one after another; go back where a maximum lag asks for it."""
        while self._pending:
            name = self._pending.pop()
            if name in self._placed:
                continue
            stuck = self._lay(self._by_id[name])
            if stuck:
                text = f"{title(self._problem, name)} {stuck}"
                return Stuck(activity=name, text=text)
        return tuple(self._placed[a.id] for a in self._problem.activities)

    def _lay(self, activity: Activity) -> str:
        """Lay an activity, or make room for it; return what is in the way where that fails."""
        fit, limit = self._first_fit(activity)
        if fit is None:
            nowhere = "does not fit into the hours and places left"
            is_free = self._ends_a_hold(activity.id) or self._brings_forward(activity.id)
            return "" if is_free else nowhere
        if limit is None:
            self._take(fit)
            return ""
        self._tries -= 1
        if self._tries > 0 and limit.moves in self._at:
            self._back_to(limit, fit, activity.id)
        elif not self._brings_forward(activity.id):
            return f"would start {limit.missed_by(fit)} min too late"
        return ""

    def _first_fit(self, activity: Activity) -> tuple[Fit | None, Limit | None]:
        """Return where it ends first, and the limit that is missed there the most, if any is."""
        floor, end_floor = self._allowed.floors(activity, self._floors)
        lifted = self._held.lift(activity.id)
        tails = self._held.tails(activity.id)
        fits = self._room.fits(activity, floor, end_floor, tails)
        for name in lifted:
            self._held.settle(name)
        limits = self._allowed.limits(activity)
        best: tuple[int, int, Fit | None, Limit | None] | None = None
        for fit in fits:
            limit = max(limits, key=lambda x: x.missed_by(fit), default=None)
            missed = 0 if limit is None else max(0, limit.missed_by(fit))
            found = (missed, fit.end_min, fit, limit if missed else None)
            if best is None or found[:2] < best[:2]:
                best = found
        return best[2:] if best else (None, None)

    def _back_to(self, limit: Limit, fit: Fit, name: str) -> None:
        """Take up what was laid since an activity, which now has to start later."""
        self._floors.move(limit, fit)
        self._pending.append(name)
        while limit.moves in self._placed:
            self._take_up(self._laid.pop())

    def _ends_a_hold(self, name: str) -> bool:
        """Let what ends a hold come first, with all it waits for; tell whether any may."""
        self._tries -= 1
        if self._tries < 0:
            return False
        for hold in self._held.begun():
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
        while self._laid:
            self._take_up(self._laid.pop())
        self._floors = Floors()
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
            self._held.settle(placed.id)

    def _take_up(self, fit: Fit) -> None:
        names = [activity.id for activity, _ in fit.trial.members]
        for name in names:
            del self._placed[name]
            self._held.settle(name)
        fit.trial.give_back(fit.start_min, fit.end_min)
        self._put_next(names)
