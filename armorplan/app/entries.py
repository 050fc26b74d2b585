"""The entries of one build as this window knows them, kept in step with what others write."""

from typing import Protocol

from armorplan.app.build_plan import PlanShelf
from armorplan.app.learned_room import LookLedger
from armorplan.app.timer_book import TimerShelf
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import Event

NOT_RECORDED = "Not recorded."
"""So begins what is said of a press that made no entry: there is nothing to take back."""


class AirShelf(Protocol):
    """Where the workshop's air is kept."""

    def latest(self) -> int:
        """Return the number of the air kept last; 0 where none is."""
        ...


class Ledger(PlanShelf, LookLedger, Protocol):
    """Where a session's entries are kept for good."""

    @property
    def air(self) -> AirShelf:
        """Where the workshop's air is kept."""
        ...

    @property
    def timers(self) -> TimerShelf:
        """Where timers are kept."""
        ...

    def mark(self) -> object:
        """Return a value that is another once this or any other window has written."""
        ...

    def append(
        self, events: tuple[Event, ...], timers: tuple[str, str] | None = None
    ) -> tuple[Event, ...]:
        """Keep entries, and in the same go a build's timers; return them with their numbers."""
        ...

    def events(self, build_id: str) -> tuple[Event, ...]:
        """Return a build's entries in order."""
        ...

    def events_since(self, build_id: str, seq: int) -> tuple[Event, ...]:
        """Return the entries after this number: what another window wrote."""
        ...


class Entries:
    """All entries of one build in the ledger's order, whichever window wrote them."""

    def __init__(self, build: str, ledger: Ledger) -> None:
        self._build = build
        self._ledger = ledger
        self.all = ledger.events(build)
        self._read_seq = self.all[-1].seq if self.all else 0
        """Up to here nothing is missing; behind it there may be entries of another window."""

    def append(self, events: tuple[Event, ...], timers: str | None = None) -> None:
        """Keep entries, and take in what another window wrote before them.

        Args:
            events: what happened.
            timers: the build's timers from then on, where they have to be kept with it.

        Raises:
            WorkshopError: nothing was kept.
        """
        kept = self._ledger.append(events, None if timers is None else (self._build, timers))
        try:
            self.read_new()
        except WorkshopError:
            # They are on the disk; what may stand between them is read the next time.
            self.all = (*self.all, *kept)

    def read_new(self) -> bool:
        """Take in what is new on the disk; tell whether anything was.

        Raises:
            WorkshopError: the file cannot be read.
        """
        new = self._ledger.events_since(self._build, self._read_seq)
        if not new:
            return False
        self.all = (*(event for event in self.all if event.seq <= self._read_seq), *new)
        self._read_seq = new[-1].seq
        return True
