"""What is known of all runs so far: when things started and ended, who is free, how long things take."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from armorplan.schedule.problem import Lag
from armorplan.schedule.promise.diary import Diary
from armorplan.schedule.promise.fitting import fitting
from armorplan.schedule.promise.hours import Hours
from armorplan.schedule.promise.policy import Part, Wait
from armorplan.schedule.promise.repeats import Repeats
from armorplan.schedule.promise.tables import LookUp
from armorplan.schedule.table import Table

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Rows

_TRIES = 8
"""So often a start is put off for closing hours and what its people do meanwhile."""


class Bench:
    """The runs of a policy as far as they were gone through.

    Attributes:
        starts, ends: by piece of work, the minutes in each run.
        repeats: what was done again.
    """

    def __init__(self, parts: Sequence[Part], factors: Mapping[str, "Doubles"], runs: int) -> None:
        self._parts = parts
        self._factors = factors
        self.runs = runs
        known = {w: Hours(w) for w in {p.windows for p in parts} if w is not None}
        self._hours = [None if p.windows is None else known[p.windows] for p in parts]
        people = sorted({person for part in parts for person in part.work.people})
        self._diaries = {person: Diary(runs) for person in people}
        self.repeats = Repeats(runs)
        self._looked_up: dict[int, LookUp] = {}
        self.starts: list[Doubles] = []
        self.ends: list[Doubles] = []

    def take(self, part: Part, start: "Doubles", end: "Doubles") -> None:
        """Have the next piece of work start and end then."""
        self.starts.append(start)
        self.ends.append(end)
        for person in part.work.people:
            self._diaries[person].book(start, end)

    def book(self, k: int, span: "tuple[Doubles, Doubles]", rows: "Rows") -> None:
        """Take the time of a piece's people once more, in these runs."""
        for person in self._parts[k].work.people:
            self._diaries[person].book(*span, rows)

    def begun(self, part: Part) -> "Doubles":
        """Return when history began."""
        import numpy as np

        return np.full(self.runs, float(part.work.first.fixed_start_min or 0))

    def end(self, k: int, part: Part, start: "Doubles") -> "Doubles":
        """Return when a piece of work ends that starts then, in every run."""
        import numpy as np

        first = part.work.first
        if part.work.is_history and first.fixed_end_min is not None:
            return np.full(self.runs, float(first.fixed_end_min))
        end = self.worked(k, start, slice(None))
        # What runs at the origin has not ended before it.
        return np.maximum(end, 0.0) if part.work.is_history else end

    def worked(self, k: int, start: "Doubles", rows: "slice | Rows") -> "Doubles":
        """Return when it ends in those runs that start then, pauses and overtime counted."""
        minutes, hours = self.minutes(k, start, rows), self._hours[k]
        work = self._parts[k].work
        is_pausable = bool(work.sitting_min)
        if hours is None or (work.is_history and not is_pausable):
            return start + minutes
        return hours.end(start, minutes, pausable=is_pausable)

    def minutes(self, k: int, start: "Doubles", rows: "slice | Rows") -> "Doubles":
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

    def reckoned(self, k: int, start: "Doubles") -> "Doubles | float":
        """Return what it takes as far as is known beforehand."""
        work = self._parts[k].work
        if work.first.table is not None:
            return self._look_up(work.first.table).ready_at(start) - start
        return float(work.minutes)

    def floor(self, k: int, before: int) -> "Doubles":
        """Return the first starts that its waits for what comes before a piece allow."""
        import numpy as np

        part = self._parts[k]
        floor = np.full(self.runs, float(part.floor_min))
        for wait in part.waits:
            if wait.of < before:
                np.maximum(floor, self._allowed(k, wait), out=floor)
        return floor

    def _allowed(self, k: int, wait: Wait) -> "Doubles":
        import numpy as np

        moment = self.starts[wait.of] if wait.since_start else self.ends[wait.of]
        if wait.opens is not None:
            moment = self.opens(moment, wait.gap_min, wait.opens)
        elif wait.gap_min:
            moment = moment + wait.gap_min
        if wait.is_turn:
            moment = np.maximum(moment, self.repeats.left_at(wait.of, self._parts[k]))
        if wait.till_end and self._parts[k].work.first.table is None:
            moment = moment - self.minutes(k, moment, slice(None))
        return moment

    def opens(self, end: "Doubles", gap_min: int, table: Table | None) -> "Doubles":
        """Return when what waits for those ends may start."""
        import numpy as np

        opened = end + gap_min
        return opened if table is None else np.maximum(opened, self._look_up(table).ready_at(end))

    def latest(self, end: "Doubles", lag: Lag) -> "Doubles":
        """Return by when a window has to be used that began to close at those ends."""
        import numpy as np

        latest = np.full(end.shape, np.inf) if lag.max_lag is None else end + lag.max_lag
        if lag.closes is not None:
            latest = np.minimum(latest, self._look_up(lag.closes).open_till(end))
        return latest

    def free(self, k: int, since: "Doubles", rows: "Rows") -> "Doubles":
        """Return the first starts within hours at which all its people are free, in these runs.

        Where that is not found soon, behind all that is booked for them.
        """
        import numpy as np

        work, hours = self._parts[k].work, self._hours[k]
        start = before = fitting(work, hours, since)
        diaries = [self._diaries[person] for person in work.people]
        for _ in range(_TRIES if diaries else 0):
            before, spans = start, self.worked(k, start, rows) - start
            for diary in diaries:
                start = diary.free(start, spans, rows)
            if start is before or not (start > before).any():
                return start
            start = fitting(work, hours, start)
        behind = np.max([start, *(diary.behind(rows) for diary in diaries)], axis=0)
        return np.where(start > before, fitting(work, hours, behind), start)

    def _look_up(self, table: Table) -> LookUp:
        if id(table) not in self._looked_up:
            self._looked_up[id(table)] = LookUp(table)
        return self._looked_up[id(table)]
