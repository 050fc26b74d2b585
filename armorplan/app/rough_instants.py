"""Instants and spans told no finer than they are known: to the minute, the hour, or the half day."""

from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

_HOUR = timedelta(hours=1)
TO_MINUTES = timedelta(hours=24)
"""What lies no further ahead is told to the minute."""
TO_HOURS = timedelta(hours=72)
"""What lies no further ahead is told to the hour; beyond, the part of the day is enough."""
_PARTS = ("early morning", "morning", "afternoon", "evening")
_PART_H = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Rough:
    """An instant in local time, and the part of its day where that is all that is known."""

    at: datetime
    part: str = ""


def rough(at: datetime, since_at: datetime, zone: tzinfo) -> Rough:
    """Return an instant no finer than what is foretold so far ahead is known.

    Args:
        at: the instant.
        since_at: when what leads to it began.
        zone: where it is told.
    """
    local, ahead = at.astimezone(zone), at - since_at
    if ahead <= TO_MINUTES:
        return Rough(at=local)
    if ahead <= TO_HOURS:
        near = (at + _HOUR / 2).astimezone(zone)
        return Rough(at=near.replace(minute=0, second=0, microsecond=0))
    return Rough(at=local, part=_PARTS[local.hour // _PART_H])


def rough_span(minutes: float) -> str:
    """Say a duration as coarsely as it is known: ``40 min``, ``1 h 25 min``, ``3.5 h``, ``36 h``."""
    half_hour, hour, few_h, many_h = 30, 60, 10, 72
    if minutes < 2 * hour:
        step = 1 if minutes < half_hour else 5
        whole = max(step * round(minutes / step), 1)
        full, rest = divmod(whole, hour)
        return " ".join([*([f"{full} h"] if full else []), *([f"{rest} min"] if rest else [])])
    hours = minutes / hour
    if hours < few_h:
        return f"{round(2 * hours) / 2:g} h"
    return f"{round(hours)} h" if hours <= many_h else f"{round(hours / 24)} days"
