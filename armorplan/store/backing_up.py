"""Makes a backup of a workshop: whole or not at all, and looked through before it counts."""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.store.backups import (
    Backup,
    BackupKind,
    backup_folder,
    backup_path,
    numbered_backups,
    worn_out,
)
from armorplan.store.on_disk import settle_file, settle_folder
from armorplan.store.troubles import in_plain_words

GROWING = (
    "builds",
    "events",
    "timer_entries",
    "absences",
    "cut_settings",
    "air_kept",
    "fresh_starts",
    "promises",
    "keepsakes",
    "keepsakes_withdrawn",
    "drills",
    "drill_reasons",
    "skills",
    "restorings",
)
"""Tables that are only added to."""

_HALF = ".partial"


def back_up_today(path: Path, clock: Clock) -> Backup | None:
    """Make the backup of this day, once; return it, or ``None`` where there is one already.

    Then those that are not kept any longer are taken away. It may run in any thread, beside
    windows that read and write.

    Raises:
        WorkshopError: it could not be written, or is not as the workshop; the former ones stand.
    """
    now_at = clock.now()
    days = [b for b in numbered_backups(path) if b.kind is BackupKind.DAILY]
    if days and days[-1].made_at.astimezone().date() == now_at.astimezone().date():
        return None
    _sweep(backup_folder(path))
    made = back_up(path, BackupKind.DAILY, clock)
    for old in worn_out(numbered_backups(path)):
        # One that cannot be taken away now is the next time.
        with suppress(OSError):
            old.path.unlink()
    return made


def back_up(path: Path, kind: BackupKind, clock: Clock) -> Backup:
    """Make a backup of a workshop as last committed, and look it through.

    Raises:
        WorkshopError: it could not be written, or is not as the workshop.
    """
    number = 1 + max((b.number for b in numbered_backups(path)), default=0)
    at = clock.now()
    target = backup_path(path, kind, number, at)
    copy_whole(path, target)
    return Backup(path=target, kind=kind, made_at=at, number=number)


def copy_whole(path: Path, target: Path) -> None:
    """Copy a workshop to a new file: under its name it is whole, looked through, and on the disk.

    Raises:
        WorkshopError: it could not be written, or is not as the workshop.
    """
    partial = target.with_name(f"{target.name}{_HALF}")
    with in_plain_words(target, "written as a backup"):
        target.parent.mkdir(parents=True, exist_ok=True)
        try:
            _pour(path, partial)
            settle_file(partial)
            partial.replace(target)
        finally:
            partial.unlink(missing_ok=True)
        settle_folder(target.parent)


def _sweep(folder: Path) -> None:
    """Take away what is left of backups that a kill cut off."""
    with suppress(OSError):
        for half in folder.glob(f"*{_HALF}"):
            half.unlink()


def _pour(path: Path, partial: Path) -> None:
    partial.unlink(missing_ok=True)
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(partial)) as copy:
        least = counts(source)
        source.backup(copy)
        # One file that says all by itself, without companions.
        copy.execute("PRAGMA journal_mode = DELETE").fetchall()
        fault = _fault(copy, least)
    if fault:
        raise WorkshopError(
            f"The backup {partial} is not as the workshop {path} ({fault}), so it was not kept. "
            "Check the disk. The workshop itself and the backups before stand as they were."
        )


def _fault(copy: sqlite3.Connection, least: dict[str, int]) -> str:
    """Say what is wrong with a copy; empty where nothing is."""
    answers = [str(row[0]) for row in copy.execute("PRAGMA integrity_check(3)").fetchall()]
    if answers != ["ok"]:
        return "; ".join(answers)
    if copy.execute("PRAGMA foreign_key_check").fetchall():
        return "an entry belongs to no build"
    found = counts(copy)
    short = [table for table, number in least.items() if found.get(table, 0) < number]
    return f"rows are missing in {', '.join(short)}" if short else ""


def counts(db: sqlite3.Connection) -> dict[str, int]:
    """Return how many rows each table that is only added to has; files of old forms lack some."""
    there = {row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    return {
        table: int(db.execute(f"SELECT count(*) FROM {table}").fetchone()[0])  # noqa: S608
        for table in GROWING
        if table in there
    }
