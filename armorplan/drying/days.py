"""The air of a room at any time: as read, else as it is at that hour of a usual day."""

from bisect import bisect_left
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from armorplan.drying.track import GRID, GRID_MIN, start_of
from armorplan.workshop.air import HOURS_A_DAY, AirReading, Climate, Room, mean_air

LONGEST_GAP = timedelta(hours=3)
"""Over a gap so long between two readings the air is drawn straight; beyond, the usual day counts."""
_STILL_USUAL = timedelta(days=14)
"""Only so long before the last reading a day tells of days to come: a logger's summer is no help in winter."""
_FAR_APART_H = 6
"""Hours of a usual day that were read so far apart tell what lies between them; a logger may read as seldom."""
CELLS_A_DAY = HOURS_A_DAY * 60 // GRID_MIN


def hours_of(zone: str, first: int, cells: int) -> list[int]:
    """Return the local hour of each cell; right through changes of daylight time."""
    local = ZoneInfo(zone)
    found: list[int] = []
    for begin in range(first, first + cells, CELLS_A_DAY):
        found += _hours_of_day(local, begin, min(CELLS_A_DAY, first + cells - begin))
    return found


def _hours_of_day(local: ZoneInfo, first: int, cells: int) -> list[int]:
    """Return the local hours of a day's cells, one by one only where its clock changes."""
    begin, end = (start_of(at).astimezone(local) for at in (first, first + cells))
    if begin.utcoffset() != end.utcoffset():
        return [start_of(first + at).astimezone(local).hour for at in range(cells)]
    midnight_min = begin.hour * 60 + begin.minute
    return [(midnight_min + at * GRID_MIN) // 60 % HOURS_A_DAY for at in range(cells)]


def _mixed(one: Climate, other: Climate, share: float) -> Climate:
    """Return the air between two, rounded to what an instrument tells so that equal airs are equal."""

    def between(here: float, there: float, digits: int) -> float:
        return round(here + share * (there - here), digits)

    return Climate(
        temperature_c=between(one.temperature_c, other.temperature_c, 1),
        humidity_pct=between(one.humidity_pct, other.humidity_pct, 1),
        air_m_s=between(one.air_m_s, other.air_m_s, 2),
    )


class Readings:
    """The air as read, and where it was read closely enough to count."""

    def __init__(self, readings: Sequence[AirReading]) -> None:
        self._readings = sorted(readings, key=lambda reading: reading.at)
        self._instants = [reading.at.astimezone(UTC) for reading in self._readings]

    def at(self, instant: datetime) -> Climate | None:
        """Return the air between two readings no further apart than the longest gap, or ``None``.

        Beside a longer gap, and before the first and after the last reading, the nearest one counts
        for half the longest gap.
        """
        there = bisect_left(self._instants, instant)
        before = self._readings[there - 1] if there else None
        after = self._readings[there] if there < len(self._readings) else None
        if before and after and after.at - before.at <= LONGEST_GAP:
            share = (instant - before.at) / (after.at - before.at)
            return _mixed(before.climate, after.climate, share)
        near = min(
            (r for r in (before, after) if r), key=lambda r: abs(r.at - instant), default=None
        )
        close = near is not None and abs(near.at - instant) <= LONGEST_GAP / 2
        return near.climate if near and close else None


@lru_cache(maxsize=32)
def usual_days(room: Room) -> tuple[Climate, ...]:
    """Return the air of each local hour where nothing was read: as told, else as read on average.

    The average is that of the last two weeks that were read. Between two hours that were read it is
    drawn straight, across midnight too; where they lie far apart, only if no air was told at all.
    """
    if room.by_hour:
        return room.by_hour
    if not room.readings:
        return (room.usual,) * HOURS_A_DAY
    local = ZoneInfo(room.zone)
    since_at = max(reading.at for reading in room.readings) - _STILL_USUAL
    by_hour: dict[int, list[Climate]] = {}
    for reading in (reading for reading in room.readings if reading.at >= since_at):
        by_hour.setdefault(reading.at.astimezone(local).hour, []).append(reading.climate)
    read = {hour: mean_air(climates) for hour, climates in by_hour.items()}
    told = None if room.usual == Climate() else room.usual
    return tuple(read.get(hour) or _around(read, hour, told) for hour in range(HOURS_A_DAY))


def _around(read: dict[int, Climate], hour: int, told: Climate | None) -> Climate:
    """Return the air of an hour between two that were read, or far from both what was told."""
    before = next(h for h in range(HOURS_A_DAY) if (hour - h) % HOURS_A_DAY in read)
    after = next(h for h in range(HOURS_A_DAY) if (hour + h) % HOURS_A_DAY in read)
    if told is not None and before + after > _FAR_APART_H:
        return told
    one, other = read[(hour - before) % HOURS_A_DAY], read[(hour + after) % HOURS_A_DAY]
    return _mixed(one, other, before / (before + after))


def climates(room: Room, first: int, cells: int) -> list[Climate]:
    """Return the air of each cell from ``first`` on, as it is in its middle."""
    if room.is_steady:
        return [room.usual] * cells
    day = usual_days(room)
    found = [day[hour] for hour in hours_of(room.zone, first, cells)]
    if room.readings:
        read = Readings(room.readings)
        for at in range(*_near_readings(room.readings, first, cells)):
            found[at] = read.at(start_of(first + at) + GRID / 2) or found[at]
    return found


def _near_readings(readings: Sequence[AirReading], first: int, cells: int) -> tuple[int, int]:
    """Return between which of the cells something can have been read."""
    instants = [reading.at for reading in readings]
    begin = (min(instants) - LONGEST_GAP - start_of(first)) // GRID
    end = (max(instants) + LONGEST_GAP - start_of(first)) // GRID
    return min(max(begin, 0), cells), min(max(end, 0), cells)
