"""The build at the bench, in a room that is learned of while it is worked."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from armorplan.app.derived import Derived
from armorplan.app.in_room import in_room
from armorplan.app.learned_shop import FreshStarts, LearnedShop, learned_from
from armorplan.app.lessons import LOOKS, Lessons, lessons_by_build
from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.events import Event, EventKind
from armorplan.workshop.air import Pace

_TELLING = (*LOOKS, EventKind.UNDONE, EventKind.REDONE)


class LookLedger(Protocol):
    """Where looks at dryings are kept, of all builds."""

    @property
    def fresh_starts(self) -> FreshStarts:
        """From when on things are learned anew."""
        ...

    def look_events(self) -> tuple[Event, ...]:
        """Return looks, weighings, and what was taken back and restored, of all builds in order."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class _Elsewhere:
    """What counts beside this build's own entries, as it was read.

    Attributes:
        events: of other builds, that tell of dryings.
        latest: fresh starts.
    """

    events: tuple[Event, ...]
    latest: Mapping[str, datetime]


class LearnedRoom:
    """Keeps a build's dryings by what all builds of the workshop have told up to now.

    What is derived from the room changes as soon as an entry of this build tells of a drying; the
    steps, their order and everything else stay the same.
    """

    def __init__(self, derived: Derived, ledger: LookLedger, events: Sequence[Event]) -> None:
        self.derived = derived
        self._build = derived.assembly.build
        self._ledger = ledger
        self._told = _told(events)
        self._elsewhere = self._read()

    def follow(self, events: Sequence[Event]) -> Derived:
        """Return the build after these entries of it; where nothing new is told, as it was.

        The last of them may not be on the disk yet.
        """
        told = _told(events)
        if told != self._told:
            # What cannot be read now is read with the next look.
            with suppress(WorkshopError):
                self.learn_anew(events)
                self._told = told
        return self.derived

    def catch_up(self, events: Sequence[Event]) -> bool:
        """Take in what other builds told since, and what is learned anew; tell whether it moves any.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        found, before = self._read(), self.derived
        return found != self._elsewhere and self._go_by(found, events) is not before

    def learn_anew(self, events: Sequence[Event]) -> Derived:
        """Return the build by all that the workshop knows now, and by these entries of it.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        return self._go_by(self._read(), events)

    def _read(self) -> _Elsewhere:
        events = self._ledger.look_events()
        return _Elsewhere(
            events=tuple(event for event in events if event.build != self._build),
            latest=self._ledger.fresh_starts.latest(),
        )

    def _go_by(self, elsewhere: _Elsewhere, events: Sequence[Event]) -> Derived:
        room = self._taught(elsewhere, events).applied_to(self.derived.shop).room
        self.derived = in_room(self.derived, room)
        self._elsewhere = elsewhere
        return self.derived

    def start_fresh(self, what: str, events: Sequence[Event]) -> None:
        """Keep that something is learned anew from now on, or no more; and go by that at once.

        Raises:
            WorkshopError: the workshop file cannot be read or written.
        """
        self._ledger.fresh_starts.add(what)
        self.learn_anew(events)

    def expected(self, treatment: str, events: Sequence[Event], begun: str) -> Pace | None:
        """Return what a drying was expected to take without what it told itself.

        What began to dry with it is left out as well: it is the same drying.

        Args:
            treatment: the catalogue's id.
            events: of this build.
            begun: names the moment that the drying began (``Moment.run``).
        """
        try:
            learned = self.learned(events, without=begun)
        except WorkshopError:
            return self.derived.shop.room.pace(treatment)
        return learned.drying(treatment).pace

    def learned(self, events: Sequence[Event], *, without: str | None = None) -> LearnedShop:
        """Return what the workshop has learned of its dryings, with these entries of the build.

        Args:
            events: of this build.
            without: names the moment that a drying began which is not to count.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        return self._taught(self._read(), events, without=without)

    def _taught(
        self, elsewhere: _Elsewhere, events: Sequence[Event], *, without: str | None = None
    ) -> LearnedShop:
        mine = (event for event in events if event.kind in _TELLING)
        lessons = sum(lessons_by_build((*elsewhere.events, *mine)).values(), Lessons())
        looks = tuple(seen for seen in lessons.looks if seen.begun != without)
        dry_pct = self.derived.shelf.constants.dry_share.value
        return learned_from(Lessons(looks=looks), elsewhere.latest, dry_pct)


def _told(events: Sequence[Event]) -> tuple[tuple[str, str, str], ...]:
    """Return which entries tell of dryings, or take back what did; stored or not."""
    return tuple((e.batch, e.kind, e.step) for e in events if e.kind in _TELLING)
