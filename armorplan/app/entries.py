"""The entries of one build as this window knows them, kept in step with what others write."""

from typing import Protocol

from armorplan.app.absence_shelf import AbsenceShelf
from armorplan.app.build_plan import PlanShelf
from armorplan.app.cutting import CutLog
from armorplan.app.keepsake_shelf import KeepsakeShelf
from armorplan.app.learned_room import LookLedger
from armorplan.app.other_builds import KinLedger
from armorplan.app.practice_shelf import DrillShelf, SkillShelf
from armorplan.app.read_along import ReadAlong
from armorplan.app.timer_book import TimerShelf
from armorplan.ledger.events import Event

NOT_RECORDED = "Not recorded."
"""So begins what is said of a press that made no entry: there is nothing to take back."""


class AirShelf(Protocol):
    """Where the workshop's air is kept."""

    def latest(self) -> int:
        """Return the number of the air kept last; 0 where none is."""
        ...


class Ledger(PlanShelf, LookLedger, KinLedger, Protocol):
    """Where a session's entries are kept for good."""

    @property
    def air(self) -> AirShelf:
        """Where the workshop's air is kept."""
        ...

    @property
    def absences(self) -> AbsenceShelf:
        """Where it is kept who is away."""
        ...

    @property
    def timers(self) -> TimerShelf:
        """Where timers are kept."""
        ...

    @property
    def cut_log(self) -> CutLog:
        """Where it is kept what machines were set to."""
        ...

    @property
    def drills(self) -> DrillShelf:
        """Where results of practice are kept."""
        ...

    @property
    def skills(self) -> SkillShelf:
        """Where it is kept what was signed off."""
        ...

    @property
    def keepsakes(self) -> KeepsakeShelf:
        """Where notes, measurements and photos are kept."""
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


class Entries(ReadAlong[Event]):
    """All entries of one build in the ledger's order, whichever window wrote them."""

    def __init__(self, build: str, ledger: Ledger) -> None:
        super().__init__(ledger.events(build))
        self._build = build
        self._ledger = ledger

    def _since(self, seq: int) -> tuple[Event, ...]:
        return self._ledger.events_since(self._build, seq)

    def append(self, events: tuple[Event, ...], timers: str | None = None) -> None:
        """Keep entries, and take in what another window wrote before them.

        Args:
            events: what happened.
            timers: the build's timers from then on, where they have to be kept with it.

        Raises:
            WorkshopError: nothing was kept.
        """
        self._take_in(
            self._ledger.append(events, None if timers is None else (self._build, timers))
        )
