"""Undo and redo: which key presses still stand, read from the entries alone."""

from collections.abc import Iterable
from dataclasses import dataclass

from armorplan.ledger.events import Event, EventKind

_TURNS = frozenset({EventKind.UNDONE, EventKind.REDONE})


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """The entries of one key press, which are undone together."""

    id: str
    events: tuple[Event, ...]

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps it touched, each once, in order."""
        return tuple(dict.fromkeys(event.step for event in self.events))

    @property
    def kinds(self) -> tuple[EventKind, ...]:
        """What it recorded, each kind once, in order."""
        return tuple(dict.fromkeys(event.kind for event in self.events))


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingPresses:
    """The presses that stand and those that can be restored, the latest last in both."""

    undo_side: tuple[Batch, ...]
    redo_side: tuple[Batch, ...]
    events: tuple[Event, ...]
    """Entries of the presses that stand, in the ledger's order."""


def standing_presses(events: Iterable[Event]) -> StandingPresses:
    """Tell which presses stand after every undo and redo.

    An undo takes its press from the undo side to the redo side, a redo brings it back, and a new
    press empties the redo side. An undo or redo that comes too late (a second window was
    quicker) finds nothing to move and changes nothing; a tray's undo has an entry for each step,
    of which the first moves the press.
    """
    entries = tuple(events)
    members: dict[str, list[Event]] = {}
    # Dicts as ordered sets: a press leaves from anywhere and comes in at the end.
    stands: dict[str, None] = {}
    restorable: dict[str, None] = {}
    for event in entries:
        if event.kind in _TURNS:
            _turn(event, stands, restorable)
        elif event.batch in members:
            members[event.batch].append(event)
        else:
            members[event.batch] = [event]
            stands[event.batch] = None
            restorable.clear()
    return StandingPresses(
        undo_side=tuple(Batch(id=b, events=tuple(members[b])) for b in stands),
        redo_side=tuple(Batch(id=b, events=tuple(members[b])) for b in restorable),
        events=tuple(e for e in entries if e.kind not in _TURNS and e.batch in stands),
    )


def _turn(event: Event, stands: dict[str, None], restorable: dict[str, None]) -> None:
    undo = event.kind is EventKind.UNDONE
    source, target = (stands, restorable) if undo else (restorable, stands)
    if event.undoes is not None and event.undoes in source:
        del source[event.undoes]
        target[event.undoes] = None
