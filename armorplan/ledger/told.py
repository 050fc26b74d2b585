"""What was said of a build at its bench: mistakes, ways back chosen, what a fit showed."""

from dataclasses import dataclass
from datetime import datetime

from armorplan.ledger.events import Event, EventKind

TELLING = frozenset({EventKind.MISTAKE, EventKind.MEND, EventKind.FOUND})
"""Kinds of entry that say something of a build and change no step by themselves."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One thing said.

    Attributes:
        id: names it for ever, also in a build that goes on from this one: the press that said it.
        step: what it was said of; of a way back its own id.
        text: as it was recorded, most of it JSON.
        given_up: a way back that nobody follows any more.
    """

    id: str
    kind: EventKind
    step: str
    text: str
    at: datetime
    who: str = ""
    given_up: bool = False


def told_by(event: Event) -> Told:
    """Return what an entry says."""
    return Told(
        id=event.batch,
        kind=event.kind,
        step=event.step,
        text=event.text,
        at=event.at,
        who=event.who,
    )
