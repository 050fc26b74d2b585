"""The air of the room behind the coming days, hour by hour, where it is not always the same."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache

from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.track import GRID_MIN
from armorplan.workshop.air import Climate, Room

_CELLS_AN_HOUR = 60 // GRID_MIN


@dataclass(frozen=True, slots=True, kw_only=True)
class AirStretch:
    """A stretch of time with the same air, to whole °C and per cent."""

    start_at: datetime
    end_at: datetime
    temperature_c: int
    humidity_pct: int


def air_of(room: Room, start_at: datetime, end_at: datetime) -> tuple[AirStretch, ...]:
    """Return the air from one full hour to another, equal hours as one; nothing for steady air."""
    hours = int((end_at - start_at).total_seconds() // 3600)
    return () if room.is_steady else _hourly(drying_room(room), start_at, max(0, hours))


@lru_cache(maxsize=16)
def _hourly(room: DryingRoom, start_at: datetime, hours: int) -> tuple[AirStretch, ...]:
    cells = room.air_along(start_at, hours * _CELLS_AN_HOUR)
    found: list[AirStretch] = []
    for hour in range(hours):
        at = start_at + timedelta(hours=hour)
        here = _rounded(cells[hour * _CELLS_AN_HOUR : (hour + 1) * _CELLS_AN_HOUR])
        last = found[-1] if found else None
        if last and (last.temperature_c, last.humidity_pct) == here:
            begun_at = found.pop().start_at
        else:
            begun_at = at
        found.append(
            AirStretch(
                start_at=begun_at,
                end_at=at + timedelta(hours=1),
                temperature_c=here[0],
                humidity_pct=here[1],
            )
        )
    return tuple(found)


def _rounded(air: list[Climate]) -> tuple[int, int]:
    count = len(air)
    return (
        round(sum(c.temperature_c for c in air) / count),
        round(sum(c.humidity_pct for c in air) / count),
    )
