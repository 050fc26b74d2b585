"""Numbered entries as this window knows them, kept in step with what others write."""

from abc import ABC, abstractmethod
from typing import Generic, Protocol, TypeVar

from armorplan.kernel.errors import WorkshopError


class Numbered(Protocol):
    """An entry with its number in the workshop file, ascending."""

    @property
    def seq(self) -> int:
        """The number; 0 before it is stored."""
        ...


_N = TypeVar("_N", bound=Numbered)


class ReadAlong(ABC, Generic[_N]):
    """Entries of one sort in the file's order, whichever window wrote them."""

    def __init__(self, known: tuple[_N, ...]) -> None:
        self._stored = known
        self._read_seq = known[-1].seq if known else 0
        """Up to here nothing is missing; behind it there may be entries of another window."""

    @property
    def all(self) -> tuple[_N, ...]:
        """All entries in order; the same until something is new."""
        return self._stored

    @abstractmethod
    def _since(self, seq: int) -> tuple[_N, ...]:
        """Return the entries numbered above this; WorkshopError where the file cannot be read."""

    def read_new(self) -> bool:
        """Take in what is new on the disk; tell whether anything was.

        Raises:
            WorkshopError: the file cannot be read.
        """
        new = self._since(self._read_seq)
        if not new:
            return False
        known = (entry for entry in self._stored if entry.seq <= self._read_seq)
        self._stored = (*known, *new)
        self._read_seq = new[-1].seq
        return True

    def _take_in(self, kept: tuple[_N, ...]) -> None:
        """Take in what this window has just put on the disk, and what another wrote before it."""
        try:
            self.read_new()
        except WorkshopError:
            # They are on the disk; what may stand between them is read the next time.
            self._stored = (*self._stored, *kept)
