"""What a build waits for longest on the way to its end, as a plan has it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.lag_spans import opens_at
from armorplan.schedule.measures import job_end
from armorplan.schedule.problem import Job, Lag, Placed, Plan, Problem

_SHORT_MIN = 240
"""Shorter waits are those of any day."""
_MOST = 2


class Because(StrEnum):
    """What is waited for."""

    DRIES = "dries"
    RESTS = "rests"
    AWAY = "away"
    BUSY = "busy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A stretch in which nothing goes on for a build.

    ``of`` is the activity that dries, rests or waits for hands and places, or the person away.
    """

    because: Because
    of: str
    window: Window

    @property
    def minutes(self) -> int:
        """How long it is."""
        return self.window[1] - self.window[0]


def longest_waits(problem: Problem, plan: Plan, job: Job) -> tuple[Wait, ...]:
    """Return the longest waits on the way to a build's end, in order of time; none below 4 h."""
    found = sorted(_Way(problem, plan).back_from(job), key=lambda w: (-w.minutes, w.window))
    long = [wait for wait in found if wait.minutes >= _SHORT_MIN][:_MOST]
    return tuple(sorted(long, key=lambda wait: wait.window))


class _Way:
    def __init__(self, problem: Problem, plan: Plan) -> None:
        self._lies = {p.id: p for p in plan.placed}
        self._by_id = {a.id: a for a in problem.activities}
        self._hours = {w.id: w.windows for w in problem.workers}
        self._before: dict[str, list[Lag]] = {}
        for lag in problem.lags:
            self._before.setdefault(lag.then, []).append(lag)

    def back_from(self, job: Job) -> Iterator[Wait]:
        """Yield every wait from the end of a build back to its begin."""
        end = job_end(job, self._lies)
        last = (i for i in job.activities if i in self._lies and self._lies[i].end_min == end)
        at: Activity | None = next((self._by_id[i] for i in last), None)
        while at is not None and at.fixed_start_min is None:
            here = self._lies[at.id]
            if not at.people:
                yield Wait(because=Because.DRIES, of=at.id, window=(here.start_min, here.end_min))
            former, ready = self._ready(at)
            if former is not None and former.end_min < ready:
                window = (former.end_min, ready)
                yield Wait(because=Because.RESTS, of=former.id, window=window)
            if ready < here.start_min:
                yield self._gap(at, (ready, here.start_min))
            at = None if former is None else self._by_id[former.id]

    def _ready(self, activity: Activity) -> tuple[Placed | None, int]:
        """Return what it waits for last, and when that lets it start."""
        start = self._lies[activity.id].start_min
        let: list[tuple[int, Placed]] = []
        for lag in self._before.get(activity.id, ()):
            first = self._lies.get(lag.first)
            if first is not None and first.start_min < start:
                let.append((opens_at(lag, first.end_min), first))
        if not let:
            return None, max(0, activity.earliest_min)
        ready, former = max(let, key=lambda each: (each[0], each[1].id))
        return former, min(start, max(ready, activity.earliest_min))

    def _gap(self, activity: Activity, gap: Window) -> Wait:
        """Return why it does not start although it could: the longest part of it."""
        groups = [(who,) for who in activity.also] + [activity.people]
        waits = [
            Wait(because=Because.AWAY, of=group[0], window=window)
            for group in groups
            if group
            for window in _outside([w for who in group for w in self._hours.get(who, ())], gap)
        ]
        away = max(waits, key=lambda wait: wait.minutes, default=None)
        if away is not None and 2 * away.minutes >= gap[1] - gap[0]:
            return away
        return Wait(because=Because.BUSY, of=activity.id, window=gap)


def _outside(hours: Iterable[Window], gap: Window) -> Iterator[Window]:
    """Yield the parts of a gap in no hours."""
    at = gap[0]
    for begin, end in sorted(hours):
        if end <= at or begin >= gap[1]:
            continue
        if begin > at:
            yield at, begin
        at = max(at, end)
    if at < gap[1]:
        yield at, gap[1]
