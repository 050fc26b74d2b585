"""How good a plan can be at the very best: proved without a solver, in milliseconds."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.burdens import Times, Waits, burdens, groups_of, hands_minutes, hours_of
from armorplan.schedule.critical import tails_of
from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.loads import load_bound
from armorplan.schedule.measures import any_due
from armorplan.schedule.network import ORIGIN, Arc, arcs_of, longest_paths, shortest
from armorplan.schedule.problem import Job, Lag, Problem
from armorplan.schedule.soonest import earliest_times
from armorplan.schedule.spans import most_minutes
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS, MOVED

_MOST_DUES = 8
"""So many due dates are looked at for all that is due by then."""


def earliest_starts(problem: Problem) -> dict[str, int]:
    """Return for every activity a minute it cannot start before: lags and hours, each by itself.

    What does not fit into the hours at all gets the horizon. The lags have to be free of rings
    (``lag_cycle``).
    """
    return earliest_times(problem).starts


def finish_bound(problem: Problem) -> int:
    """Return a minute no plan can finish before.

    The greatest of several bounds: every step at its first fit as if it were alone, lags kept;
    and all that has to be done by the same people, in the same place or the same baths, which has
    to fit into the hours there are. Raises ValueError where the lags contradict each other.
    """
    return _Bounds(problem).finish()


def lateness_bound(problem: Problem) -> int:
    """Return the lateness that every plan has, each build's minutes times its weight."""
    return _Bounds(problem).lateness()


def stage_bounds(problem: Problem) -> dict[str, int]:
    """Return what every plan has at the least, stage by stage, as ``measures.goals`` has them."""
    bounds = _Bounds(problem)
    found = {LATENESS: bounds.lateness()} if any_due(problem) else {}
    if problem.stood:
        found[MOVED] = bounds.moved()
    found[FINISH] = bounds.finish()
    if problem.workers or problem.baths:
        baths = fewest_batches(problem) + fewest_colour_changes(problem)
        found[CHANGES] = baths + fewest_times_at_bench(problem)
    found[JUMPS] = 0
    if any(a.soon for a in problem.activities):
        found[FITS] = bounds.fits()
    return found


