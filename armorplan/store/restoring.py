"""Puts a backup in the place of a workshop: rehearsed first, and nothing that stood there is lost.

A rehearsal does on a copy all that restoring does: the backup is brought to the present form, looked
through, and every build's ledger is read. Only then it is known what it holds and what would be
missing. Restoring pours that copy into the workshop in one transaction, so that windows that stand
open see it like any other write, and a kill leaves the one or the other. What stood there is kept
as a backup before. A file too damaged for that is moved aside whole, with its companions.
"""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from shutil import copy2, copyfile, rmtree
from tempfile import TemporaryDirectory

from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.state import derive
from armorplan.store.backing_up import back_up, counts
from armorplan.store.backups import Backup, BackupKind
from armorplan.store.columns import instant_text
from armorplan.store.connection import connect
from armorplan.store.gate import OPEN, Gate
from armorplan.store.holdings import Holdings, Lacking, holdings, lacking
from armorplan.store.on_disk import settle_file, settle_folder
from armorplan.store.troubles import DamagedError, in_plain_words
from armorplan.store.workshop_file import WorkshopFile

_TELL = "INSERT INTO restorings (at, backup, kept_as) VALUES (?, ?, ?)"
_COPY = ".rehearsal-"
_LEFT_OVER_S = 3600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rehearsal:
    """A restoring that was tried on a copy, and went well.

    Attributes:
        backup: what was tried.
        holds: what the workshop would hold.
        lost: what the present workshop has and it would lack; ``None``: the present one is too
            damaged to tell.
    """

    backup: Backup
    holds: Holdings
    lost: Lacking | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """A backup was put in place.

    Attributes:
        rehearsal: what was known before.
        kept_as: where what stood there lies now.
    """

    rehearsal: Rehearsal
    kept_as: Path


def rehearse(path: Path, backup: Backup, clock: Clock) -> Rehearsal:
    """Try to restore a backup, on a copy beside the workshop; the workshop is only read.

    Raises:
        WorkshopError: it is damaged, written by a newer program, or there is no room to try.
    """
    with in_plain_words(path, "rehearsed"), _copy_made_ready(path, backup, clock) as ready:
        return _told(path, backup, ready)


def restore(path: Path, backup: Backup, clock: Clock, gate: Gate = OPEN) -> Restored:
    """Put a backup in the place of the workshop; what stood there is kept beside it.

    Raises:
        ReadsAlongError: another window writes in the workshop.
        WorkshopError: as ``rehearse``, or it could not be written. The workshop is as it was.
    """
    with in_plain_words(path, "restored"), _copy_made_ready(path, backup, clock) as ready:
        told = _told(path, backup, ready)
        # Only from here on: what is written meanwhile is in the backup that is made now.
        with gate.writing():
            if told.lost is None:
                kept_as = _put_in_place(path, ready, backup, clock)
            else:
                kept_as = back_up(path, BackupKind.RESTORING, clock).path
                _note(ready, backup, kept_as, clock)
                _pour(ready, path)
    return Restored(rehearsal=told, kept_as=kept_as)


@contextmanager
def _copy_made_ready(path: Path, backup: Backup, clock: Clock) -> Iterator[Path]:
    """Copy a backup beside the workshop, bring it to the present form, and read all of it."""
    _sweep(path.parent, clock)
    with TemporaryDirectory(prefix=_own_copy(), dir=path.parent) as folder:
        ready = Path(folder) / path.name
        copyfile(backup.path, ready)
        try:
            with closing(WorkshopFile.open(ready, clock)) as workshop:
                for build in workshop.builds():
                    derive(workshop.events(build.id))
        except WorkshopError as error:
            # Whoever reads it knows the backup, not the copy.
            raise WorkshopError(
                f"{str(error).replace(str(ready), str(backup.path))} It cannot be restored: "
                "choose another backup."
            ) from error
        yield ready


def _own_copy() -> str:
    return f"{_COPY}{os.getpid()}-"


def _sweep(folder: Path, clock: Clock) -> None:
    """Take away copies of rehearsals that a kill cut off; this program may be at several."""
    for left in folder.glob(f"{_COPY}*"):
        with suppress(OSError):
            is_old = clock.now().timestamp() - left.stat().st_mtime > _LEFT_OVER_S
            if is_old and not left.name.startswith(_own_copy()):
                rmtree(left)


def _told(path: Path, backup: Backup, ready: Path) -> Rehearsal:
    with closing(sqlite3.connect(ready)) as db:
        holds = holdings(db)
    return Rehearsal(backup=backup, holds=holds, lost=_lost(path, ready))


def _lost(path: Path, ready: Path) -> Lacking | None:
    try:
        with closing(connect(path)) as db:
            return lacking(db.conn, str(ready))
    except (DamagedError, sqlite3.DatabaseError):
        return None


def _note(ready: Path, backup: Backup, kept_as: Path, clock: Clock) -> None:
    """Write into the copy what is put in place, so that windows that stand open notice."""
    with closing(sqlite3.connect(ready)) as db:
        at = instant_text(clock.now())
        db.execute(_TELL, (at, backup.path.name, kept_as.name))
        db.commit()


def _pour(ready: Path, path: Path) -> None:
    """Write a whole workshop over another one, in one transaction."""
    with closing(sqlite3.connect(ready)) as source, closing(sqlite3.connect(path)) as target:
        target.execute("PRAGMA synchronous = FULL")
        source.backup(target)
        answer = target.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if answer != "ok" or counts(target) != counts(source):
            raise WorkshopError(
                f"The workshop {path} was restored, but is not as the backup ({answer}). Check the "
                "disk, then restore the latest backup, which is what stood there before."
            )


def _put_in_place(path: Path, ready: Path, backup: Backup, clock: Clock) -> Path:
    """Move a damaged file aside with its companions, and put the copy there.

    At no moment is there no file: a kill leaves the damaged one or the restored one.
    """
    number = 1
    while (aside := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    _note(ready, backup, aside, clock)
    settle_file(ready)
    try:
        os.link(path, aside)
    except OSError:
        copy2(path, aside)
        settle_file(aside)
    # A log of the damaged file would be played into the restored one.
    for companion in ("-wal", "-shm"):
        with suppress(FileNotFoundError):
            path.with_name(f"{path.name}{companion}").replace(
                aside.with_name(f"{aside.name}{companion}")
            )
    ready.replace(path)
    settle_folder(path.parent)
    return aside
