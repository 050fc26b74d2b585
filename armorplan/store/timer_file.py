"""Timers in the workshop file: what was done about them, and those of each build as they stood."""

from dataclasses import dataclass, replace
from datetime import datetime

from armorplan.kernel.clock import Clock
from armorplan.ledger.records import Moment
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind
from armorplan.store.columns import Row, instant_text
from armorplan.store.tables import Tables

_APPEND = """
    INSERT INTO timer_entries (timer, kind, at, boot_id, boot_s, minutes, text)
    VALUES (:timer, :kind, :at, :boot_id, :boot_s, :minutes, :text)
"""
_SINCE = "SELECT * FROM timer_entries WHERE seq > :seq ORDER BY seq"
_OPEN = """
    SELECT * FROM timer_entries
    WHERE seq > (SELECT coalesce(max(seq), 0) FROM timer_entries) - :latest
    OR timer IN (
        SELECT timer FROM timer_entries WHERE kind = 'set'
        EXCEPT SELECT timer FROM timer_entries WHERE kind = 'stopped'
    )
    ORDER BY seq
"""
_LATEST = 5000
"""Answers older than so many entries belong to timers that ended long ago."""
_KEEP = """
    INSERT INTO timers_kept (build, saved_at, rows_json) VALUES (:build, :saved_at, :rows_json)
    ON CONFLICT (build) DO UPDATE SET saved_at = excluded.saved_at, rows_json = excluded.rows_json
"""
_GO_ON = """
    SELECT 1 AS found FROM events
    WHERE build = :former AND batch IN (SELECT batch FROM events WHERE build = :build)
    UNION SELECT 1 FROM builds AS mine JOIN builds AS other USING (pattern_uuid, folder)
    WHERE mine.id = :build AND other.id = :former AND folder <> ''
    LIMIT 1
"""
_KEPT = "SELECT * FROM timers_kept ORDER BY build"


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptTimers:
    """A build's timers as they stood when it was last changed, as text."""

    build: str
    saved_at: datetime
    rows_json: str


class TimerFile:
    """Keeps timers; WorkshopError where the file cannot be read or written."""

    def __init__(self, tables: Tables, clock: Clock) -> None:
        self._tables = tables
        self._clock = clock

    def append(self, entries: tuple[TimerEntry, ...]) -> tuple[TimerEntry, ...]:
        """Append entries, all or none, and return them with their numbers."""
        numbers = self._tables.write(*((_APPEND, _entry_row(entry)) for entry in entries))
        return tuple(replace(e, seq=seq) for e, seq in zip(entries, numbers, strict=True))

    def since(self, seq: int) -> tuple[TimerEntry, ...]:
        """Return the entries numbered above ``seq``, of whichever window, in order."""
        return self._tables.read(_entry_of, _SINCE, {"seq": seq})

    def open(self) -> tuple[TimerEntry, ...]:
        """Return what still matters, in order: free timers that run, and the latest answers."""
        return self._tables.read(_entry_of, _OPEN, {"latest": _LATEST})

    def keep(self, build_id: str, rows_json: str) -> None:
        """Keep these as a build's timers, in place of those before."""
        self._tables.write(self.keeping(build_id, rows_json))

    def keeping(self, build_id: str, rows_json: str) -> tuple[str, Row]:
        """Return the statement of ``keep``, to be run together with others."""
        saved_at = instant_text(self._clock.now())
        return _KEEP, {"build": build_id, "saved_at": saved_at, "rows_json": rows_json}

    def kept(self) -> tuple[KeptTimers, ...]:
        """Return the timers of each build that kept any."""
        return self._tables.read(_kept_of, _KEPT, {})

    def go_on(self, build_id: str, former: str) -> bool:
        """Tell whether of two builds one goes on from the other.

        It has entries of it, or is of the same folder: that goes on from its own builds.
        """
        asked = {"build": build_id, "former": former}
        return bool(self._tables.read(lambda _: True, _GO_ON, asked))


def _entry_row(entry: TimerEntry) -> Row:
    return {
        "timer": entry.timer,
        "kind": entry.kind.value,
        "at": instant_text(entry.moment.at),
        "boot_id": entry.moment.boot_id,
        "boot_s": float(entry.moment.boot_s),
        "minutes": float(entry.minutes),
        "text": entry.text,
    }


def _entry_of(row: Row) -> TimerEntry:
    moment = Moment(
        at=datetime.fromisoformat(row["at"]), boot_id=row["boot_id"], boot_s=row["boot_s"]
    )
    return TimerEntry(
        timer=row["timer"],
        kind=TimerEntryKind(row["kind"]),
        moment=moment,
        minutes=row["minutes"],
        text=row["text"],
        seq=row["seq"],
    )


def _kept_of(row: Row) -> KeptTimers:
    return KeptTimers(**{**row, "saved_at": datetime.fromisoformat(row["saved_at"])})
