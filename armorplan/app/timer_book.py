"""Entries about timers as this window knows them, whichever window wrote them."""

from typing import Protocol

from armorplan.app.read_along import ReadAlong
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.timer_entries import TimerEntry


class KeptText(Protocol):
    """The timers of one build as text."""

    @property
    def build(self) -> str:
        """The build's id."""
        ...

    @property
    def rows_json(self) -> str:
        """Its timers."""
        ...


class TimerShelf(Protocol):
    """Where entries about timers, and each build's timers, are kept for good."""

    def append(self, entries: tuple[TimerEntry, ...]) -> tuple[TimerEntry, ...]:
        """Keep entries; return them with their numbers."""
        ...

    def open(self) -> tuple[TimerEntry, ...]:
        """Return the entries that still matter, in order."""
        ...

    def since(self, seq: int) -> tuple[TimerEntry, ...]:
        """Return the entries after this number."""
        ...

    def keep(self, build_id: str, rows_json: str) -> None:
        """Keep a build's timers in place of those before."""
        ...

    def kept(self) -> tuple[KeptText, ...]:
        """Return the timers of each build that kept any."""
        ...

    def go_on(self, build_id: str, former: str) -> bool:
        """Tell whether of two builds one goes on from the other."""
        ...


class TimerBook(ReadAlong[TimerEntry]):
    """Entries about timers; what the disk refuses counts in this window until it takes it."""

    def __init__(self, shelf: TimerShelf) -> None:
        super().__init__(shelf.open())
        self._shelf = shelf
        self._refused: tuple[TimerEntry, ...] = ()

    @property
    def all(self) -> tuple[TimerEntry, ...]:
        """All entries in order, those that are not on the disk last."""
        return (*self._stored, *self._refused)

    def _since(self, seq: int) -> tuple[TimerEntry, ...]:
        return self._shelf.since(seq)

    def add(self, *entries: TimerEntry) -> str:
        """Keep entries, with those refused before; return what the disk says, empty where it took them.

        They count in this window in any case.
        """
        self._refused = (*self._refused, *entries)
        try:
            kept = self._shelf.append(self._refused)
        except WorkshopError as error:
            return str(error)
        self._refused = ()
        self._take_in(kept)
        return ""
