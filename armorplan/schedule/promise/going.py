"""Goes through a plan's policy, all runs at once: one row of minutes for each piece of work."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from armorplan.schedule.promise.bench import Bench
from armorplan.schedule.promise.done_again import DoneAgain
from armorplan.schedule.promise.policy import Closing, Part

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Flags, Rows

_TRIES = 8
"""So often a start is put off for a window that would close before its time."""
_HAIR = 0.5
"""A window is not missed by less than half a minute."""


class Going:
    """All runs of a policy.

    A person does things in the plan's order, but who would stand idle, since a drying or an
    appointment is waited for, does meanwhile what comes later and fits. Nothing else is known
    before it happens: a start is made where the minutes reckoned for it fit, and what is damp is
    begun only where what follows fits as reckoned. What then takes longer shifts what comes after,
    and where that is too late for a window, the damp work is done again, which takes time and room
    of others too.

    Attributes:
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
        self._runs = runs
        self._is_patient = is_patient
        self._bench = Bench(parts, factors, runs)
        self._done_again = DoneAgain(parts, self._bench)
        self._betweens: dict[tuple[int, int], int] = {}
        self.missed: dict[int, int] = {}
        for k, part in enumerate(parts):
            start = self._bench.begun(part) if part.work.is_history else self._start(k, part)
            self._bench.take(part, start, self._bench.end(k, part, start))

    @property
    def starts(self) -> list["Doubles"]:
        """By piece of work, the minutes at which it starts in each run."""
        return self._bench.starts

    @property
    def ends(self) -> list["Doubles"]:
        """By piece of work, the minutes at which it ends in each run."""
        return self._bench.ends

    def _start(self, k: int, part: Part) -> "Doubles":
        import numpy as np

        start = self._bench.free(k, self._bench.floor(k, k), np.arange(self._runs))
        if part.ahead and not self._is_patient:
            start = self._put_off(k, start)
        for closing in part.closings:
            if not self._is_patient:
                self._within(k, closing, start)
        return start

    def _put_off(self, k: int, start: "Doubles") -> "Doubles":
        """Put starts off whose windows would close before what follows fits into hours."""
        import numpy as np

        rows = np.arange(self._runs)
        tried = start.copy()
        found = start.copy()
        for _ in range(_TRIES):
            late = self._too_late(k, tried[rows] + self._bench.reckoned(k, tried[rows]), rows)
            is_late = late > _HAIR
            found[rows[~is_late]] = tried[rows[~is_late]]
            rows = rows[is_late]
            if not len(rows):
                break
            later = tried[rows] + np.maximum(late[is_late], 1.0)
            tried[rows] = self._bench.free(k, later, rows)
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
            since = self._bench.opens(end, lag.min_lag, lag.opens)
            since = np.maximum(since, self._bench.floor(other, begun)[rows])
            since = np.maximum(since, begun_end + self._between(begun, other))
            start = self._bench.free(other, since, rows)
            np.maximum(worst, start - self._bench.latest(end, lag), out=worst)
            if self._parts[other].windows is None and self._parts[other].ahead:
                then = start + self._bench.reckoned(other, start)
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
        latest = self._bench.latest(self.ends[closing.of], closing.lag)
        is_late: Flags = start > latest + _HAIR
        if not is_late.any():
            return
        if closing.goes_on:
            start[is_late] = latest[is_late]
            return
        self.missed[k] = self.missed.get(k, 0) + int(is_late.sum())
        since, rows = start[is_late], is_late.nonzero()[0]
        start[is_late] = self._done_again.starts(k, closing, since, rows)
