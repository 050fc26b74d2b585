"""What happened at the bench, of all builds of a workshop, as far as it teaches."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from armorplan.app.same_work import tail
from armorplan.drying.learned import Look
from armorplan.ledger.batches import standing_presses
from armorplan.ledger.events import Event, EventKind
from armorplan.ledger.hands import Worked, worked
from armorplan.ledger.looks import look_from
from armorplan.ledger.state import derive

LOOKS = (EventKind.LOOKED, EventKind.WEIGHED)
_Mark = tuple[str, str, str, datetime]


class WorkshopEvents(Protocol):
    """A workshop's entries."""

    def all_events(self) -> tuple[Event, ...]:
        """Return the entries of all builds, in the ledger's order."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenLook:
    """A look at a drying, when it was taken, and what names the moment that the drying began."""

    at: datetime
    look: Look
    begun: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lessons:
    """What teaches: looks at dryings and weighings, and work that is done, in no order that matters."""

    looks: tuple[SeenLook, ...] = ()
    work: tuple[Worked, ...] = ()

    def __add__(self, other: "Lessons") -> "Lessons":
        """Return both together."""
        return Lessons(looks=(*self.looks, *other.looks), work=(*self.work, *other.work))


def lessons_of(events: Iterable[Event]) -> Lessons:
    """Return what one build's entries teach, as far as they stand."""
    entries = tuple(events)
    standing = standing_presses(entries).events
    is_work = any(event.kind is EventKind.DONE for event in standing)
    return Lessons(
        looks=tuple(_looks(standing)),
        work=worked(derive(entries), standing) if is_work else (),
    )


def lessons_by_build(entries_of_all: Iterable[Event]) -> Mapping[str, Lessons]:
    """Return what each build of a workshop teaches, from the entries of all in the ledger's order.

    A build that goes on from another starts with that one's entries. What was taken over is read
    from the later one alone: it counts once, and what was taken back there is taken back.
    """
    builds: dict[str, list[Event]] = {}
    for event in entries_of_all:
        builds.setdefault(event.build, []).append(event)
    known: set[_Mark] = set()
    found: dict[str, Lessons] = {}
    for build, entries in sorted(builds.items(), key=lambda one: -one[1][0].seq):
        found[build] = lessons_of(event for event in entries if _mark(event) not in known)
        known.update(map(_mark, entries))
    return found


def _mark(event: Event) -> _Mark:
    return event.batch, event.kind, tail(event.step), event.at


def _looks(standing: Iterable[Event]) -> Iterator[SeenLook]:
    """Yield what was seen; of looks before and after the clock was set, one says when it began."""
    begun_at: dict[tuple[str, str], str] = {}
    for event in standing:
        seen = look_from(event.text) if event.kind in LOOKS else None
        if seen is None:
            continue
        told_at = begun_at.setdefault((event.step, seen.begun), seen.begun_at)
        body = f"{seen.thickness_mm}|{seen.faces}|{seen.dipped}"
        look = Look(
            treatment=seen.treatment,
            run=f"{event.step}|{seen.stage}|{body}@{told_at}",
            # One press wets one bath, whatever of it is waited for and however thick its pieces are.
            bath=f"{event.build}|{seen.treatment}|{seen.begun}",
            dose_min=seen.dose_min,
            reference_min=seen.reference_min,
            dry=seen.dry if seen.weights_g is None else None,
            weights_g=seen.weights_g,
        )
        yield SeenLook(at=event.at, look=look, begun=seen.begun)
