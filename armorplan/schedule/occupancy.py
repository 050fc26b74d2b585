"""Everybody's free time, every place and every bath while a plan is laid."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from armorplan.schedule.activity import Activity, Demand, Mode
from armorplan.schedule.company import everybody
from armorplan.schedule.free_time import FreeTime, PausedTime
from armorplan.schedule.levels import Level
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.spans import ends_by, placed_by_history
from armorplan.schedule.trials import Fit, Later, Part, Tail, Trial, later_by, later_by_shift
from armorplan.schedule.vats import Vat

Member = tuple[Activity, Mode]


class Occupancy:
    """What is free of a problem's people, places and baths; history takes its part if asked to.

    Attributes:
        in_pairs: what may be done with somebody beside is tried so; else only where no other way is.
    """

    def __init__(self, problem: Problem) -> None:
        self.horizon_min = problem.horizon_min
        self.levels = {r.id: Level(r.capacity) for r in problem.resources}
        self._windows = {w.id: w.windows for w in problem.workers}
        self._hours = {w.id: FreeTime(w.windows) for w in problem.workers}
        self._hands = {w.id: FreeTime(w.windows) for w in problem.workers}
        self._opens = {
            r.id: FreeTime(r.windows) for r in problem.resources if r.windows is not None
        }
        self._vats = {bath.id: Vat(bath) for bath in problem.baths}
        self._trials: dict[str, tuple[Trial, ...]] = {}
        self._alone: dict[str, tuple[Trial, ...]] = {}
        self.in_pairs = True

    def first_fit(self, activity: Activity, floor_min: int) -> Placed | None:
        """Return the place that ends first, from ``floor_min`` on; among equals the first way.

        ``None`` where nothing fits within the horizon, or by its latest start.
        """
        latest = activity.latest_start_min
        fits = [
            fit
            for fit in self.fits(activity, floor_min)
            if latest is None or fit.start_min <= latest
        ]
        best = min(fits, key=lambda fit: fit.end_min, default=None)
        return None if best is None else best.placed()[0]

    def fits(
        self,
        activity: Activity,
        floor_min: int,
        end_floor_min: int = 0,
        tails: Iterable[Tail] = (),
    ) -> list[Fit]:
        """Return where it lies first in each of its ways: not before, and not ended before."""
        fits = [
            fit
            for trial in self.trials(activity)
            if (fit := trial.fit(floor_min, end_floor_min, self.horizon_min, tails)) is not None
        ]
        if activity.dip is not None:
            joined = self._joined(activity, floor_min)
            fits += [f for f in joined if f.trial.may_end(f.end_min, end_floor_min, tails)]
        return fits

    def trials(self, activity: Activity) -> tuple[Trial, ...]:
        """Return its ways as trials; a dip's by itself, each in a bath there is."""
        known = self._trials.get(activity.id)
        if known is None:
            ways = activity.ways
            if activity.dip is not None:
                amount, baths = activity.dip.amount, self._vats
                ways = tuple(
                    w for w in ways if w.bath in baths and amount <= baths[w.bath].capacity
                )
            known = tuple(self.batch(((activity, way),)) for way in ways)
            self._trials[activity.id] = known
            if activity.in_pairs:
                alone = tuple(trial for trial in known if not trial.members[0][1].also)
                self._alone[activity.id] = alone or known
        return known if self.in_pairs else self._alone.get(activity.id, known)

    def batch(self, members: Sequence[Member]) -> Trial:
        """Return a trial of one activity, or of dips that go into a bath together.

        Together they are one family's, in one bath, by one person, and not more than it holds.
        """
        activity, way = members[0]
        paused = self._paused(activity, way)
        ends = _ends(members) if paused is None else paused.ends
        # What takes no time takes no hands either, only somebody being there.
        takes_none = activity.table is None and paused is None and ends(0) == 0
        free = self._hours if takes_none else self._hands
        people = [free.get(person) for person in _people(members)]
        parts: list[Part]
        if paused is None:
            parts = [_in_hours(person, ends) for person in people]
        else:
            parts = [paused.first_fit]
        demands = [d for a, w in members for d in (*a.demands, *w.demands)]
        levels = self._taken(demands) if demands else ()
        if demands:
            parts += [_in_hours(opening, ends) for opening in self._openings(demands)]
            parts += [_at_level(level, ends, amount) for level, amount in levels]
        vat = None
        if activity.dip is not None:
            vat = self._vats[way.bath], activity.dip.family
            parts.append(_in_vat(vat, ends))
        return Trial(
            members=tuple(members),
            ends=ends,
            later=_later(activity, paused, ends),
            parts=tuple(parts),
            hands=() if takes_none else tuple(p for p in people if p is not None),
            levels=levels,
            vat=vat,
            shut=tuple(w for a, _ in members if a.table is None for w in a.ends_outside),
        )

    def bath_holds(self, way: Mode) -> int:
        """Return what the bath of a way holds."""
        return self._vats[way.bath].capacity

    def take_history(self, problem: Problem) -> tuple[Placed, ...]:
        """Take what the fixed activities take, where they lie; return where."""
        history = placed_by_history(problem)
        by_id = {a.id: a for a in problem.activities}
        for placed in history:
            activity = by_id[placed.id]
            way = activity.way(placed.who, placed.mode)
            for person in everybody(activity, placed):
                if person in self._hands:
                    self._hands[person].take(placed.start_min, placed.end_min)
            demands = (*activity.demands, *(way.demands if way else ()))
            for demand in demands:
                level = self.levels[demand.resource]
                level.take(placed.start_min, placed.end_min, demand.amount)
            if activity.dip is not None and way is not None and way.bath in self._vats:
                self._vats[way.bath].take_past(activity, way, placed)
        return history

    def _paused(self, activity: Activity, way: Mode) -> PausedTime | None:
        sitting_min = activity.sitting(way)
        if not (sitting_min and way.minutes and way.who in self._hands):
            return None
        hands = self._hands[way.who]
        return PausedTime(self._windows[way.who], hands, way.minutes, sitting_min)

    def _taken(self, demands: Iterable[Demand]) -> tuple[tuple[Level, int], ...]:
        amounts: dict[str, int] = {}
        for demand in demands:
            amounts[demand.resource] = amounts.get(demand.resource, 0) + demand.amount
        return tuple((self.levels[name], amount) for name, amount in amounts.items())

    def _openings(self, demands: Iterable[Demand]) -> list[FreeTime]:
        names = dict.fromkeys(d.resource for d in demands)
        return [self._opens[name] for name in names if name in self._opens]

    def _joined(self, activity: Activity, floor_min: int) -> list[Fit]:
        """Return the batches of history that a dip may have been part of, where it still fits."""
        found = []
        for trial in self.trials(activity):
            _, way = trial.members[0]
            people = (*((way.who,) if way.who else ()), *way.also)
            hours = [self._hours[person] for person in people if person in self._hours]
            opens = [*hours, *self._openings((*activity.demands, *way.demands))]
            for start, end in self._vats[way.bath].joined(activity, way):
                is_open = all(free.is_free(start, end) for free in opens)
                has_room = all(
                    level.full_till(start, end, n) == start for level, n in trial.levels
                )
                if is_open and has_room and start >= floor_min:
                    found.append(Fit(start, end, replace(trial, hands=(), vat=None)))
        return found


