"""Lets one program at a time write a file of a folder, and never leaves it shut.

Where the system locks folders, the lock goes with the program that holds it, however it ends.
Elsewhere a small file beside it is the lock: made by one only, gone with its program on Windows,
and taken for left over where it is older than any saving takes.
"""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from time import monotonic, sleep
from typing import NamedTuple

from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError

MOST_WAIT_S = 10.0
LEFT_OVER_S = 120.0
_PAUSE_S = 0.01

Release = Callable[[], None]


class BusyError(ArmorplanError):
    """Another program holds the lock, and goes on doing so."""


class _Lock(NamedTuple):
    """What gives a lock back, and whether it holds for the whole folder."""

    release: Release
    is_folder: bool


@contextmanager
def alone(*paths: Path) -> Iterator[None]:
    """Wait until no other program writes these files, and hold them off until the block ends.

    Raises:
        BusyError: another one still holds one of them after ``MOST_WAIT_S`` seconds.
        OSError: a folder is not there, or nothing can be made in it.
    """
    end = monotonic() + MOST_WAIT_S
    folders: set[Path] = set()
    with ExitStack() as held:
        for path in sorted(set(paths)):  # in one order, so that no two wait for each other
            if path.parent not in folders:
                lock = _waited_for(path, end)
                held.callback(lock.release)
                folders.update([path.parent] if lock.is_folder else [])
        yield


def _waited_for(path: Path, end: float) -> _Lock:
    while (lock := _taken(path)) is None:
        if monotonic() > end:
            message = f"{path.name} is being written by another program."
            raise BusyError(message)
        sleep(_PAUSE_S)
    return lock


def _taken(path: Path) -> _Lock | None:
    """Take the lock and return it; ``None`` where another holds it."""
    if sys.platform != "win32":
        with suppress(_CannotLockError):
            release = _by_folder(path.parent)
            return release and _Lock(release, is_folder=True)
    release = _by_file(path)
    return release and _Lock(release, is_folder=False)


class _CannotLockError(Exception):
    """The folder's system knows no locks."""


def _by_folder(folder: Path) -> Release | None:
    if sys.platform == "win32":
        raise _CannotLockError
    from fcntl import LOCK_EX, LOCK_NB, flock

    handle = os.open(folder, os.O_RDONLY)
    try:
        flock(handle, LOCK_EX | LOCK_NB)
    except BlockingIOError:
        os.close(handle)
        return None
    except OSError as error:
        os.close(handle)
        raise _CannotLockError from error
    return lambda: os.close(handle)


def _by_file(path: Path) -> Release | None:
    beside = path.with_name(f".{path.name}.lock")
    # On Windows the file goes when its program ends, whatever ends it.
    flags = os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_TEMPORARY", 0)
    try:
        handle = os.open(beside, flags)
    except FileExistsError:
        _swept(beside)
        return None
    except PermissionError:
        # Windows says so, too, of one that is just going.
        if not beside.exists():
            raise
        return None

    def release() -> None:
        os.close(handle)
        with suppress(OSError):
            beside.unlink()

    return release


def _swept(beside: Path) -> None:
    """Take away a lock that a program left behind when it was ended."""
    with suppress(OSError):
        if SystemClock().now().timestamp() - beside.stat().st_mtime > LEFT_OVER_S:
            beside.unlink()
