"""What practice is told in: how an answer was, how a reason sits. No numbers, no marks."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Grade(StrEnum):
    """How a reason was known; the value is its name in the window and in the workshop file."""

    MISSED = "missed"
    NEEDED_REASON = "needed the reason"
    KNEW = "knew it"
    COULD_TEACH = "could teach it"


class ReasonState(StrEnum):
    """How a reason sits with a person."""

    MASTERED = "mastered"
    SHAKY = "shaky"
    UNSEEN = "unseen"


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """A reason was met at an instant (aware, UTC), and was known so."""

    at: datetime
    grade: Grade


def grade_of(*, right: bool, hint: bool, why_right: bool = False) -> Grade:
    """Return what a first try is worth.

    Args:
        right: it was right.
        hint: the reason was asked for before it.
        why_right: the second question was answered rightly at once, and without the hint.
    """
    if not right:
        return Grade.MISSED
    if hint:
        return Grade.NEEDED_REASON
    return Grade.COULD_TEACH if why_right else Grade.KNEW
