"""Round hours along a stretch of time, in a shop's own hours."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

_HOUR_STEPS = (1, 2, 3, 6, 12, 24, 48, 96, 168)
_DAY_H = 24
_FULL_MIN = 60
_MINUTE_STEPS = (5, 10, 15, 30)


def time_ticks(
    start_at: datetime, until_at: datetime, zone: str, *, most: int
) -> list[tuple[datetime, str]]:
    """Return round local times with their words, a day with the first of each; ``most`` or so."""
    minutes = (until_at - start_at) / timedelta(minutes=1)
    steps = (*_MINUTE_STEPS, *(_FULL_MIN * hours for hours in _HOUR_STEPS))
    step = next((s for s in steps if minutes / s <= most), steps[-1])
    found: list[tuple[datetime, str]] = []
    at = start_at.astimezone(ZoneInfo(zone)).replace(hour=0, minute=0, second=0, microsecond=0)
    day = None
    while at <= until_at:
        if at >= start_at:
            is_new, day = at.date() != day, at.date()
            words = f"{at:%a} {at.day} {at:%b}" if is_new else ""
            clock = "" if step >= _DAY_H * _FULL_MIN else f"{at:%H:%M}"
            found.append((at, "\n".join(word for word in (clock, words) if word)))
        at += timedelta(minutes=step)  # by the wall clock: ticks stay round when clocks change
    return found
