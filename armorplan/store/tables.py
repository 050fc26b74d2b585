"""Statements on the open workshop file: one transaction each, troubles in plain words."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from threading import get_ident
from typing import TypeVar

from armorplan.store.columns import Row
from armorplan.store.gate import OPEN, Gate
from armorplan.store.lean import Database
from armorplan.store.troubles import BUSY_S, damage, in_plain_words

_T = TypeVar("_T")


class Tables:
    """Writes and reads rows; every method raises WorkshopError where the file cannot be.

    Only ``read`` may be called in any thread.
    """

    def __init__(self, db: Database, path: Path, gate: Gate = OPEN) -> None:
        self._db = db
        self._path = path
        self._gate = gate
        self._thread = get_ident()

    def write(self, *statements: tuple[str, Row]) -> tuple[int, ...]:
        """Run these in one transaction, which begins with a write and so waits its turn.

        Return the number of the row each one wrote. ReadsAlongError: it is another window's turn.
        """
        if not statements:
            return ()
        with self._gate.writing(), in_plain_words(self._path, "written"), self._db.atomic():
            return tuple(self._db.execute(sql, row).lastrowid or 0 for sql, row in statements)

    def read(self, value_of: Callable[[Row], _T], sql: str, values: Row) -> tuple[_T, ...]:
        """Return the value of each row; WorkshopError where one holds what no value can."""
        with in_plain_words(self._path, "read"), self._here() as db:
            # Fetched whole: a half-read answer would pin an old view and block later writes.
            rows = list(db.query(sql, values))
        try:
            return tuple(value_of(row) for row in rows)
        except (TypeError, ValueError) as error:
            raise damage(self._path, str(error)) from error

    @contextmanager
    def _here(self) -> Iterator[Database]:
        """Give the connection of this thread: SQLite's stay in the thread that opened them."""
        if get_ident() == self._thread:
            yield self._db
            return
        # Opened as a file that is there: a file that was taken away is not made anew, empty.
        uri = f"{self._path.absolute().as_uri()}?mode=rw"
        with closing(sqlite3.connect(uri, timeout=BUSY_S, uri=True)) as opened:
            opened.execute("PRAGMA query_only = ON")
            yield Database(opened, execute_plugins=False, strict=True)

    def mark(self) -> tuple[int, int]:
        """Return a value that is another once this or any other window has written.

        It costs some microseconds and reads no table.
        """
        with in_plain_words(self._path, "read"):
            version = self._db.execute("PRAGMA data_version").fetchone()[0]
        return int(version), self._db.conn.total_changes
