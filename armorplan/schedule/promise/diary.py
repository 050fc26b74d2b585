"""When somebody is free, in all runs at once: behind all that is booked, and in the gaps before."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Flags, Rows

GAPS = 6
"""So many gaps are remembered for each run, the longest; a forgotten one only makes dates later."""
_LEAST_MIN = 5.0
"""A shorter gap is no time to begin anything."""
_HAIR = 1e-6


class Diary:
    """One person's time. Who would stand idle does meanwhile what comes later and fits."""

    def __init__(self, runs: int) -> None:
        import numpy as np

        self._free_at = np.zeros(runs)
        self._since = np.full((GAPS, runs), np.inf)
        self._till = np.full((GAPS, runs), -np.inf)

    def free(self, since: "Doubles", minutes: "Doubles | float", rows: "Rows") -> "Doubles":
        """Return the first instants with so many minutes to spare, in these runs."""
        import numpy as np

        found = np.maximum(since, self._free_at[rows])
        early = np.flatnonzero(since < found)
        if not len(early):
            return since
        at = rows[early]
        wanted = minutes if isinstance(minutes, float) else minutes[early]
        starts = np.maximum(since[early], self._since[:, at])
        fits = starts + wanted <= self._till[:, at] + _HAIR
        in_gap = np.where(fits, starts, np.inf).min(axis=0)
        found[early] = np.minimum(in_gap, found[early])
        return found

    def behind(self, rows: "Rows") -> "Doubles":
        """Return from when on nothing is booked any more, in these runs."""
        behind: Doubles = self._free_at[rows]
        return behind

    def book(self, start: "Doubles", end: "Doubles", rows: "Rows | None" = None) -> None:
        """Take time, in every run or in these."""
        import numpy as np

        is_taken = np.full(len(self._free_at), rows is None)
        if rows is not None:
            is_taken[rows] = True
            start, end = _spread(start, rows, is_taken), _spread(end, rows, is_taken)
        is_last = is_taken & (start >= self._free_at - _HAIR)
        self._remember(self._free_at, start, is_last)
        self._split(start, end, is_taken & ~is_last)
        np.maximum(self._free_at, end, out=self._free_at, where=is_taken)

    def _split(self, start: "Doubles", end: "Doubles", runs: "Flags") -> None:
        """Leave of the gaps that something lies in what is before and behind it."""
        import numpy as np

        if not runs.any():
            return
        inside = runs & (start >= self._since - _HAIR) & (start < self._till)
        for slot in np.flatnonzero(inside.any(axis=1)):
            within: Flags = inside[slot]
            since, till = self._since[slot].copy(), self._till[slot].copy()
            self._since[slot, within], self._till[slot, within] = end[within], till[within]
            self._remember(since, start, within)

    def _remember(self, since: "Doubles", till: "Doubles", runs: "Flags") -> None:
        """Keep a gap in place of the shortest one, where it is longer than that."""
        import numpy as np

        is_kept = runs & (till - since >= _LEAST_MIN)
        if not is_kept.any():
            return
        lengths = self._till - self._since
        slot = lengths.argmin(axis=0)
        every = np.arange(len(since))
        is_kept &= till - since >= lengths[slot, every]
        at = slot[is_kept]
        self._since[at, every[is_kept]] = since[is_kept]
        self._till[at, every[is_kept]] = till[is_kept]


def _spread(those: "Doubles", rows: "Rows", runs: "Flags") -> "Doubles":
    """Return an entry for every run, nothing in those that are not among the rows."""
    import numpy as np

    every = np.zeros(len(runs))
    every[rows] = those
    return every
