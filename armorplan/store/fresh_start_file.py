"""Fresh starts in the workshop file: from when on something is learned from nothing again."""

from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_ADD = "INSERT INTO fresh_starts (at, what) VALUES (:at, :what)"
_LATEST = "SELECT what, max(at) AS at FROM fresh_starts GROUP BY what ORDER BY what"


class FreshStartFile:
    """Keeps fresh starts; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def add(self, what: str) -> datetime:
        """Keep that this (a treatment's id, say) is learned anew from now on; return the instant."""
        at = self._clock.now()
        self._tables.write((_ADD, {"at": instant_text(at), "what": what}))
        return at

    def latest(self) -> dict[str, datetime]:
        """Return by what, the instant from which on it is learned anew."""
        return dict(self._tables.read(_latest, _LATEST, {}))


def _latest(row: Row) -> tuple[str, datetime]:
    return str(row["what"]), datetime.fromisoformat(row["at"])
