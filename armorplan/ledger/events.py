"""Events: the append-only record of what happened at the bench."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

ANEW = "anew"
"""Text of a start that begins a new count though the step runs or is paused."""


class EventKind(StrEnum):
    """What can be recorded of a step.

    ``TAKEN_OUT``: it does not stand any more: a rivet was drilled out, a part is cut anew. An
    ``UNDONE`` takes back a key press; this happened at the bench. ``MISTAKE``: what went wrong.
    ``MEND``: a way back was chosen; its step is the way's own id, and ``TAKEN_OUT`` of that gives
    it up. ``FOUND``: something seen at a fit. ``WAIVED``: a fit left out, with the reason.
    ``LONGER``: it takes so many minutes in all (text), which is not what it was planned to.
    """

    STARTED = "started"
    PAUSED = "paused"
    DONE = "done"
    NOTE = "note"
    SIGNED_OFF = "signed off"
    LOOKED = "looked"
    WEIGHED = "weighed"
    TAKEN_OUT = "taken out"
    MISTAKE = "mistake"
    MEND = "mend"
    FOUND = "found"
    WAIVED = "waived"
    LONGER = "longer"
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
            what was seen of a drying (``ledger.looks``) and reckoned of work (``ledger.hands``);
            a mistake, a way back and a finding in JSON, why a fit was waived.
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
