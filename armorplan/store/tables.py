"""Statements on the open workshop file: one transaction each, troubles in plain words."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from armorplan.store.columns import Row
from armorplan.store.gate import OPEN, Gate
from armorplan.store.lean import Database
from armorplan.store.troubles import damage, in_plain_words

_T = TypeVar("_T")


class Tables:
    """Writes and reads rows; every method raises WorkshopError where the file cannot be."""

    def __init__(self, db: Database, path: Path, gate: Gate = OPEN) -> None:
        self._db = db
        self._path = path
        self._gate = gate

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
        with in_plain_words(self._path, "read"):
            # Fetched whole: a half-read answer would pin an old view and block later writes.
            rows = list(self._db.query(sql, values))
        try:
            return tuple(value_of(row) for row in rows)
        except (TypeError, ValueError) as error:
            raise damage(self._path, str(error)) from error

    def mark(self) -> tuple[int, int]:
        """Return a value that is another once this or any other window has written.

        It costs some microseconds and reads no table.
        """
        with in_plain_words(self._path, "read"):
            version = self._db.execute("PRAGMA data_version").fetchone()[0]
        return int(version), self._db.conn.total_changes
