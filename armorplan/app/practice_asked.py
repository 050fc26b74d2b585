"""What a worksheet is to hold."""

from dataclasses import dataclass

from armorplan.practice.drill import DrillKind, Level

USUAL_COUNT, MOST_EXERCISES = 8, 40
MOST_NUMBER = 9_999_999
"""Exercises are numbered from 0 to this at the most (``app.drills.numbering``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAsked:
    """What a worksheet is to hold.

    Attributes:
        kinds: of these in turn; empty: every kind that the build holds.
        count: how many exercises; fewer where the build does not hold so many.
        seed: of the first; each next one counts on.
        person: whose name stands on it; may be empty.
    """

    kinds: tuple[DrillKind, ...] = ()
    count: int = USUAL_COUNT
    seed: int = 1
    level: Level = Level.ROW
    piece: str = ""
    part: str = ""
    person: str = ""
