"""What SQLite and the disk complain of, as one message with the path and what to do."""

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from types import MappingProxyType

from armorplan.kernel.errors import WorkshopError
from armorplan.store.backups import backups_of

BUSY_S = 5.0
"""How long a window waits for another one's write; a write takes a few milliseconds."""

_KEPT = "Everything recorded before is kept."

_CAUSES: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "SQLITE_FULL": ("the disk is full", f"Free some space on it, then try again. {_KEPT}"),
        "SQLITE_READONLY": (
            "it or its folder may not be written to",
            f"Allow writing there, or move the file to a folder of your own. {_KEPT}",
        ),
        "SQLITE_PERM": (
            "you may not open it",
            "Allow reading and writing, or choose another place for the workshop file.",
        ),
        "SQLITE_CANTOPEN": (
            "the file cannot be opened or made there",
            "Check that its folder exists and may be written to, or choose another place.",
        ),
        "SQLITE_NOTADB": (
            "its content is not a workshop file",
            "Choose another file, or move this one away and a new workshop begins there.",
        ),
        "SQLITE_BUSY": (
            f"another window has been writing for more than {BUSY_S:.0f} seconds",
            f"Close the other window or wait a little, then try again. {_KEPT}",
        ),
        "SQLITE_IOERR": (
            "the disk reported an error",
            f"Check the disk, its free space and its connection, then try again. {_KEPT}",
        ),
        "SQLITE_CONSTRAINT_FOREIGNKEY": (
            "it has no such build",
            "Add the build first.",
        ),
    }
)


class DamagedError(WorkshopError):
    """A workshop file holds what it cannot hold; it was left as it is."""


def damage(path: Path, detail: str) -> DamagedError:
    """Return the message for a file whose content is damaged; the file was left as it is."""
    backups = backups_of(path)
    remedy = (
        f"put a copy of its latest backup, {backups[-1].path}, in its place"
        if backups
        else "put a copy from your own backups in its place, or let a new workshop begin"
    )
    return DamagedError(
        f"The workshop file {path} is damaged ({detail}). It was left as it is. "
        f"Move it away together with {path.name}-wal, if there is one, then {remedy}."
    )


def read_only(path: Path) -> WorkshopError:
    """Return the message for a file that may be read but not written to."""
    cause, remedy = _CAUSES["SQLITE_READONLY"]
    return WorkshopError(f"The workshop file {path} could not be opened: {cause}. {remedy}")


def is_busy(error: sqlite3.Error) -> bool:
    """Tell whether another connection's lock was the trouble."""
    return _name(error).startswith(("SQLITE_BUSY", "SQLITE_LOCKED"))


def _name(error: sqlite3.Error) -> str:
    # Errors that the Python module raises by itself carry no name.
    return str(getattr(error, "sqlite_errorname", ""))


@contextmanager
def in_plain_words(path: Path, doing: str) -> Iterator[None]:
    """Turn what SQLite or the disk complain of into a WorkshopError.

    Args:
        path: the file the message names.
        doing: what was tried, as in 'could not be read'.

    Raises:
        WorkshopError: instead of any error of SQLite, of the disk, or of text that no file
            can hold.
    """
    try:
        yield
    except sqlite3.Error as error:
        raise _explained(path, doing, error) from error
    except UnicodeEncodeError as error:
        raise WorkshopError(
            f"The workshop file {path} could not be {doing}: the text {error.object!r} holds a "
            f"character that cannot be stored. Remove it from the text. {_KEPT}"
        ) from error
    except OSError as error:
        raise WorkshopError(
            f"The workshop file {path} could not be {doing}: {error.strerror or error} "
            f"({error.filename or path}). Mend that, or choose another place for the file."
        ) from error


def _explained(path: Path, doing: str, error: sqlite3.Error) -> WorkshopError:
    name = _name(error)
    if name.startswith("SQLITE_CORRUPT"):
        return damage(path, str(error))
    if is_busy(error):
        name = "SQLITE_BUSY"
    # Longest first: a refined code has its own words before its family's.
    known = next((k for k in sorted(_CAUSES, key=len, reverse=True) if name.startswith(k)), None)
    cause, remedy = _CAUSES[known] if known else (str(error), _KEPT)
    kind = DamagedError if known == "SQLITE_NOTADB" else WorkshopError
    return kind(f"The workshop file {path} could not be {doing}: {cause}. {remedy}")
