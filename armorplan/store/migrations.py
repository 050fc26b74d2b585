"""The tables of the workshop file: each released form is one migration, added at the end.

A migration never changes once released; the next form is a new one, with ``SCHEMA.version``
counted up and a file of the form before it kept in ``tests/store/golden``.
"""

from dataclasses import dataclass

from armorplan.store.drill_tables import DRILLS_SKILLS
from armorplan.store.lean import Database, Migrations
from armorplan.store.only_added import ONLY_ADDED_TO


@dataclass(frozen=True, slots=True, kw_only=True)
class Schema:
    """The migrations, and the number (``user_version``) of a file that has them all."""

    version: int
    migrations: Migrations


_MIGRATIONS = Migrations("armorplan")

_BUILDS_PLANS_EVENTS = (
    """
    CREATE TABLE builds (
        id TEXT PRIMARY KEY NOT NULL,
        name TEXT NOT NULL,
        pattern_uuid TEXT NOT NULL,
        pattern_version INTEGER NOT NULL,
        pattern_hash TEXT NOT NULL,
        created_at TEXT NOT NULL,
        pattern_files_json TEXT NOT NULL,
        constants_json TEXT NOT NULL,
        relations_json TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE events (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        build TEXT NOT NULL REFERENCES builds(id),
        step TEXT NOT NULL,
        kind TEXT NOT NULL,
        at TEXT NOT NULL,
        boot_id TEXT NOT NULL,
        boot_s REAL NOT NULL,
        batch TEXT NOT NULL,
        who TEXT NOT NULL,
        text TEXT NOT NULL,
        undoes TEXT
    ) STRICT
    """,
    "CREATE INDEX events_by_build ON events(build, seq)",
    """
    CREATE TABLE plans (
        build TEXT PRIMARY KEY NOT NULL REFERENCES builds(id),
        saved_at TEXT NOT NULL,
        plan_json TEXT NOT NULL
    ) STRICT
    """,
    # A renamed build is still the same making; everything else of it is its snapshot.
    """
    CREATE TRIGGER builds_keep_their_snapshot
    BEFORE UPDATE OF id, pattern_uuid, pattern_version, pattern_hash, created_at,
        pattern_files_json, constants_json, relations_json ON builds
    BEGIN SELECT RAISE(ABORT, 'the snapshot of a build never changes'); END
    """,
    """
    CREATE TRIGGER builds_stay BEFORE DELETE ON builds
    BEGIN SELECT RAISE(ABORT, 'a build is never deleted'); END
    """,
    # REPLACE deletes without firing delete triggers where recursive triggers are off.
    """
    CREATE TRIGGER builds_are_not_replaced BEFORE INSERT ON builds
    WHEN EXISTS (SELECT 1 FROM builds WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'there is already a build of this id'); END
    """,
    """
    CREATE TRIGGER events_never_change BEFORE UPDATE ON events
    BEGIN SELECT RAISE(ABORT, 'an entry of the ledger never changes'); END
    """,
    """
    CREATE TRIGGER events_stay BEFORE DELETE ON events
    BEGIN SELECT RAISE(ABORT, 'an entry of the ledger is never deleted'); END
    """,
    """
    CREATE TRIGGER events_are_not_replaced BEFORE INSERT ON events
    WHEN EXISTS (SELECT 1 FROM events WHERE seq = NEW.seq)
    BEGIN SELECT RAISE(ABORT, 'an entry of the ledger is never replaced'); END
    """,
)


@_MIGRATIONS(name="0001-builds-events-plans")
def _builds_events_plans(db: Database) -> None:
    for statement in _BUILDS_PLANS_EVENTS:
        db.execute(statement)


@_MIGRATIONS(name="0002-folder-of-a-build")
def _folder_of_a_build(db: Database) -> None:
    # Outside the snapshot: a folder may be moved, and the build is still the same.
    db.execute("ALTER TABLE builds ADD COLUMN folder TEXT NOT NULL DEFAULT ''")


_TIMERS_AIR_FRESH_STARTS = (
    """
    CREATE TABLE timer_entries (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        timer TEXT NOT NULL,
        kind TEXT NOT NULL,
        at TEXT NOT NULL,
        boot_id TEXT NOT NULL,
        boot_s REAL NOT NULL,
        minutes REAL NOT NULL,
        text TEXT NOT NULL
    ) STRICT
    """,
    "CREATE INDEX timer_entries_by_timer ON timer_entries(timer, kind, seq)",
    # What is kept here follows from the ledger, so that it may be written anew at any time.
    """
    CREATE TABLE timers_kept (
        build TEXT PRIMARY KEY NOT NULL REFERENCES builds(id),
        saved_at TEXT NOT NULL,
        rows_json TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE air_kept (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        room_json TEXT NOT NULL
    ) STRICT
    """,
    """
    CREATE TABLE fresh_starts (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        what TEXT NOT NULL
    ) STRICT
    """,
    *(
        statement.replace("<table>", table)
        for table in ("timer_entries", "air_kept", "fresh_starts")
        for statement in ONLY_ADDED_TO
    ),
)


