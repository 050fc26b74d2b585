"""What was done about timers: free ones set and stopped, moments answered and told."""

from dataclasses import dataclass
from enum import StrEnum

from armorplan.ledger.records import Moment


class TimerEntryKind(StrEnum):
    """What can be recorded of a timer."""

    SET = "set"
    ADDED = "added"
    PAUSED = "paused"
    RESUMED = "resumed"
    STOPPED = "stopped"
    ANSWERED = "answered"
    TOLD = "told"


@dataclass(frozen=True, slots=True, kw_only=True)
class TimerEntry:
    """One entry about a timer; it never changes.

    Attributes:
        timer: its id: of a free timer the one it was set with, else that of its run.
        moment: when, by both clocks.
        minutes: how long it was set for, or how many minutes were added.
        text: the title of a free timer; for ``answered`` and ``told``, the id of the bell up to
            which.
        seq: its number in the workshop file; 0 before it is stored.
    """

    timer: str
    kind: TimerEntryKind
    moment: Moment
    minutes: float = 0.0
    text: str = ""
    seq: int = 0
