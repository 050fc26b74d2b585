"""Days and times in a shop file, told in the shop's local time, as instants.

A time that a change of the clock leaves out is told; one that it brings twice is the first.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from armorplan.files.clock_times import clock
from armorplan.files.log_times import FIRST_YEAR, LAST_YEAR
from armorplan.files.tables import Table
from armorplan.files.values import maybe_text
from armorplan.workshop.calendar import Stretch

_DAY = timedelta(days=1)
_WANTED = 'a day and a time of the shop, such as "2026-12-05 17:00", or a day, 2026-12-05'


class LocalTimes:
    """Reads days and times of one shop.

    Args:
        zone: IANA name; empty where it could not be read: then UTC, only to go on reading.
    """

    def __init__(self, zone: str) -> None:
        self._name = zone or "UTC"
        self._zone = ZoneInfo(self._name)

    def instant(self, table: Table, key: str, *, ends: bool = False) -> datetime | None:
        """Return the instant a key names, or ``None`` where it is not written or told as a fault.

        Args:
            table: where it is written.
            key: its name.
            ends: a day without a time means its end, not its beginning.
        """
        if not table.has(key):
            return None
        value = _parsed(table.raw(key))
        if value is None or not FIRST_YEAR <= value.year <= LAST_YEAR:
            table.wrong(key, table.raw(key), wanted=_WANTED)
            return None
        if isinstance(value, datetime):
            return self._at(table, key, value)
        return self._midnight(value + _DAY if ends else value)

    def stretches(self, table: Table, key: str, *, whole_days: bool) -> tuple[Stretch, ...]:
        """Return a list of stretches: each from … to …, or a day with or without times.

        Args:
            table: where it is written.
            key: its name.
            whole_days: a day without times counts as all of it; else times are asked for.
        """
        found = (self._stretch(entry, whole_days) for entry in table.list_rows(key))
        return tuple(stretch for stretch in found if stretch is not None)

    def _stretch(self, entry: Table, whole_days: bool) -> Stretch | None:  # noqa: FBT001 - private
        ends = list(self._of_day(entry, whole_days) if entry.has("day") else self._from_to(entry))
        why = maybe_text(entry, "why") or ""
        entry.finish()
        start_at, end_at = ends
        if start_at is None or end_at is None:
            return None
        if start_at >= end_at:
            entry.fault(
                "to" if entry.has("to") else None,
                "ends-before-start",
                "This stretch ends before it starts.",
                mend="Let it end after it starts; divide times over midnight into two days.",
            )
            return None
        return Stretch(start_at=start_at, end_at=end_at, why=why)

    def _from_to(self, entry: Table) -> Iterator[datetime | None]:
        for key in ("from", "to"):
            if not entry.has(key):
                entry.missing(
                    key, wanted='"2026-12-05 17:00", or day = 2026-12-05 for a whole day'
                )
            yield self.instant(entry, key, ends=key == "to")

    def _of_day(self, entry: Table, whole_days: bool) -> Iterator[datetime | None]:  # noqa: FBT001 - private
        day = _parsed(entry.raw("day"))
        is_day = isinstance(day, date) and not isinstance(day, datetime)
        if day is None or not is_day or not FIRST_YEAR <= day.year <= LAST_YEAR:
            entry.wrong("day", entry.raw("day"), wanted="a day, such as 2026-12-05")
            yield from (None, None)
        elif whole_days and not entry.has("from") and not entry.has("to"):
            yield self._midnight(day)
            yield self._midnight(day + _DAY)
        else:
            for key in ("from", "to"):
                at = clock(entry, key)
                yield None if at is None else self._at(entry, key, datetime.combine(day, at))

    def _at(self, table: Table, key: str, value: datetime) -> datetime | None:
        if value.tzinfo is not None:
            return value.astimezone(UTC)
        instant = value.replace(tzinfo=self._zone).astimezone(UTC)
        shown = instant.astimezone(self._zone).replace(tzinfo=None)
        if shown == value:
            return instant
        table.fault(
            key,
            "no-such-time",
            f"There is no {value:%H:%M} on {value:%d %B %Y} in {self._name}: the clock goes forward "
            "over it.",
            mend=f"Write {shown:%H:%M}, or a time before the clock goes forward.",
        )
        return None

    def _midnight(self, day: date) -> datetime:
        return datetime.combine(day, time(0), tzinfo=self._zone).astimezone(UTC)


def _parsed(value: object) -> date | datetime | None:
    """Return a TOML date or time with a date, or a text that says one; ``None`` for all else."""
    if isinstance(value, date):  # A time with a date is a date as well.
        return value
    if not isinstance(value, str):
        return None
    for read in (date.fromisoformat, datetime.fromisoformat):
        try:
            return read(value.strip())
        except ValueError:
            continue
    return None