@_MIGRATIONS(name="0003-timers-air-fresh-starts")
def _timers_air_fresh_starts(db: Database) -> None:
    for statement in _TIMERS_AIR_FRESH_STARTS:
        db.execute(statement)


_ORDERS_PROMISES = (
    # What was agreed may be agreed anew; a build of an older file has nothing agreed about it.
    """
    CREATE TABLE orders (
        build TEXT PRIMARY KEY NOT NULL REFERENCES builds(id),
        due_at TEXT,
        ready_at TEXT,
        weight INTEGER NOT NULL,
        in_hand INTEGER NOT NULL,
        wearer TEXT NOT NULL,
        after_json TEXT NOT NULL,
        source TEXT NOT NULL,
        key TEXT NOT NULL,
        told TEXT NOT NULL,
        saved_at TEXT NOT NULL
    ) STRICT
    """,
    # Two windows that open one shop file at once must not begin its builds twice.
    "CREATE UNIQUE INDEX orders_by_key ON orders(source, key) WHERE key <> ''",
    """
    CREATE TABLE promises (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        plan_json TEXT NOT NULL
    ) STRICT
    """,
    *(statement.replace("<table>", "promises") for statement in ONLY_ADDED_TO),
)


@_MIGRATIONS(name="0004-orders-promises")
def _orders_promises(db: Database) -> None:
    for statement in _ORDERS_PROMISES:
        db.execute(statement)


_KEEPSAKES_RESTORINGS = (
    # A keepsake that was put down by mistake is withdrawn by a row of its own.
    """
    CREATE TABLE keepsakes (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        build TEXT NOT NULL REFERENCES builds(id),
        about_kind TEXT NOT NULL,
        about TEXT NOT NULL,
        at TEXT NOT NULL,
        who TEXT NOT NULL,
        text TEXT NOT NULL,
        value REAL,
        unit TEXT NOT NULL,
        file TEXT NOT NULL,
        sha256 TEXT NOT NULL,
        size INTEGER NOT NULL
    ) STRICT
    """,
    "CREATE INDEX keepsakes_by_build ON keepsakes(build, seq)",
    """
    CREATE TABLE keepsakes_withdrawn (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        keepsake INTEGER NOT NULL REFERENCES keepsakes(seq),
        at TEXT NOT NULL,
        who TEXT NOT NULL
    ) STRICT
    """,
    # Who said at the bench that somebody is away; the last one of each person counts.
    """
    CREATE TABLE absences (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        person TEXT NOT NULL,
        from_at TEXT NOT NULL,
        until_at TEXT NOT NULL
    ) STRICT
    """,
    # What was put in the place of a file, so that windows that stand open notice.
    """
    CREATE TABLE restorings (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        backup TEXT NOT NULL,
        kept_as TEXT NOT NULL
    ) STRICT
    """,
    # From now on the last row is the plan that was kept last.
    "REPLACE INTO plans SELECT * FROM plans ORDER BY saved_at, build DESC",
    *(
        statement.replace("<table>", table)
        for table in ("keepsakes", "keepsakes_withdrawn", "absences", "restorings")
        for statement in ONLY_ADDED_TO
    ),
)


@_MIGRATIONS(name="0005-keepsakes-restorings")
def _keepsakes_restorings(db: Database) -> None:
    for statement in _KEEPSAKES_RESTORINGS:
        db.execute(statement)


_CUT_SETTINGS = (
    """
    CREATE TABLE cut_settings (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        machine TEXT NOT NULL,
        leather TEXT NOT NULL,
        thickness_mm REAL NOT NULL,
        words TEXT NOT NULL,
        passes INTEGER NOT NULL,
        result TEXT NOT NULL,
        kerf_mm REAL,
        note TEXT NOT NULL,
        who TEXT NOT NULL
    ) STRICT
    """,
    *(statement.replace("<table>", "cut_settings") for statement in ONLY_ADDED_TO),
)


@_MIGRATIONS(name="0006-cut-settings")
def _cut_settings(db: Database) -> None:
    for statement in _CUT_SETTINGS:
        db.execute(statement)


@_MIGRATIONS(name="0007-drills-skills")
def _drills_skills(db: Database) -> None:
    for statement in DRILLS_SKILLS:
        db.execute(statement)


SCHEMA = Schema(version=7, migrations=_MIGRATIONS)
