"""A problem in which only some of a plan may still move: the rest is pinned where it lies.

Of what is pinned only that is left which may be in the way of what moves: who is busy when, what
is taken of each place, the batches in its baths, and what lags, holds and due dates tie to it. So
the part is as quick to solve in a plan of fifty builds as in one of five.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.company import beside_in
from armorplan.schedule.lag_spans import opens_at
from armorplan.schedule.pinned_blocks import TakenPlaces, busy_people
from armorplan.schedule.problem import Hold, Job, Placed, Problem, Worker
from armorplan.solving.model import MOST

Lies = Mapping[str, Placed]
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A problem of its own, and the plan at hand in its terms."""

    problem: Problem
    placed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cut:
    """What is freed, of which plan, and from when till when it can lie.

    ``kept`` is what is pinned and stays an activity of its own.
    """

    lies: Lies
    free: frozenset[str]
    span: Window
    kept: frozenset[str] = frozenset()

    def meets(self, begin_min: int, end_min: int) -> bool:
        return begin_min < self.span[1] and self.span[0] < end_min


class Pinner:
    """Makes parts of one problem."""

    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._by_id = {a.id: a for a in problem.activities}
        self._lags = _touching((g, (g.first, g.then)) for g in problem.lags)
        self._rules = _touching((r, (r.first, *r.of)) for r in problem.before_last)
        self._holds = _touching((h, (h.first, *h.until)) for h in problem.holds)
        self._jobs = _touching((j, j.activities) for j in problem.jobs)
        self._dips = [a for a in problem.activities if a.dip is not None]
        self._takers = [
            a for a in problem.activities if a.demands or any(w.demands for w in a.ways)
        ]

    def part(
        self,
        placed: Iterable[Placed],
        free: frozenset[str],
        *,
        span: Window,
        beside: Iterable[str] = (),
    ) -> Part:
        """Return the problem with only ``free`` to be moved, all else being where the plan has it.

        What belongs together is to be freed together (``Grounds.closed``): a dip cannot join a
        batch that is pinned, since the batch would end later.

        Args:
            placed: the plan of all activities; it holds.
            free: what may move; none of it is fixed.
            span: nothing that is free lies outside, if the plan has it so.
            beside: what else is to be an activity of its own.
        """
        lies = {p.id: p for p in placed}
        low = max(span[0], self._low(lies, free))
        cut = _Cut(lies=lies, free=free, span=(self._opening(low, lies, free), span[1]))
        lags = _those_of(self._lags, free)
        rules = _those_of(self._rules, free)
        holds = _those_of(self._holds, free)
        jobs = tuple(self._job(job, cut) for job in _those_of(self._jobs, free))
        tied = {i for g in lags for i in (g.first, g.then)}
        tied.update(i for r in rules for i in (r.first, *r.of))
        tied.update(i for h in holds for i in (h.first, *h.until))
        tied.update(i for j in jobs for i in j.activities)
        tied.update(self._in_baths(cut), self._with_company(cut), beside)
        cut = replace(cut, kept=frozenset(tied - free))
        standing = [
            *(self._own(a, cut) for a in self._problem.activities if a.id in free | cut.kept),
            *self._busy(cut),
            *self._taken(cut, holds),
        ]
        part = replace(
            self._problem,
            activities=tuple(a for a, _ in standing),
            lags=lags,
            before_last=rules,
            holds=holds,
            jobs=jobs,
            workers=tuple(_in_span(w, cut) for w in self._problem.workers),
        )
        return Part(problem=part, placed=tuple(p for _, p in standing))

    def _low(self, lies: Lies, free: frozenset[str]) -> int:
        """Return a minute before which nothing free can start."""
        return min((self._soonest(self._by_id[i], lies, free) for i in free), default=0)

    def _opening(self, low: int, lies: Lies, free: frozenset[str]) -> int:
        """Return when the hours begin in which the first of what is free may lie."""
        low = min([low, *(lies[name].start_min for name in free)])
        hours = (w for worker in self._problem.workers for w in worker.windows)
        return min([low, *(begin for begin, end in hours if begin < low < end)])

    def _soonest(self, activity: Activity, lies: Lies, free: frozenset[str]) -> int:
        """Return what an activity cannot start before; one that waits for what is free says nothing."""
        into = [g for _, g in self._lags.get(activity.id, ()) if g.then == activity.id]
        pinned = [opens_at(g, lies[g.first].end_min) for g in into if g.first not in free]
        if any(g.first in free and g.min_lag >= 0 for g in into):
            return MOST
        return max([0, activity.earliest_min, *pinned])

    def _own(self, activity: Activity, cut: _Cut) -> tuple[Activity, Placed]:
        at = cut.lies[activity.id]
        if activity.id in cut.free:
            earliest = max(activity.earliest_min, cut.span[0])
            return replace(activity, earliest_min=earliest), at
        return pinned_at(activity, at), at

    def _job(self, job: Job, cut: _Cut) -> Job:
        """Return a job with what is free of it, and what ends last of the rest."""
        rest = [i for i in job.activities if i not in cut.free]
        last = max(rest, key=lambda i: (cut.lies[i].end_min, i), default=None)
        mine = tuple(i for i in job.activities if i in cut.free or i == last)
        return replace(job, activities=mine)

    def _in_baths(self, cut: _Cut) -> Iterator[str]:
        """Yield the pinned dips of baths in question: in the span, and the batches next to it."""
        asked = {w.bath for i in cut.free if self._by_id[i].dip for w in self._by_id[i].ways}
        batches: dict[str, dict[int, list[str]]] = {}
        for activity in self._dips if asked else ():
            at = cut.lies[activity.id]
            way = activity.way(at.who, at.mode)
            if way is not None and way.bath in asked and activity.id not in cut.free:
                batches.setdefault(way.bath, {}).setdefault(at.start_min, []).append(activity.id)
        for started in batches.values():
            before = [start for start in started if start < cut.span[0]]
            after = [start for start in started if start >= cut.span[1]]
            # One more than needed: a long one before may still lie in the span.
            ends = {*sorted(before)[-2:], *sorted(after)[:1]}
            for start, names in started.items():
                if start in ends or cut.span[0] <= start < cut.span[1]:
                    yield from names

    def _with_company(self, cut: _Cut) -> Iterator[str]:
        """Yield what is pinned and needs more than one person."""
        for activity in self._problem.activities:
            at = cut.lies[activity.id]
            is_in_company = activity.also or (activity.modes and beside_in(activity, at))
            if is_in_company and cut.meets(at.start_min, at.end_min):
                yield activity.id

    def _busy(self, cut: _Cut) -> Iterator[tuple[Activity, Placed]]:
        """Yield, for everybody, the stretches in which what is pinned keeps them."""
        free = [self._by_id[name] for name in cut.free]
        asked = {who for a in free for way in a.ways for who in a.there(way)}
        busy: dict[str, list[Window]] = {}
        for name, at in cut.lies.items():
            is_pinned = name not in cut.free and name not in cut.kept
            if is_pinned and at.who in asked and at.who and cut.meets(at.start_min, at.end_min):
                busy.setdefault(at.who, []).append((at.start_min, at.end_min))
        yield from busy_people(busy)

    def _taken(self, cut: _Cut, holds: tuple[Hold, ...]) -> Iterator[tuple[Activity, Placed]]:
        """Yield what is taken of each place by what is pinned, stretch by stretch."""
        taken = TakenPlaces()
        for activity in self._takers:
            at = cut.lies[activity.id]
            is_pinned = activity.id not in cut.free and activity.id not in cut.kept
            if is_pinned and cut.meets(at.start_min, at.end_min):
                taken.take_for(activity, at)
        mine = set(map(id, holds))
        for hold in self._problem.holds:
            if id(hold) not in mine and hold.until:
                begin = cut.lies[hold.first].end_min
                till = max(cut.lies[i].start_min for i in hold.until)
                if cut.meets(begin, till):
                    taken.take(hold.resource, (begin, till), hold.amount)
        yield from taken.blocks()


