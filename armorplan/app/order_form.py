"""Dates of a build as they are typed: local time of the shop, checked before anything is agreed."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

_FORMS = ("%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M", "%d.%m.%Y %H:%M")
_DAYS = ("%Y-%m-%d", "%d.%m.%Y")
_YEARS = (2000, 2199)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedDate:
    """What was typed: an instant, nothing, or a fault in a sentence."""

    at: datetime | None = None
    fault: str = ""


def typed_date(text: str, zone: tzinfo, *, ends: bool) -> TypedDate:
    """Return the instant that is meant.

    Args:
        text: a day, with a time or without; empty for no date.
        zone: the shop's.
        ends: a day without a time means its end, not its beginning.
    """
    written = " ".join(text.split())
    if not written:
        return TypedDate()
    local = _local(written, ends=ends)
    if local is None or not _YEARS[0] <= local.year <= _YEARS[1]:
        wanted = "Write a day, 2026-12-16, or a day and a time, 2026-12-16 17:30."
        return TypedDate(fault=f"'{written}' is no date. {wanted}")
    at = local.replace(tzinfo=zone).astimezone(UTC)
    if at.astimezone(zone).replace(tzinfo=None) != local:
        skipped = f"The clocks go over {written} here: that time does not come."
        return TypedDate(fault=f"{skipped} Write another.")
    return TypedDate(at=at)


def date_text(at: datetime | None, zone: tzinfo) -> str:
    """Return an instant as it would be typed; empty where there is none."""
    return "" if at is None else f"{at.astimezone(zone):%Y-%m-%d %H:%M}"


def _local(written: str, *, ends: bool) -> datetime | None:
    for form in _FORMS:
        found = _read(written, form)
        if found is not None:
            return found
    for form in _DAYS:
        found = _read(written, form)
        if found is not None:
            return _midnight(found.date() + timedelta(days=ends))
    return None


def _read(written: str, form: str) -> datetime | None:
    try:
        return datetime.strptime(written, form)  # noqa: DTZ007 - the zone is the shop's
    except ValueError:
        return None


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time.min)
