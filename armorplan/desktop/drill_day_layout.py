"""A day that is planned, in minutes from its beginning and in pixels: where bars and windows lie."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.practice.drill import DayAsked, DayRow

HOUR_STEPS = (1, 2, 3, 4, 6, 12)
"""Hours are written at every so many, as the room allows."""
LATE_SHARE = 0.25
_HOUR_MIN = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Where time alone passes, in minutes of the day, and until when what waits may begin."""

    start_min: int
    ready_min: int
    latest_min: int | None


class DaySpan:
    """A day in minutes, counted from when people begin to work."""

    def __init__(self, day: DayAsked) -> None:
        self.day = day
        self._zone = ZoneInfo(day.zone)
        self.due_min = self.minute(day.ends_by_at)
        self.whole_min = min(self.minute(day.to_at), self._shown_min())
        self.closed = tuple((self.minute(a), self.minute(b)) for a, b in day.closed)

    def _shown_min(self) -> int:
        """Return up to when the day is shown: what is planned later is too late by far."""
        late = self.due_min + max(_HOUR_MIN, round(self.due_min * LATE_SHARE))
        return -(-late // _HOUR_MIN) * _HOUR_MIN

    def minute(self, at: datetime) -> int:
        """Return an instant in minutes of the day."""
        return round((at - self.day.from_at).total_seconds() / _HOUR_MIN)

    def clock(self, minute: int) -> str:
        """Return a minute of the day as the time that a clock there shows, such as ``09:15``."""
        at = self.day.from_at + timedelta(minutes=minute)
        return f"{at.astimezone(self._zone):%H:%M}"

    def minute_at(self, clock: str) -> int | None:
        """Return the minute of the day at which a clock shows a time; ``None``: at none."""
        typed = clock.strip().replace(".", ":")
        if typed.isdecimal() and len(typed) == len("HHMM"):
            typed = f"{typed[:2]}:{typed[2:]}"
        hour, _, minute = typed.partition(":")
        if not (hour.isdecimal() and (minute or "0").isdecimal()):
            return None
        begun = self.day.from_at.astimezone(self._zone)
        asked = int(hour) * _HOUR_MIN + int(minute or 0)
        found = (asked - begun.hour * _HOUR_MIN - begun.minute) % (24 * _HOUR_MIN)
        return found if found <= self.whole_min and int(minute or 0) < _HOUR_MIN else None

    def last_start(self, row: DayRow) -> int:
        """Return the last minute on the grid at which a bar still lies within the day."""
        grid = self.day.grid_min
        return max(0, (self.whole_min - row.minutes) // grid * grid)

    def snapped(self, row: DayRow, minute: float) -> int:
        """Return the nearest minute on the grid at which a bar may be laid."""
        grid = self.day.grid_min
        return min(max(round(minute / grid) * grid, 0), self.last_start(row))

    def window(self, wait: DayRow, after: DayRow, begun_min: int) -> Window:
        """Return where a wait lies behind the bar before it."""
        start = begun_min + after.minutes
        latest = None if wait.latest_min is None else start + wait.latest_min
        return Window(start_min=start, ready_min=start + wait.minutes, latest_min=latest)

    def full_hours(self) -> tuple[int, ...]:
        """Return the minutes of the day at which an hour is full."""
        begun = self.day.from_at.astimezone(self._zone)
        first = -begun.minute % _HOUR_MIN
        return tuple(range(first, self.whole_min + 1, _HOUR_MIN))


def laid_out(rows: tuple[DayRow, ...]) -> tuple[DayRow, ...]:
    """Return the rows of a day, every wait behind the bar that it follows."""
    bars = [row for row in rows if row.choice]
    behind = {
        bar.choice: [r for r in rows if not r.choice and r.after == bar.choice] for bar in bars
    }
    placed = [one for bar in bars for one in (bar, *behind[bar.choice])]
    return (*placed, *(row for row in rows if row not in placed))


@dataclass(frozen=True, slots=True, kw_only=True)
class DayScale:
    """The day on a line: ``left`` and ``width`` in device-independent pixels."""

    span: DaySpan
    left: float
    width: float

    def x(self, minute: float) -> float:
        """Return where a minute of the day lies."""
        return self.left + minute / max(self.span.whole_min, 1) * self.width

    def minute(self, x: float) -> float:
        """Return the minute of the day that lies at a place."""
        return (x - self.left) / max(self.width, 1.0) * self.span.whole_min

    def written_hours(self, label_px: float) -> tuple[int, ...]:
        """Return the full hours that are written so that none lies on another."""
        hours = self.span.full_hours()
        apart = _HOUR_MIN / max(self.span.whole_min, 1) * self.width
        step = next((n for n in HOUR_STEPS if n * apart >= label_px), HOUR_STEPS[-1])
        return hours[::step]
