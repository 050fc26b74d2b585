"""Goes through a plan's policy, all runs at once: one row of minutes for each piece of work."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from armorplan.schedule.problem import Lag
from armorplan.schedule.promise.diary import Diary
from armorplan.schedule.promise.hours import Hours
from armorplan.schedule.promise.policy import Closing, Part, Wait
from armorplan.schedule.promise.tables import LookUp
from armorplan.schedule.table import Table

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Flags, Rows

_TRIES = 8
"""So often a start is put off for a window that would close before its time."""
_HAIR = 0.5
"""A window is not missed by less than half a minute."""


class Going:
    """All runs of a policy.

    A person does things in the plan's order, but who would stand idle, since a drying or an
    appointment is waited for, does meanwhile what comes later and fits. Nothing else is known before it happens: a start is made where the minutes reckoned for it fit, and
    what is damp is begun only where what follows fits as reckoned. What then takes longer shifts
    what comes after, and where that is too late for a window, the damp work is done again.

    Attributes:
        starts, ends: by piece of work, the minutes in each run.
        missed: by piece of work, in how many runs its window was missed.
    """

    def __init__(
        self,
        parts: Sequence[Part],
        factors: Mapping[str, "Doubles"],
        *,
        runs: int,
        is_patient: bool = False,
    ) -> None:
        """Go through all runs; ``is_patient``: as if no window ever closed."""
        self._parts = parts
        self._factors = factors
        self._runs = runs
        self._is_patient = is_patient
        known = {w: Hours(w) for w in {p.windows for p in parts} if w is not None}
        self._hours = [None if p.windows is None else known[p.windows] for p in parts]
        people = sorted({person for part in parts for person in part.work.people})
        self._diaries = {person: Diary(runs) for person in people}
        self._betweens: dict[tuple[int, int], int] = {}
        self._looked_up: dict[int, LookUp] = {}
        self.starts: list[Doubles] = []
        self.ends: list[Doubles] = []
        self.missed: dict[int, int] = {}
        for k, part in enumerate(parts):
            start = self._history(part) if part.work.is_history else self._start(k, part)
            end = self._end(k, part, start)
            self.starts.append(start)
            self.ends.append(end)
            for person in part.work.people:
                self._diaries[person].book(start, end)

    def _history(self, part: Part) -> "Doubles":
        import numpy as np

        return np.full(self._runs, float(part.work.first.fixed_start_min or 0))

    def _end(self, k: int, part: Part, start: "Doubles") -> "Doubles":
        import numpy as np

        first = part.work.first
        if part.work.is_history and first.fixed_end_min is not None:
            return np.full(self._runs, float(first.fixed_end_min))
        minutes = self._minutes(k, start, slice(None))
        hours = self._hours[k]
        if hours is not None and (first.sitting_min or not part.work.is_history):
            end = hours.end(start, minutes, pausable=bool(first.sitting_min))
        else:
            end = start + minutes
        # What runs at the origin has not ended before it.
        return np.maximum(end, 0.0) if part.work.is_history else end

    def _minutes(self, k: int, start: "Doubles", rows: "slice | Rows") -> "Doubles":
        """Return what it takes in those runs that start then."""
        import numpy as np

        work = self._parts[k].work
        table = work.first.table
        if table is not None:
            own = self._factors.get(work.first.id)
            taken = self._look_up(table).ready_at(start) - start
            return taken if own is None else taken * own[rows]
        total = np.full(start.shape, float(work.set_up_min))
        for member in work.members:
            own = self._factors.get(member.activity.id)
            total += member.way.minutes if own is None else member.way.minutes * own[rows]
        return total

    def _reckoned(self, k: int, start: "Doubles") -> "Doubles | float":
        """Return what it takes as far as is known beforehand."""
        work = self._parts[k].work
        if work.first.table is not None:
            return self._look_up(work.first.table).ready_at(start) - start
        return float(work.minutes)

    def _look_up(self, table: Table) -> LookUp:
        if id(table) not in self._looked_up:
            self._looked_up[id(table)] = LookUp(table)
        return self._looked_up[id(table)]

    def _start(self, k: int, part: Part) -> "Doubles":
        import numpy as np

        start = self._free(k, self._floor(k, k), np.arange(self._runs))
        if part.ahead and not self._is_patient:
            start = self._put_off(k, start)
        for closing in part.closings:
            if not self._is_patient:
                self._within(k, closing, start)
        return start

    def _floor(self, k: int, before: int) -> "Doubles":
        """Return the first starts that its waits for what comes before a piece allow."""
        import numpy as np

        part = self._parts[k]
        floor = np.full(self._runs, float(part.floor_min))
        for wait in part.waits:
            if wait.of < before:
                np.maximum(floor, self._allowed(k, wait), out=floor)
        return floor

    def _allowed(self, k: int, wait: Wait) -> "Doubles":
        moment = self.starts[wait.of] if wait.since_start else self.ends[wait.of]
        if wait.opens is not None:
            moment = self._opens(moment, wait.gap_min, wait.opens)
        elif wait.gap_min:
            moment = moment + wait.gap_min
        if wait.till_end and self._parts[k].work.first.table is None:
            moment = moment - self._minutes(k, moment, slice(None))
        return moment

    def _opens(self, end: "Doubles", gap_min: int, table: Table | None) -> "Doubles":
        import numpy as np

        opened = end + gap_min
        return opened if table is None else np.maximum(opened, self._look_up(table).ready_at(end))

    def _latest(self, end: "Doubles", lag: Lag) -> "Doubles":
        import numpy as np

        latest = np.full(end.shape, np.inf) if lag.max_lag is None else end + lag.max_lag
        if lag.closes is not None:
            latest = np.minimum(latest, self._look_up(lag.closes).open_till(end))
        return latest

    def _fit(self, k: int, since: "Doubles") -> "Doubles":
        """Return the first starts within its hours that let the minutes reckoned end in them."""
        work, hours = self._parts[k].work, self._hours[k]
        minutes = work.minutes
        if work.first.sitting_min:
            minutes = min(minutes, work.first.sitting_min)
        start = since if hours is None else hours.fit(since, minutes)
        if not work.first.ends_outside:
            return start
        for _ in range(_TRIES):
            later = _after_shut(start + work.minutes, work.first.ends_outside) - work.minutes
            if not (later > start).any():
                break
            start = later if hours is None else hours.fit(later, minutes)
        return start

    def _free(self, k: int, since: "Doubles", rows: "Rows") -> "Doubles":
        """Return the first starts within hours at which all its people are free, in these runs."""
        start = self._fit(k, since)
        people = self._parts[k].work.people
        for _ in range(_TRIES if people else 0):
            minutes, before = self._minutes(k, start, rows), start
            for person in people:
                start = self._diaries[person].free(start, minutes, rows)
            if start is before or not (start > before).any():
                break
            start = self._fit(k, start)
        return start

    def _put_off(self, k: int, start: "Doubles") -> "Doubles":
        """Put starts off whose windows would close before what follows fits into hours."""
        import numpy as np

        rows = np.arange(self._runs)
        tried = start.copy()
        found = start.copy()
        for _ in range(_TRIES):
            late = self._too_late(k, tried[rows] + self._reckoned(k, tried[rows]), rows)
            is_late = late > _HAIR
            found[rows[~is_late]] = tried[rows[~is_late]]
            rows = rows[is_late]
            if not len(rows):
                break
            later = tried[rows] + np.maximum(late[is_late], 1.0)
            tried[rows] = self._free(k, later, rows)
        return found

    def _too_late(
        self, k: int, end: "Doubles", rows: "Rows", head: "tuple[int, Doubles] | None" = None
    ) -> "Doubles":
        """Return by how many minutes what has to follow in time comes too late, as reckoned.

        ``head`` is the piece it all begins with and its ends, where ``k`` only follows that.
        """
        import numpy as np

        begun, begun_end = head or (k, end)
        worst = np.zeros(end.shape)
        for other, lag in self._parts[k].ahead:
            since = self._opens(end, lag.min_lag, lag.opens)
            since = np.maximum(since, self._floor(other, begun)[rows])
            since = np.maximum(since, begun_end + self._between(begun, other))
            start = self._free(other, since, rows)
            np.maximum(worst, start - self._latest(end, lag), out=worst)
            if self._hours[other] is None and self._parts[other].ahead:
                then = start + self._reckoned(other, start)
                late = self._too_late(other, then, rows, (begun, begun_end))
                np.maximum(worst, late, out=worst)
        return worst

    def _between(self, one: int, other: int) -> int:
        """Return the minutes of work that the plan has between two for those who do the second."""
        if (one, other) not in self._betweens:
            first, then = self._parts[one].work, self._parts[other].work
            among = (part.work for part in self._parts)
            self._betweens[one, other] = sum(
                work.minutes
                for work in among
                if first.end_min <= work.start_min
                and work.end_min <= then.start_min
                and not set(work.people).isdisjoint(then.people)
                and work not in (first, then)
            )
        return self._betweens[one, other]

    def _within(self, k: int, closing: Closing, start: "Doubles") -> None:
        """Mend starts that miss a window: go on past closing time, or do the damp work again."""
        latest = self._latest(self.ends[closing.of], closing.lag)
        is_late: Flags = start > latest + _HAIR
        if not is_late.any():
            return
        if closing.goes_on:
            start[is_late] = latest[is_late]
            return
        self.missed[k] = self.missed.get(k, 0) + int(is_late.sum())
        start[is_late] = self._again(k, closing, start[is_late], is_late.nonzero()[0])

    def _again(self, k: int, closing: Closing, since: "Doubles", rows: "Rows") -> "Doubles":
        """Return when it starts once what went before was done again."""
        import numpy as np

        found, since = since.copy(), since.copy()
        left = np.arange(len(since))
        for _ in range(_TRIES):
            start, latest = since[left], since[left]
            for n, (other, lag) in enumerate(closing.again):
                start = self._free(other, start, rows[left]) if n == 0 else start
                end = start + self._minutes(other, start, rows[left])
                start, latest = self._opens(end, lag.min_lag, lag.opens), self._latest(end, lag)
            start = self._free(k, start, rows[left])
            found[left] = start
            late = start - latest
            is_late = late > _HAIR
            since[left[is_late]] += np.maximum(late[is_late], 1.0)
            left = left[is_late]
            if not len(left):
                break
        return found


def _after_shut(end: "Doubles", shut: "Sequence[tuple[int, int]]") -> "Doubles":
    """Return ends, those within a shut stretch moved to where it opens."""
    import numpy as np

    since = np.array([a for a, _ in shut], dtype=float)
    till = np.array([b for _, b in shut], dtype=float)
    at = np.searchsorted(since, end, side="right") - 1
    inside = (at >= 0) & (end < till[np.maximum(at, 0)])
    return np.where(inside, till[np.maximum(at, 0)], end)
