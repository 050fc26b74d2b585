"""Tables looked up for all runs at once; see ``schedule.table.Table`` for what they say."""

from typing import TYPE_CHECKING

from armorplan.schedule.table import Table

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles


class LookUp:
    """One table, its rows as arrays."""

    def __init__(self, table: Table) -> None:
        import numpy as np

        self._grid = table.grid_min
        self._ready = np.array(table.ready, dtype=float)
        self._takes = np.array(table.takes, dtype=float) if table.takes else None

    def ready_at(self, start: "Doubles") -> "Doubles":
        """Return when it is ready for each start."""
        return self._told(start, latest=False)

    def open_till(self, start: "Doubles") -> "Doubles":
        """Return the last minute of what begins to close at each start."""
        return self._told(start, latest=True)

    def _told(self, start: "Doubles", *, latest: bool) -> "Doubles":
        import numpy as np

        cells = np.clip(start // self._grid, 0, len(self._ready) - 1).astype(int)
        beyond = np.maximum(0.0, start - ((cells + 1) * self._grid - 1))
        ready = self._ready[cells] + beyond
        if self._takes is not None:
            pick = np.maximum if latest else np.minimum
            ready = pick(ready, start + self._takes[cells])
        told: Doubles = np.maximum(start, ready)
        return told
