"""A short mark of an exercise as it is shown, so that an answer is not judged by another one."""

from hashlib import sha256

from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Drill

_LETTERS = 4
"""One exercise in 65,000 bears another one's mark by chance."""


def mark_of(drill: Drill) -> str:
    """Return the mark of an exercise; another one, or one with other numbers, has another."""
    shown = (drill.question, drill.given, drill.choices, drill.shown, drill.done, drill.day)
    return sha256(repr(shown).encode()).hexdigest()[:_LETTERS]


def check_shown(drill: Drill, mark: str | None) -> None:
    """Refuse to judge an answer that was given to another exercise.

    Raises:
        ArmorplanError: it is another one now.
    """
    if mark is not None and mark.strip().casefold() != mark_of(drill):
        raise ArmorplanError(
            "This is another exercise than was shown: the pattern, the shelf or the shop has changed "
            "since, or the line is not as it was printed. Have it shown anew, without --shown and "
            "--answer."
        )
