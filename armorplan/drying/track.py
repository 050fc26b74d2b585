"""A 15-minute grid of time, and doses of drying along it."""

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Doubles = NDArray[float64]

GRID_MIN = 15
GRID = timedelta(minutes=GRID_MIN)
_EPOCH = datetime(2000, 1, 1, tzinfo=UTC)
_HAIR_MIN = 1e-7
"""What sums of paces may be off by; else a dose that is full at dusk waits for the morning."""


def cell_of(at: datetime) -> int:
    """Return the number of the grid cell an instant lies in."""
    return (at.astimezone(UTC) - _EPOCH) // GRID


def start_of(cell: int) -> datetime:
    """Return when a grid cell begins."""
    return _EPOCH + cell * GRID


class Track:
    """Doses along the grid: minutes at the reference that have passed, for one pace.

    Args:
        first: the cell it begins with.
        paces: reference minutes per minute, one for each cell.
    """

    def __init__(self, first: int, paces: "Doubles") -> None:
        import numpy as np

        self._begins_at = start_of(first)
        self._paces = paces
        self._ends = np.arange(len(paces) + 1) * float(GRID_MIN)
        self._doses = np.concatenate(([0.0], np.cumsum(paces * GRID_MIN)))

    def minutes_of(self, at: datetime) -> float:
        """Return an instant in minutes from where the track begins."""
        return (at.astimezone(UTC) - self._begins_at).total_seconds() / 60

    def dose(self, minutes: "Doubles") -> "Doubles":
        """Return the dose passed by each of these minutes from the track's beginning."""
        import numpy as np

        return np.interp(minutes, self._ends, self._doses)

    def reached(self, doses: "Doubles") -> "Doubles":
        """Return the first minute by which each dose has passed; ``inf`` where never on the track."""
        import numpy as np

        at = np.searchsorted(self._doses, doses - _HAIR_MIN, side="left")
        inside = at < len(self._doses)
        cell = np.minimum(np.maximum(at - 1, 0), len(self._paces) - 1)
        pace = self._paces[cell]
        missing = doses - self._doses[cell]
        steps = np.divide(missing, pace, out=np.zeros_like(missing), where=pace > 0)
        return np.where(
            inside, cell * float(GRID_MIN) + np.minimum(np.maximum(steps, 0.0), GRID_MIN), np.inf
        )
