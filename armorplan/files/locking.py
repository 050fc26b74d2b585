"""Lets one program at a time write a file of a folder, and never leaves it shut.

Where the system locks folders, the lock goes with the program that holds it, however it ends.
Elsewhere a small file beside it is the lock: made by one only, gone with its program on Windows,
and taken for left over where it is older than any saving takes.
"""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from time import monotonic, sleep

from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError

MOST_WAIT_S = 10.0
LEFT_OVER_S = 120.0
_PAUSE_S = 0.01

Release = Callable[[], None]


class BusyError(ArmorplanError):
    """Another program holds the lock, and goes on doing so."""


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Wait until no other program writes a file, and hold them off until the block ends.

    Raises:
        BusyError: another one still holds it after ``MOST_WAIT_S`` seconds.
        OSError: the folder is not there, or nothing can be made in it.
    """
    end = monotonic() + MOST_WAIT_S
    while (release := _taken(path)) is None:
        if monotonic() > end:
            message = f"{path.name} is being written by another program."
            raise BusyError(message)
        sleep(_PAUSE_S)
    try:
        yield
    finally:
        release()


def _taken(path: Path) -> Release | None:
    """Take the lock and return what gives it back; ``None`` where another holds it."""
    if sys.platform != "win32":
        with suppress(_CannotLockError):
            return _by_folder(path.parent)
    return _by_file(path)


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
