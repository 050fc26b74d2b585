"""Instants as they are typed on the command line."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from armorplan.files.log_times import FIRST_YEAR, LAST_YEAR
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError


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
    if not FIRST_YEAR <= instant.year <= LAST_YEAR:
        message = (
            f"--from: {given} is out of reach. Name a day between {FIRST_YEAR} and {LAST_YEAR}."
        )
        raise ArmorplanError(message)
    if instant.tzinfo is None:
        instant = instant.replace(tzinfo=ZoneInfo(zone))
    return instant.astimezone(UTC).replace(second=0, microsecond=0)
