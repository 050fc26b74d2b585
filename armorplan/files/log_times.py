"""Instants as loggers write them, read in the right order of day and month and in the right zone."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, timezone, tzinfo

FIRST_YEAR, LAST_YEAR = 1980, 2200
"""Calendars and time zones are sure within these; nobody makes armour outside them."""
_EPOCH_S = re.compile(r"\d{9,13}(?:\.\d{1,6})?")
_MILLISECONDS_FROM = 1e11
_CENTURY = 2000
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_CLOCK = (
    r"(?:[ ,T]+(?P<hour>\d{1,2})[:.h](?P<minute>\d{2})(?:[:.](?P<second>\d{2})(?:[.,]\d{1,9})?)?"
    r"\s*(?P<half>[ap]\.?m\.?)?)?\s*(?P<offset>Z|UTC|GMT|(?:UTC|GMT)?[+-]\d{2}:?\d{2})?"
)
_NUMBERS = re.compile(
    r"(?P<one>\d{1,4})(?P<mark>[./-])(?P<two>\d{1,2})(?P=mark)(?P<three>\d{1,4})\.?" + _CLOCK,
    re.IGNORECASE,
)
_WORDS = re.compile(
    r"(?P<day>\d{1,2})[. -]+(?P<month>[a-z]{3})[a-z]*[. -]+(?P<year>\d{2,4})" + _CLOCK,
    re.IGNORECASE,
)
_YEAR_DIGITS = 4
_MONTHS_A_YEAR = 12
_NOON = 12


def iso_instant(text: str) -> datetime | None:
    """Return an instant written as ISO 8601 or in seconds since 1970, aware where it says so."""
    if _EPOCH_S.fullmatch(text):
        seconds = float(text)
        if seconds >= _MILLISECONDS_FROM:
            seconds /= 1000
        return _within(datetime.fromtimestamp(seconds, tz=UTC))
    try:
        return _within(datetime.fromisoformat(text))
    except ValueError:
        return None


def _within(at: datetime) -> datetime | None:
    return at if FIRST_YEAR <= at.year <= LAST_YEAR else None


@dataclass(frozen=True, slots=True, kw_only=True)
class DayOrder:
    """How a file's dates are written where they are numbers.

    Attributes:
        month_first: the month stands before the day.
        doubtful: a date that could be read both ways, where none in the file tells which; empty:
            it is sure.
    """

    month_first: bool = False
    doubtful: str = ""


def day_order(texts: Iterable[str]) -> DayOrder:
    """Return in which order a file's dates are: a number above 12 is a day, dots are day first."""
    doubtful, day_first, month_first = "", 0, 0
    for text in texts:
        found = _NUMBERS.match(text)
        if found is None or len(found["one"]) == _YEAR_DIGITS:
            continue
        one, two = int(found["one"]), int(found["two"])
        if one > _MONTHS_A_YEAR or found["mark"] == ".":
            day_first += 1
        elif two > _MONTHS_A_YEAR:
            month_first += 1
        elif one != two:
            doubtful = doubtful or text
    if day_first or month_first:
        return DayOrder(month_first=month_first > day_first)
    return DayOrder(doubtful=doubtful)


def instant_in(text: str, order: DayOrder) -> datetime | None:
    """Return the instant a text names, without a zone where it names none; ``None`` for no instant."""
    iso = iso_instant(text)
    if iso is not None:
        return iso
    numbers = _NUMBERS.fullmatch(text)
    if numbers is not None:
        return _made(_date_of(numbers, order), numbers)
    words = _WORDS.fullmatch(text)
    if words is None or words["month"].lower() not in _MONTHS:
        return None
    month = _MONTHS.index(words["month"].lower()) + 1
    return _made((_year(words["year"]), month, int(words["day"])), words)


def _date_of(found: re.Match[str], order: DayOrder) -> tuple[int, int, int]:
    if len(found["one"]) == _YEAR_DIGITS:
        return int(found["one"]), int(found["two"]), int(found["three"])
    day, month = int(found["one"]), int(found["two"])
    if order.month_first and found["mark"] != ".":
        day, month = month, day
    return _year(found["three"]), month, day


def _year(text: str) -> int:
    return int(text) if len(text) == _YEAR_DIGITS else _CENTURY + int(text)


def _made(date: tuple[int, int, int], found: re.Match[str]) -> datetime | None:
    year, month, day = date
    hour, minute, second = (int(found[part] or 0) for part in ("hour", "minute", "second"))
    if found["half"]:
        if not 1 <= hour <= _NOON:
            return None
        hour = hour % _NOON + _NOON * (found["half"][0] in "pP")
    try:
        return _within(
            datetime(year, month, day, hour, minute, second, tzinfo=_offset(found["offset"]))
        )
    except ValueError:
        return None


def _offset(text: str | None) -> timezone | None:
    if text is None:
        return None
    digits = re.sub(r"\D", "", text)
    if not digits:
        return UTC
    shift = timedelta(hours=int(digits[:2]), minutes=int(digits[2:]))
    return timezone(-shift if "-" in text else shift)


@dataclass(frozen=True, slots=True, kw_only=True)
class Zoned:
    """Instants in UTC, and what a change of the clocks did to them.

    Attributes:
        at: one for each given; ``None`` where the clocks left the hour out.
        skipped: the places of those left out.
        repeated: a local time that came twice and was told apart by the order of the rows.
    """

    at: tuple[datetime | None, ...]
    skipped: tuple[int, ...]
    repeated: datetime | None


def zoned(locals_: Sequence[datetime], zone: tzinfo) -> Zoned:
    """Return instants in UTC; those without an offset are local times of the zone.

    Where the clocks go back an hour comes twice: the rows tell which is which by their order.
    """
    found: list[datetime | None] = []
    skipped: list[int] = []
    repeated: datetime | None = None
    before = datetime(FIRST_YEAR - 2, 1, 1, tzinfo=UTC)
    for row, local in enumerate(locals_):
        if local.tzinfo is not None:
            before = local.astimezone(UTC)
            found.append(before)
            continue
        first, second = _both(local, zone)
        if first == second:
            at = first
        elif first > second:
            # The clocks went forward over this hour: it is no time of that day.
            skipped.append(row)
            found.append(None)
            continue
        else:
            at = second if first <= before < second else first
            repeated = repeated or (local if at == second else None)
        found.append(at)
        before = at
    return Zoned(at=tuple(found), skipped=tuple(skipped), repeated=repeated)


def _both(local: datetime, zone: tzinfo) -> tuple[datetime, datetime]:
    """Return the instants of a local time by the offset before a change and by that after it."""
    early = local.replace(tzinfo=zone)
    late = early.replace(fold=1)
    if early.utcoffset() == late.utcoffset():
        at = early.astimezone(UTC)
        return at, at
    return early.astimezone(UTC), late.astimezone(UTC)
