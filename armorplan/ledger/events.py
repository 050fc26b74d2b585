"""Events: the append-only record of what happened at the bench."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

ANEW = "anew"
"""Text of a start that begins a new count though the step runs or is paused."""


class EventKind(StrEnum):
    """What can be recorded of a step."""

    STARTED = "started"
    PAUSED = "paused"
    DONE = "done"
    NOTE = "note"
    SIGNED_OFF = "signed off"
    LOOKED = "looked"
    WEIGHED = "weighed"
    UNDONE = "undone"
    REDONE = "redone"


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One entry of the ledger.

    Attributes:
        seq: its number in the workshop file, ascending; 0 before it is stored.
        batch: entries made by one key press share it, and are undone together.
        at: aware UTC instant.
        boot_id, boot_s: the machine's run and seconds within it, for timers (see ``timers``).
        text: the note, the reason of an undo, ``ANEW`` for a start that counts from nothing, or
            what was seen of a drying (``ledger.looks``) and reckoned of work (``ledger.hands``).
        undoes: for ``undone`` and ``redone``, the batch it takes back or restores.
    """

    build: str
    step: str
    kind: EventKind
    at: datetime
    boot_id: str
    boot_s: float
    batch: str
    who: str = ""
    text: str = ""
    undoes: str | None = None
    seq: int = 0
