"""What a workshop holds, and what of it another one lacks."""

import sqlite3
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from armorplan.store.backing_up import counts


@dataclass(frozen=True, slots=True, kw_only=True)
class Holdings:
    """What a workshop holds.

    Attributes:
        builds: the names of its builds, the oldest first.
        entries: how many entries its ledger has.
        last_at: the instant of the last of them.
        keepsakes: how many notes, measurements and photos there are.
        promises: how many plans were promised.
        timers: how many entries there are about timers.
    """

    builds: tuple[str, ...]
    entries: int
    last_at: datetime | None
    keepsakes: int
    promises: int
    timers: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacking:
    """What one workshop has and another one lacks.

    Attributes:
        builds: names of the builds that would be missing.
        entries: by the name of a build, how many entries of its ledger would be; most first.
        since_at: the instant of the first of those entries.
        rows: by table, how many rows would be missing of all that is only added to.
    """

    builds: tuple[str, ...]
    entries: tuple[tuple[str, int], ...]
    since_at: datetime | None
    rows: tuple[tuple[str, int], ...]


def holdings(db: sqlite3.Connection) -> Holdings:
    """Return what a workshop of the present form holds."""
    found = counts(db)
    names = db.execute("SELECT name FROM builds ORDER BY rowid").fetchall()
    last = db.execute("SELECT at FROM events ORDER BY seq DESC LIMIT 1").fetchone()
    return Holdings(
        builds=tuple(str(row[0]) for row in names),
        entries=found["events"],
        last_at=datetime.fromisoformat(last[0]) if last else None,
        keepsakes=found["keepsakes"],
        promises=found["promises"],
        timers=found["timer_entries"],
    )


_MISSING = (
    "SELECT {what} FROM (SELECT * FROM main.{table} EXCEPT SELECT * FROM other.{table}) AS one"
)


def lacking(db: sqlite3.Connection, other: str) -> Lacking:
    """Return what a workshop has that the one in the file ``other`` lacks, both of one form.

    Rows are compared whole: after a restoring, numbers are given anew.
    """
    db.execute("ATTACH DATABASE ? AS other", (other,))
    try:
        rows = {
            table: int(_one(db, _MISSING.format(what="count(*)", table=table)))
            for table in counts(db)
        }
        by_build = db.execute(
            _MISSING.format(what="builds.name, count(*) AS many", table="events")
            + " JOIN main.builds AS builds ON builds.id = one.build"
            " GROUP BY one.build ORDER BY many DESC, one.build"
        ).fetchall()
        since = _one(db, _MISSING.format(what="min(one.at)", table="events"))
        builds = db.execute(
            "SELECT name FROM main.builds WHERE id NOT IN (SELECT id FROM other.builds)"
            " ORDER BY rowid"
        ).fetchall()
    finally:
        db.execute("DETACH DATABASE other")
    return Lacking(
        builds=tuple(str(row[0]) for row in builds),
        entries=tuple((str(name), int(many)) for name, many in by_build),
        since_at=datetime.fromisoformat(str(since)) if since else None,
        rows=tuple((table, many) for table, many in rows.items() if many),
    )


def _one(db: sqlite3.Connection, sql: str) -> Any:
    return db.execute(sql).fetchone()[0]
