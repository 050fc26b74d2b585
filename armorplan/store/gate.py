"""Who may write in a workshop: asked before each transaction that writes."""

from contextlib import AbstractContextManager, nullcontext
from pathlib import Path
from typing import Protocol

from armorplan.kernel.errors import WorkshopError


class ReadsAlongError(WorkshopError):
    """Nothing was written: another window writes in this workshop, and this one reads along."""


class Gate(Protocol):
    """Lets a window, or a command, write or not."""

    def writing(self) -> AbstractContextManager[None]:
        """Hold the right to write for one transaction.

        Raises:
            ReadsAlongError: it is another one's.
        """
        ...


class Open:
    """Lets everyone write: the file itself is safe for any number of windows."""

    def writing(self) -> AbstractContextManager[None]:
        """Hold nothing."""
        return nullcontext()


class OnlyReads:
    """Lets nobody write: for what only looks at a workshop."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def writing(self) -> AbstractContextManager[None]:
        """Refuse."""
        raise ReadsAlongError(f"The workshop file {self._path} is only read here.")


OPEN = Open()
