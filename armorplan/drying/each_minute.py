"""How long a drying takes from each minute of a plan, and whether the air changes in it at all."""

from datetime import datetime
from typing import TYPE_CHECKING

from armorplan.drying.along import MOST_MIN, air_along
from armorplan.drying.body import LIKELY, Body
from armorplan.drying.days import LONGEST_GAP, usual_days
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.drying.stages import HAIR, LATEST
from armorplan.drying.track import GRID
from armorplan.workshop.shelf import TreatmentEntry

if TYPE_CHECKING:
    from numpy import int64
    from numpy.typing import NDArray

    Minutes = NDArray[int64]


def is_steady_from(room: DryingRoom, at: datetime) -> bool:
    """Tell whether the air no longer changes from an instant on, whatever it was before."""
    if room.is_steady:
        return True
    air = usual_days(room.room)[0]
    if any(hour != air for hour in usual_days(room.room)):
        return False
    last_at = max((reading.at for reading in room.room.readings), default=at)
    cells = max(1, (last_at + LONGEST_GAP - at) // GRID + 1)
    return all(climate == air for climate in room.air_along(at, cells))


def waits_by_minute(
    room: DryingRoom,
    entry: TreatmentEntry,
    asked: tuple[Body, Stage],
    origin_at: datetime,
    minutes: int,
) -> "Minutes | None":
    """Return the whole minutes to a stage from each of so many minutes on, as the room tells them.

    From where it never gets there the longest time looked at. ``None``: it never does from any of
    them, or there is no such stage.
    """
    import numpy as np

    body, stage = asked
    doses = room.doses(entry, body, stage)
    if doses is None:
        return None
    taken = air_along(room.room).taken_by_minute(
        entry, LIKELY, doses[LIKELY], (origin_at, minutes)
    )
    if not np.isfinite(taken).any():
        return None
    ended = np.minimum(taken, MOST_MIN)
    if stage in LATEST:
        return np.maximum(1, np.floor(ended + HAIR)).astype(np.int64)
    return np.ceil(ended - HAIR).astype(np.int64)
