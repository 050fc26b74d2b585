"""Times of day in TOML tables."""

import re
from datetime import time

from armorplan.files.tables import Table

_CLOCK = re.compile(r"([01]\d|2[0-3]):([0-5]\d)")


def clock(entry: Table, key: str) -> time | None:
    """Return a time of day, written as text or as a TOML time."""
    value = entry.raw(key)
    if isinstance(value, time):
        return value
    match = _CLOCK.fullmatch(value) if isinstance(value, str) else None
    if match:
        return time(int(match[1]), int(match[2]))
    if value is None:
        entry.missing(key, wanted='"09:00"')
    else:
        entry.wrong(key, value, wanted='a time of day, "00:00" to "23:59"')
    return None
