"""The workshop's own air in the workshop file: each state it was kept in, the last one counts."""

from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_KEEP = "INSERT INTO air_kept (at, room_json) VALUES (:at, :room_json)"
_LAST = "SELECT seq, at, room_json FROM air_kept ORDER BY seq DESC LIMIT 1"
_LATEST = "SELECT coalesce(max(seq), 0) AS seq FROM air_kept"
_ONE = "SELECT seq, at, room_json FROM air_kept WHERE seq = :seq"
_SINCE = (
    "SELECT seq, at, room_json FROM air_kept WHERE at >= :since "
    "OR seq = (SELECT max(seq) FROM air_kept WHERE at < :since) "
    "OR seq = (SELECT max(seq) FROM air_kept) ORDER BY seq"
)
AirRow = tuple[int, datetime, str]
"""A number, since when it holds, and the air as text."""


class AirFile:
    """Keeps the air as text; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def keep(self, room_json: str) -> None:
        """Keep this as the workshop's air from now on; what was kept before stays below it."""
        row = {"at": instant_text(self._clock.now()), "room_json": room_json}
        self._tables.write((_KEEP, row))

    def last(self) -> AirRow | None:
        """Return the air kept last, or ``None``."""
        found = self._tables.read(_kept, _LAST, {})
        return found[0] if found else None

    def latest(self) -> int:
        """Return the number of the air kept last; 0 where none is."""
        return self._tables.read(lambda row: int(row["seq"]), _LATEST, {})[0]

    def text(self, seq: int) -> str | None:
        """Return the air of this number as text, or ``None``."""
        found = self._tables.read(_kept, _ONE, {"seq": seq})
        return found[0][2] if found else None

    def since(self, at: datetime) -> tuple[AirRow, ...]:
        """Return what was kept since an instant, and what held then, in order."""
        return self._tables.read(_kept, _SINCE, {"since": instant_text(at)})


def _kept(row: Row) -> AirRow:
    return int(row["seq"]), datetime.fromisoformat(row["at"]), str(row["room_json"])
