"""Instants as they are typed on the command line."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError

_FIRST_YEAR, _LAST_YEAR = 1980, 2200
"""Calendars and time zones are sure within these; nobody plans armour outside them."""


def start_of(given: str | None, zone: str) -> datetime:
    """Return the instant that ``--from`` names, now where it does not; without an offset local time.

    Raises:
        ArmorplanError: it is no instant, or out of reach.
    """
    if given is None:
        return SystemClock().now().replace(second=0, microsecond=0)
    try:
        instant = datetime.fromisoformat(given)
    except ValueError as error:
        message = f"--from: '{given}' is no instant. Write it like 2026-11-30T09:00."
        raise ArmorplanError(message) from error
    if not _FIRST_YEAR <= instant.year <= _LAST_YEAR:
        message = f"--from: {given} is out of reach. Name a day between 1980 and 2200."
        raise ArmorplanError(message)
    if instant.tzinfo is None:
        instant = instant.replace(tzinfo=ZoneInfo(zone))
    return instant.astimezone(UTC).replace(second=0, microsecond=0)
