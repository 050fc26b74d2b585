"""Moments of a timer that ring: what they are, and what it means that they passed."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class BellKind(StrEnum):
    """What a moment of a timer is, as a word for the maker."""

    DUE = "due"
    OPENS = "opens"
    CLOSES = "closes"
    WATCH = "watch"
    LATE = "late"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bell:
    """One moment of one timer.

    Attributes:
        id: the timer's id, the kind, and a number where there are several; the same for ever.
        at: when it rings.
        about_at: the instant it speaks of: of ``closes`` when the window closes, else ``at``.
        timer: the timer's id.
        step: the step it is about; empty for a free timer.
        title: of the timer.
        meaning: what it means that it passed, in whole sentences.
        instead_of: the bell that was to be answered first; once that one was, this one is
            needless. Empty where this one rings in any case.
        build_title: of another build of the workshop; empty for the one that is open.
        remedy: of ``late``, what to do now, where that is known.
    """

    id: str
    kind: BellKind
    at: datetime
    about_at: datetime
    timer: str
    step: str
    title: str
    meaning: str
    instead_of: str = ""
    build_title: str = ""
    remedy: str = ""
