"""What is kept with the build at the bench: notes, measurements and photos of its steps and parts."""

from collections.abc import Callable
from dataclasses import replace
from math import isfinite
from pathlib import Path

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.keepsake_shelf import KeepsakeShelf, Photo
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import About, Keepsake, KeptFile


class Keepsakes:
    """Keeps what the maker wants kept; each answer is what is said of it."""

    def __init__(self, build: str, shelf: KeepsakeShelf, clock: Clock, *, who: str = "") -> None:
        self._build, self._shelf, self._clock, self._who = build, shelf, clock, who
        self._latest: object = None
        self.read_new()

    def read_new(self) -> bool:
        """Tell whether another window kept something since this was asked last, or withdrew it.

        Raises:
            WorkshopError: the workshop cannot be read.
        """
        before, self._latest = self._latest, self._shelf.latest(self._build)
        return before != self._latest

    def all(self, about: About | None = None) -> tuple[Keepsake, ...]:
        """Return what is kept, oldest first; of one thing only where that is named.

        Raises:
            WorkshopError: the workshop cannot be read.
        """
        kept = self._shelf.of(self._build)
        return tuple(one for one in kept if about in (None, one.about))

    def note(self, about: About, text: str) -> str:
        """Keep a note."""
        if not text.strip():
            return f"{NOT_RECORDED} The note is empty. Write what you want to keep."
        return self._add(self._new(about, text), "The note is kept.")

    def measurement(self, about: About, value: float, unit: str, text: str = "") -> str:
        """Keep a measured number: of what is said in ``text``."""
        if not isfinite(value):
            return f"{NOT_RECORDED} {value} is no number. Write what you measured, such as 42.5."
        kept = f"{value:g} {unit}".rstrip()
        one = replace(self._new(about, text), value=value, unit=unit.strip())
        return self._add(one, f"Kept: {kept}.")

    def copying(self, photo: Photo) -> Callable[[], KeptFile]:
        """Return what copies a photo, in any thread; WorkshopError where it cannot be."""
        return lambda: self._shelf.files.keep(self._build, photo)

    def photo(self, about: About, copied: KeptFile, text: str = "") -> str:
        """Keep a photo that was copied."""
        return self._add(replace(self._new(about, text), file=copied), "The photo is kept.")

    def withdraw(self, keepsake: Keepsake) -> str:
        """Show it no more; it stays in the workshop."""
        try:
            self._shelf.withdraw(keepsake, who=self._who)
            self.read_new()
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        return f"The {keepsake.kind.value} is shown no more."

    def path(self, keepsake: Keepsake) -> Path | None:
        """Return where its photo lies; ``None``: it has none."""
        return None if keepsake.file is None else self._shelf.files.path(keepsake.file.place)

    def amiss(self, keepsake: Keepsake) -> str:
        """Say that its photo is gone or another one; empty where all is well or it has none."""
        return "" if keepsake.file is None else self._shelf.files.amiss(keepsake.file)

    def _new(self, about: About, text: str) -> Keepsake:
        return Keepsake(
            build=self._build, about=about, at=self._clock.now(), who=self._who, text=text.strip()
        )

    def _add(self, keepsake: Keepsake, said: str) -> str:
        try:
            self._shelf.add(keepsake)
            self.read_new()
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        return said
