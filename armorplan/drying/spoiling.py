"""From which starts a coat would spoil: colder than its film forms in, or so cold that it freezes."""

from collections.abc import Sequence
from datetime import datetime
from math import inf
from typing import TYPE_CHECKING

from armorplan.drying.along import MOST_MIN, air_along
from armorplan.drying.body import LIKELY, Body
from armorplan.drying.room import DryingRoom
from armorplan.drying.stages import FREEZES_C, film_dose
from armorplan.drying.track import GRID_MIN, cell_of
from armorplan.workshop.shelf import Carrier, TreatmentEntry

if TYPE_CHECKING:
    from numpy import bool_
    from numpy.typing import NDArray

    Flags = NDArray[bool_]


def coldest_allowed_c(entry: TreatmentEntry) -> float:
    """Return the temperature below which a treatment spoils while it forms its film; -inf for none."""
    freezing = FREEZES_C if entry.carrier is Carrier.WATER else -inf
    return max(freezing, -inf if entry.film_from_c is None else entry.film_from_c)


def spoiled(
    room: DryingRoom, entry: TreatmentEntry, body: Body, starts: Sequence[datetime]
) -> "Flags":
    """Tell for each start whether what is put on then would spoil (``Verdict.WOULD_SPOIL``).

    Args:
        room: where it dries.
        entry: the treatment.
        body: what dries.
        starts: ascending instants.
    """
    import numpy as np

    limit_c = coldest_allowed_c(entry)
    if limit_c == -inf or not starts:
        return np.zeros(len(starts), dtype=bool)
    along = air_along(room.room)
    dose = film_dose(entry, body, room.room.pace(entry.id))
    taken = np.minimum(along.taken_min(entry, LIKELY, dose, starts), MOST_MIN)
    first = np.array([cell_of(at) for at in starts])
    into = np.array([at.timestamp() / 60 % GRID_MIN for at in starts])
    last = first + ((into + taken) // GRID_MIN).astype(int)
    air = along.air(int(first[0]), int(last.max() - first[0]) + 1)
    cold = np.array([climate.temperature_c < limit_c for climate in air])
    next_cold = np.where(cold, np.arange(len(cold)), len(cold))
    next_cold = np.minimum.accumulate(next_cold[::-1])[::-1]
    found: Flags = next_cold[first - first[0]] <= last - first[0]
    return found
