"""The workshop's own air in the workshop file: each state it was kept in, the last one counts."""

from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_KEEP = "INSERT INTO air_kept (at, room_json) VALUES (:at, :room_json)"
_LAST = "SELECT room_json FROM air_kept ORDER BY seq DESC LIMIT 1"
_ALL = "SELECT at, room_json FROM air_kept ORDER BY seq"


class AirFile:
    """Keeps the air as text; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def keep(self, room_json: str) -> None:
        """Keep this as the workshop's air from now on; what was kept before stays below it."""
        row = {"at": instant_text(self._clock.now()), "room_json": room_json}
        self._tables.write((_KEEP, row))

    def last(self) -> str | None:
        """Return the air kept last, or ``None``."""
        found = self._tables.read(lambda row: str(row["room_json"]), _LAST, {})
        return found[0] if found else None

    def all(self) -> tuple[tuple[datetime, str], ...]:
        """Return every air that was kept, and since when, in order."""
        return self._tables.read(_kept, _ALL, {})


def _kept(row: Row) -> tuple[datetime, str]:
    return datetime.fromisoformat(row["at"]), str(row["room_json"])
