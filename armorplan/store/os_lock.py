"""A lock of the operating system on a file of its own: gone with its program, however that ends.

Never on the workshop file itself: closing a second handle on it would drop SQLite's own locks.
"""

import os
import sys
from contextlib import suppress
from pathlib import Path

_LOCKED_AT = 1 << 20
"""Where Windows locks a byte: beyond what is written there, so that others may read it."""


class NoLocksError(Exception):
    """The disk knows no locks, or the file of the lock cannot be made."""


class OsLock:
    """Holds a lock, or not; for one thread. The file stays where it is: it says nothing by itself."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._handle: int | None = None

    @property
    def is_held(self) -> bool:
        """Whether this one holds it."""
        return self._handle is not None

    def take(self) -> bool:
        """Take it if nobody holds it; tell whether it is held by this one now.

        Raises:
            NoLocksError: there are no locks here.
        """
        if self._handle is None:
            self._handle = _locked(self.path, shared=False)
        return self.is_held

    def is_held_elsewhere(self) -> bool:
        """Tell whether another one holds it; nobody else is kept from taking it by asking.

        Raises:
            NoLocksError: there are no locks here.
        """
        if self.is_held:
            return False
        handle = _locked(self.path, shared=True)
        if handle is None:
            return True
        os.close(handle)
        return False

    def release(self) -> None:
        """Let others have it."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None

    def write(self, text: str) -> None:
        """Write into the file of the lock that is held, for others to read."""
        if self._handle is not None:
            with suppress(OSError):
                os.ftruncate(self._handle, 0)
                os.lseek(self._handle, 0, os.SEEK_SET)
                os.write(self._handle, text.encode())

    def text(self) -> str:
        """Return what the one who took it last wrote; empty where that cannot be read."""
        try:
            return self.path.read_text("utf-8")
        except (OSError, ValueError):
            return ""


def _locked(path: Path, *, shared: bool) -> int | None:
    """Return a handle that holds the lock, or ``None`` where another one does."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o644)
    except OSError as error:
        raise NoLocksError from error
    try:
        if _lock(handle, shared=shared):
            return handle
    except OSError as error:
        os.close(handle)
        raise NoLocksError from error
    os.close(handle)
    return None


def _lock(handle: int, *, shared: bool) -> bool:
    if sys.platform == "win32":
        # Windows has no shared one here: who asks at the same moment asks again a second later.
        import msvcrt

        os.lseek(handle, _LOCKED_AT, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except PermissionError:
            return False
        return True
    from fcntl import LOCK_EX, LOCK_NB, LOCK_SH, flock

    try:
        flock(handle, LOCK_NB | (LOCK_SH if shared else LOCK_EX))
    except BlockingIOError:
        return False
    return True
