"""What can be said in one key of who is away: for an hour, today, until tomorrow night, a week."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta, tzinfo

from armorplan.app.absences import AwayRow

_SPANS = (
    ("is away for an hour", None),
    ("is away for the rest of today", 1),
    ("is away until tomorrow night", 2),
    ("is away for a week", 7),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AbsenceChoice:
    """One thing to say. ``until_at`` is now for who is there again."""

    person: str
    text: str
    until_at: datetime


def absence_choices(
    rows: tuple[AwayRow, ...], now_at: datetime, zone: tzinfo
) -> tuple[AbsenceChoice, ...]:
    """Return what can be said now; who is away is first said to be there again.

    Args:
        rows: who works here.
        now_at: this instant.
        zone: the shop's; days end at its midnight.
    """
    away = [row for row in rows if row.until_at is not None]
    back = (
        AbsenceChoice(person=row.person, text=f"{row.name} is there again", until_at=now_at)
        for row in away
    )
    return (*back, *(choice for row in rows for choice in _leaving(row, now_at, zone)))


def _leaving(row: AwayRow, now_at: datetime, zone: tzinfo) -> Iterator[AbsenceChoice]:
    for words, days in _SPANS:
        until_at = now_at + timedelta(hours=1)
        if days is not None:
            day = now_at.astimezone(zone).date() + timedelta(days=days)
            until_at = datetime.combine(day, time.min, zone).astimezone(UTC)
        yield AbsenceChoice(person=row.person, text=f"{row.name} {words}", until_at=until_at)
