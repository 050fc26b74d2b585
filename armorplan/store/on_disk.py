"""Brings files and folders to the disk, so that a name that was told outlives a loss of power."""

import os
from contextlib import suppress
from pathlib import Path


def settle_file(path: Path) -> None:
    """Bring what a file holds to the disk; OSError where that cannot be done."""
    # Windows flushes only what may be written to.
    handle = os.open(path, os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def settle_folder(folder: Path) -> None:
    """Bring the names in a folder to the disk, where its system can do that."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