def pinned_at(activity: Activity, placed: Placed) -> Activity:
    """Return an activity that is done as it was planned; it has no other way left."""
    if activity.fixed_start_min is not None:
        return activity
    modes = tuple(m for m in activity.modes if (m.who, m.name) == (placed.who, placed.mode))
    return replace(
        activity,
        people=() if placed.who is None else (placed.who,),
        modes=modes,
        fixed_start_min=placed.start_min,
        fixed_end_min=placed.end_min,
        fixed_who=placed.who,
        fixed_mode=placed.mode,
    )


def merged_plan(
    whole: Iterable[Placed], moved: Iterable[Placed], free: frozenset[str]
) -> tuple[Placed, ...]:
    """Return a plan in which what was free lies as in ``moved`` and the rest as it lay."""
    news: Mapping[str, Placed] = {p.id: p for p in moved if p.id in free}
    return tuple(news.get(p.id, p) for p in whole)


def _touching(said: Iterable[tuple[_T, Iterable[str]]]) -> dict[str, list[tuple[int, _T]]]:
    """Return what is said of each activity, with its place among all."""
    found: dict[str, list[tuple[int, _T]]] = {}
    for at, (thing, names) in enumerate(said):
        for name in set(names):
            found.setdefault(name, []).append((at, thing))
    return found


def _those_of(
    touching: Mapping[str, list[tuple[int, _T]]], free: frozenset[str]
) -> tuple[_T, ...]:
    """Return what is said of any of these, in its order and once."""
    found = dict(entry for name in free for entry in touching.get(name, ()))
    return tuple(found[at] for at in sorted(found))


def _in_span(worker: Worker, cut: _Cut) -> Worker:
    return replace(worker, windows=tuple(w for w in worker.windows if cut.meets(*w)))