def _people(members: Sequence[Member]) -> Iterable[str]:
    """Return who has to be there: who does it, and who else; each once."""
    activity, way = members[0]
    if len(members) == 1:
        return activity.there(way)
    return dict.fromkeys(person for a, w in members for person in a.there(w))


def _ends(members: Sequence[Member]) -> Callable[[int], int]:
    activity, way = members[0]
    if activity.table is not None:
        return activity.table.ready_at
    if activity.dip is None:
        return ends_by(way.minutes)
    set_up = max(a.dip.set_up_min if a.dip else 0 for a, _ in members)
    return ends_by(set_up + sum(way.minutes for _, way in members))


def _later(activity: Activity, paused: PausedTime | None, ends: Callable[[int], int]) -> Later:
    if paused is not None:
        return paused.later
    return later_by_shift if activity.table is None else later_by(ends)


def _in_hours(free: FreeTime | None, ends: Callable[[int], int]) -> Part:
    return lambda start: None if free is None else free.first_fit(start, ends)


def _at_level(level: Level, ends: Callable[[int], int], amount: int) -> Part:
    return lambda start: level.first_fit(start, ends, amount)


def _in_vat(vat: tuple[Vat, str], ends: Callable[[int], int]) -> Part:
    bath, family = vat
    return lambda start: bath.first_fit(start, ends, family)
