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
        _check_clock(instant, zone)
        instant = instant.replace(tzinfo=ZoneInfo(zone))
    return instant.astimezone(UTC).replace(second=0, microsecond=0)


def _check_clock(local: datetime, zone: str) -> None:
    """Refuse a local time that the clock goes forward over: another would be planned from."""
    instant = local.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC)
    shown = instant.astimezone(ZoneInfo(zone)).replace(tzinfo=None)
    if shown != local.replace(tzinfo=None, fold=0):
        message = (
            f"--from: there is no {local:%H:%M} on {local:%d %B %Y} in {zone}: the clock goes "
            f"forward over it. Write {shown:%H:%M}, or a time before the clock goes forward."
        )
        raise ArmorplanError(message)
