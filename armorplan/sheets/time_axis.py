"""Round hours along a stretch of time, in a shop's own hours."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

_HOUR_STEPS = (1, 2, 3, 6, 12, 24, 48, 96, 168)
_FULL_MIN = 60
_DAY_MIN = 24 * _FULL_MIN
_MINUTE_STEPS = (5, 10, 15, 30)


@dataclass(frozen=True, slots=True, kw_only=True)
class TickRoom:
    """How many minutes lie at least between two times that are written, and between two days."""

    clock_min: float
    day_min: float


def time_ticks(
    start_at: datetime, until_at: datetime, zone: str, room: TickRoom
) -> list[tuple[datetime, str]]:
    """Return round local times with their words, the day with the first of each that has room."""
    steps = (*_MINUTE_STEPS, *(_FULL_MIN * hours for hours in _HOUR_STEPS))
    step = next((s for s in steps if s >= _least_min(s, room)), steps[-1])
    found: list[tuple[datetime, str]] = []
    at = start_at.astimezone(ZoneInfo(zone)).replace(hour=0, minute=0, second=0, microsecond=0)
    day, free_at = None, at
    while at <= until_at:
        if at >= start_at:
            is_new = at.date() != day and at >= free_at
            if is_new:
                day, free_at = at.date(), at + timedelta(minutes=room.day_min)
            words = f"{at:%a} {at.day} {at:%b}" if is_new else ""
            clock = "" if step >= _DAY_MIN else f"{at:%H:%M}"
            found.append((at, "\n".join(word for word in (clock, words) if word)))
        at += timedelta(minutes=step)  # by the wall clock: ticks stay round when clocks change
    return found


def _least_min(step: int, room: TickRoom) -> float:
    return room.day_min if step >= _DAY_MIN else room.clock_min
