"""Where keepsakes and their photos are kept for good. ``store.keepsake_file`` fulfils it."""

from pathlib import Path
from typing import Protocol

from armorplan.ledger.keepsakes import Keepsake, KeptFile

Photo = Path | tuple[str, bytes]
"""A file, or a name and what it holds: of a picture that was pasted."""


class KeptFolder(Protocol):
    """The folder of kept files."""

    def keep(self, build: str, photo: Photo) -> KeptFile:
        """Copy a photo, in any thread; WorkshopError where it cannot be."""
        ...

    def path(self, place: str) -> Path:
        """Return where a kept file lies."""
        ...

    def amiss(self, kept: KeptFile, *, thorough: bool = False) -> str:
        """Say that it is gone or another one; empty where all is well."""
        ...


class KeepsakeShelf(Protocol):
    """Where keepsakes are kept for good."""

    @property
    def files(self) -> KeptFolder:
        """Return the folder of kept files."""
        ...

    def add(self, keepsake: Keepsake) -> Keepsake:
        """Keep it; WorkshopError where it cannot be."""
        ...

    def of(self, build: str) -> tuple[Keepsake, ...]:
        """Return what is kept with a build, oldest first."""
        ...

    def latest(self, build: str) -> object:
        """Return a value that is another once more was kept with a build, or was withdrawn."""
        ...

    def withdraw(self, keepsake: Keepsake, *, who: str = "") -> None:
        """Show it no more."""
        ...
