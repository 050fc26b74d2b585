"""The air of a room along a stretch of time, as doses of drying on a 15-minute grid."""

from bisect import bisect_left
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from armorplan.workshop.air import AirReading, Climate, Room

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Doubles = NDArray[float64]

GRID_MIN = 15
_GRID = timedelta(minutes=GRID_MIN)
_EPOCH = datetime(2000, 1, 1, tzinfo=UTC)
_CELLS_AN_HOUR = 60 // GRID_MIN
LONGEST_GAP = timedelta(hours=3)
"""Over a gap so long between two readings the air is drawn straight; beyond, the usual day counts."""


def cell_of(at: datetime) -> int:
    """Return the number of the grid cell an instant lies in."""
    return (at - _EPOCH) // _GRID


def start_of(cell: int) -> datetime:
    """Return when a grid cell begins."""
    return _EPOCH + cell * _GRID


def hours_of(zone: str, first: int, cells: int) -> list[int]:
    """Return the local hour of each cell; right through changes of daylight time."""
    local = ZoneInfo(zone)
    return [(start_of(first + at)).astimezone(local).hour for at in range(cells)]


def _between(before: AirReading, after: AirReading, at: datetime) -> Climate:
    share = (at - before.at) / (after.at - before.at)

    def mixed(one: float, other: float) -> float:
        return round(one + share * (other - one), 1)

    one, other = before.climate, after.climate
    return Climate(
        temperature_c=mixed(one.temperature_c, other.temperature_c),
        humidity_pct=mixed(one.humidity_pct, other.humidity_pct),
        air_m_s=round(one.air_m_s + share * (other.air_m_s - one.air_m_s), 2),
    )


class Readings:
    """The air as read, and where it was read closely enough to count."""

    def __init__(self, readings: Sequence[AirReading]) -> None:
        self._readings = readings
        self._instants = [reading.at for reading in readings]

    def at(self, instant: datetime) -> Climate | None:
        """Return the air between two readings no further apart than the longest gap, or ``None``.

        Beside the first and the last reading that one counts for half the longest gap.
        """
        there = bisect_left(self._instants, instant)
        before = self._readings[there - 1] if there else None
        after = self._readings[there] if there < len(self._readings) else None
        if before and after and after.at - before.at <= LONGEST_GAP:
            return _between(before, after, instant)
        near = min(
            (r for r in (before, after) if r), key=lambda r: abs(r.at - instant), default=None
        )
        close = near is not None and abs(near.at - instant) <= LONGEST_GAP / 2
        return near.climate if near and close else None


def usual_days(room: Room) -> tuple[Climate, ...]:
    """Return the air of each local hour where nothing was read: as told, else as read on average.

    An hour that was never read has the air of all readings.
    """
    if room.by_hour:
        return room.by_hour
    if not room.readings:
        return (room.usual,) * 24
    local = ZoneInfo(room.zone)
    by_hour: dict[int, list[Climate]] = {}
    for reading in room.readings:
        by_hour.setdefault(reading.at.astimezone(local).hour, []).append(reading.climate)
    all_of_them = _mean([reading.climate for reading in room.readings])
    return tuple(_mean(by_hour[hour]) if hour in by_hour else all_of_them for hour in range(24))


def _mean(climates: Sequence[Climate]) -> Climate:
    count = len(climates)
    return Climate(
        temperature_c=round(sum(c.temperature_c for c in climates) / count, 1),
        humidity_pct=round(sum(c.humidity_pct for c in climates) / count, 1),
        air_m_s=round(sum(c.air_m_s for c in climates) / count, 2),
    )


def climates(room: Room, first: int, cells: int) -> list[Climate]:
    """Return the air of each cell from ``first`` on."""
    if room.is_steady:
        return [room.usual] * cells
    day = usual_days(room)
    usual = [day[hour] for hour in hours_of(room.zone, first, cells)]
    if not room.readings:
        return usual
    read = Readings(room.readings)
    return [
        read.at(start_of(first + at) + _GRID / 2) or climate for at, climate in enumerate(usual)
    ]


class Track:
    """Doses along the grid: minutes at the reference that have passed, for one pace.

    Args:
        first: the cell it begins with.
        paces: reference minutes per minute, one for each cell.
    """

    def __init__(self, first: int, paces: "Doubles") -> None:
        import numpy as np

        self.first = first
        self._begins_at = start_of(first)
        self._paces = paces
        self._doses = np.concatenate(([0.0], np.cumsum(paces * GRID_MIN)))

    @property
    def cells(self) -> int:
        """How many cells it has."""
        return len(self._paces)

    def minutes_of(self, at: datetime) -> float:
        """Return an instant in minutes from where the track begins."""
        return (at - self._begins_at).total_seconds() / 60

    def dose(self, minutes: "Doubles") -> "Doubles":
        """Return the dose passed by each of these minutes from the track's beginning."""
        import numpy as np

        ends = np.arange(len(self._doses)) * float(GRID_MIN)
        return np.interp(minutes, ends, self._doses)

    def reached(self, doses: "Doubles") -> "Doubles":
        """Return the first minute by which each dose has passed; ``inf`` where never on the track."""
        import numpy as np

        at = np.searchsorted(self._doses, doses, side="left")
        inside = at < len(self._doses)
        cell = np.clip(at - 1, 0, len(self._paces) - 1)
        pace = self._paces[cell]
        missing = doses - self._doses[cell]
        steps = np.divide(missing, pace, out=np.zeros_like(missing), where=pace > 0)
        return np.where(inside, cell * float(GRID_MIN) + steps, np.inf)


def track_of(found: Sequence[Climate], first: int, pace: Callable[[Climate], float]) -> Track:
    """Return the track of a pace through these climates, each reckoned once."""
    import numpy as np

    known = {climate: pace(climate) for climate in set(found)}
    return Track(first, np.array([known[climate] for climate in found]))