def fewest_batches(problem: Problem) -> int:
    """Return how many batches have to be set up at the least: each bath filled to its capacity.

    Of a family of which some lies in history already any may turn out to have gone in with that.
    """
    capacity = {bath.id: bath.capacity for bath in problem.baths}
    room: dict[str, int] = {}
    amount: dict[str, int] = {}
    in_history = set()
    for activity in problem.activities:
        rooms = [capacity[way.bath] for way in activity.ways if way.bath in capacity]
        if activity.dip is None or not rooms:
            continue
        family = activity.dip.family
        if activity.fixed_start_min is not None:
            in_history.add(family)
        room[family] = max(room.get(family, 1), *rooms)
        amount[family] = amount.get(family, 0) + activity.dip.amount
    counted = sorted(amount.keys() - in_history)
    return sum(max(1, -(-amount[family] // room[family])) for family in counted)


def fewest_colour_changes(problem: Problem) -> int:
    """Return how often baths have to change their colour at the least.

    Of the families that only the same baths take, each bath holds one without a change.
    """
    held = {bath.id: bath.holds for bath in problem.baths}
    families: dict[frozenset[str], set[str]] = {}
    for activity in problem.activities:
        if activity.dip is not None and activity.fixed_start_min is None:
            can = frozenset(way.bath for way in activity.ways if way.bath in held)
            families.setdefault(can, set()).add(activity.dip.family)
    fewest = 0
    for group in families:
        here = {f for can, mine in families.items() if can <= group for f in mine}
        unchanged = sum(held[name] == "" or held[name] in here for name in group)
        fewest = max(fewest, len(here) - unchanged)
    return fewest


def fewest_times_at_bench(problem: Problem) -> int:
    """Return in how many stretches of hours people have something to do at the least."""
    free = [a for a in problem.activities if a.fixed_start_min is None and a.people]
    fewest = 0
    for group in groups_of(problem, free):
        alone = (replace(a, also=()) for a in free)  # Who only comes for it does not count.
        left = sum(hands_minutes(a, group) for a in alone)
        hours = (w for worker in problem.workers if worker.id in group for w in worker.windows)
        count = 0
        for length in sorted((end - start for start, end in hours), reverse=True):
            if left <= 0:
                break
            left -= length
            count += 1
        fewest = max(fewest, count)
    return fewest


@dataclass(frozen=True, slots=True, kw_only=True)
class _Needed:
    """Minutes needed from the start, and from the end, of each activity on."""

    from_start: Mapping[str, int]
    from_end: Mapping[str, int]


class _Bounds:
    def __init__(self, problem: Problem) -> None:
        self._problem = problem
        self._minutes = {a.id: shortest(a) for a in problem.activities}
        arcs = arcs_of(problem)
        if longest_paths(arcs)[1]:
            raise ValueError("The lags contradict each other.")
        self._arcs = arcs
        self._waits = Waits(problem)
        self._soonest = earliest_times(problem)
        self._whole = self._needed(arcs, problem.lags)

    def finish(self) -> int:
        """Return a minute no plan can finish before."""
        return self._end_of(self._problem.activities, self._whole)

    def fits(self) -> int:
        """Return what the starts of all that should be soon add up to at the least."""
        starts = self._soonest.starts
        return sum(starts[a.id] for a in self._problem.activities if a.soon)

    def moved(self) -> int:
        """Return how many steps cannot start where they stood, whatever the rest does."""
        starts = self._soonest.starts
        free = {a.id for a in self._problem.activities if a.fixed_start_min is None}
        return sum(starts[p.id] > p.start_min for p in self._problem.stood if p.id in free)

    def lateness(self) -> int:
        """Return the lateness every plan has: each build by itself, and all of them together."""
        due = [job for job in self._problem.jobs if job.due_min is not None]
        if not due:
            return 0
        own = self._needed_in_jobs()
        by_id = {a.id: a for a in self._problem.activities}
        mine = {job.id: [by_id[name] for name in job.activities] for job in due}
        ends = {job.id: self._end_of(mine[job.id], own) for job in due}
        each = sum(job.weight * max(0, ends[job.id] - (job.due_min or 0)) for job in due)
        return max(each, self._of_the_last(due, mine, own), self._in_turn(due, mine, ends))

    def _of_the_last(
        self, due: list[Job], mine: Mapping[str, list[Activity]], own: _Needed
    ) -> int:
        """Return the lateness of the last to end of all that are due by some minute."""
        worst = 0
        dues = sorted({job.due_min or 0 for job in due})
        for by in dues[:: -(-len(dues) // _MOST_DUES)]:
            jobs = [job for job in due if (job.due_min or 0) <= by]
            end = self._end_of([a for job in jobs for a in mine[job.id]], own)
            worst = max(worst, min(job.weight for job in jobs) * (end - by))
        return worst

    def _in_turn(
        self, due: list[Job], mine: Mapping[str, list[Activity]], ends: Mapping[str, int]
    ) -> int:
        """Return the lateness of builds whose hands-on work is done as if the shortest came first.

        The k-th build to end does so no sooner than the k smallest of them fit into the hours.
        """
        everybody = frozenset(worker.id for worker in self._problem.workers)
        hours = hours_of(self._problem, everybody)
        work = sorted(
            sum(hands_minutes(a, everybody) for a in mine[job.id] if a.fixed_start_min is None)
            for job in due
        )
        dues = sorted(job.due_min or 0 for job in due)
        late = done = 0
        for minutes, end, by in zip(work, sorted(ends.values()), dues, strict=True):
            done += minutes
            late += max(0, max(end, hours.reached(done)) - by)
        return late * min(job.weight for job in due)

    def _end_of(self, activities: Iterable[Activity], needed: _Needed) -> int:
        """Return a minute before which not all of these, with what follows them, can be done."""
        starts, ends = self._soonest
        mine = list(activities)
        alone = [
            max(starts[a.id] + needed.from_start[a.id], ends[a.id] + needed.from_end[a.id])
            for a in mine
        ]
        times = Times(starts, ends, needed.from_start, needed.from_end)
        free = [a for a in mine if a.fixed_start_min is None]
        together = [
            load_bound(b.loads, b.hours) for b in burdens(self._problem, self._waits, free, times)
        ]
        return max([0, *alone, *together])

    def _needed_in_jobs(self) -> _Needed:
        """Return what is needed after each activity until its own build ends."""
        job_of = {name: job.id for job in self._problem.jobs for name in job.activities}
        arcs = [
            arc
            for arc in self._arcs
            if ORIGIN not in (arc.tail, arc.head) and job_of.get(arc.tail) == job_of.get(arc.head)
        ]
        lags = [g for g in self._problem.lags if job_of.get(g.first) == job_of.get(g.then)]
        return self._needed(arcs, lags)

    def _needed(self, arcs: Iterable[Arc], lags: Iterable[Lag]) -> _Needed:
        from_start = tails_of(arcs, self._minutes)
        from_end = dict.fromkeys(self._minutes, 0)
        for activity in self._problem.activities:
            name, takes = activity.id, self._minutes[activity.id]
            if activity.fixed_start_min is None and most_minutes(activity, 2**40) == takes:
                from_end[name] = from_start[name] - takes
        free = {a.id for a in self._problem.activities if a.fixed_start_min is None}
        for lag in lags:
            if lag.first in free or lag.then in free:
                wait = least_wait(lag) + from_start[lag.then]
                from_end[lag.first] = max(from_end[lag.first], wait)
        return _Needed(from_start=from_start, from_end=from_end)
