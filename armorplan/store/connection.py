"""The one way a workshop file is opened: recognised, checked, upgraded, and set to keep all."""

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from armorplan.kernel.errors import WorkshopError
from armorplan.store.backing_up import copy_whole
from armorplan.store.gate import OPEN, Gate
from armorplan.store.lean import Database
from armorplan.store.migrations import SCHEMA, Schema
from armorplan.store.troubles import BUSY_S, damage, in_plain_words, is_busy, read_only

APPLICATION_ID = 0x61726D70
"""Marks the file as ours in its header, so that no other program's database is touched."""

_RETRY_S = 0.02


def connect(path: Path, *, schema: Schema = SCHEMA, gate: Gate = OPEN) -> Database:
    """Open a workshop file, or make it.

    A file of an older form is backed up beside itself and upgraded, all or nothing; ``gate`` says
    whether that may be done.

    Raises:
        WorkshopError: it cannot be opened, read or written, is damaged, is not a workshop file,
            or is newer than this program. Such a file is left as it is.
    """
    with in_plain_words(path, "opened"):
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and not path.is_file():
            raise WorkshopError(
                f"The workshop file {path} could not be opened: that is a folder or a device. "
                "Choose the name of a file."
            )
        # SQLite would open it for reading and refuse the first entry.
        if path.exists() and not os.access(path, os.W_OK):
            raise read_only(path)
        # The file is opened by SQLite alone: closing a handle of our own would drop its locks.
        db = Database(sqlite3.connect(path, timeout=BUSY_S), execute_plugins=False, strict=True)
        try:
            _prepare(db, path, schema, gate)
        except BaseException:
            db.close()
            raise
    return db


def _prepare(db: Database, path: Path, schema: Schema, gate: Gate) -> None:
    """Prepare the connection, again while another window holds the file.

    Switching a new file to WAL answers 'locked' at once, whatever the timeout.
    """
    give_up_s = time.monotonic() + BUSY_S
    while True:
        try:
            _check_and_upgrade(db, path, schema, gate)
        except sqlite3.OperationalError as error:
            if not is_busy(error) or time.monotonic() > give_up_s:
                raise
            time.sleep(_RETRY_S)
        else:
            return


def _check_and_upgrade(db: Database, path: Path, schema: Schema, gate: Gate) -> None:
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA synchronous = FULL")
    # Only macOS knows it: there a plain sync leaves data in the drive's own memory.
    db.execute("PRAGMA fullfsync = ON")
    if _version(db, path, schema):
        _check_pages(db, path)
    db.execute("PRAGMA journal_mode = WAL").fetchall()
    if _version(db, path, schema) == schema.version:
        return
    with gate.writing(), _only_writer(db):
        version = _version(db, path, schema)
        if version == schema.version:
            return
        if version:
            _back_up(path, schema.version)
        schema.migrations.apply(db)
        db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
        db.execute(f"PRAGMA user_version = {schema.version}")


def _pragma(db: Database, name: str) -> int:
    return int(db.execute(f"PRAGMA {name}").fetchone()[0])


def _version(db: Database, path: Path, schema: Schema) -> int:
    """Return the form of the file, 0 where it is empty; raise where it is not for us."""
    version = _pragma(db, "user_version")
    ours = _pragma(db, "application_id") == APPLICATION_ID
    if not ours:
        if version or _pragma(db, "application_id") or _pragma(db, "schema_version"):
            raise WorkshopError(
                f"{path} is another program's database, not a workshop file. It was left as it "
                "is. Choose another file."
            )
        return 0
    if version > schema.version:
        raise WorkshopError(
            f"The workshop file {path} was written by a newer Armorplan (form {version}; this "
            f"program knows up to {schema.version}). It was left as it is. Install the newer "
            "Armorplan, or choose another file."
        )
    return version


def _check_pages(db: Database, path: Path) -> None:
    answers = [str(row[0]) for row in db.execute("PRAGMA integrity_check(3)").fetchall()]
    if answers != ["ok"]:
        raise damage(path, "; ".join(answer.replace("\n", " ") for answer in answers))


@contextmanager
def _only_writer(db: Database) -> Iterator[None]:
    """Hold the write lock from before the first read; ``Database.atomic`` takes it too late."""
    db.conn.execute("BEGIN IMMEDIATE")
    try:
        yield
        db.commit()
    except BaseException:
        db.rollback()
        raise


def _back_up(path: Path, version: int) -> None:
    """Copy the file as last committed to ``<name>.before-<version>.backup``, whole or not."""
    target = path.with_name(f"{path.name}.before-{version}.backup")
    try:
        copy_whole(path, target)
    except WorkshopError as error:
        raise WorkshopError(f"{error} Nothing was upgraded.") from error
