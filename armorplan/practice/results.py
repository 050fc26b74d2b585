"""What is kept of an exercise that was answered, and what that says of each reason."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from armorplan.practice.drill import Asked
from armorplan.practice.grades import Grade, Review
from armorplan.relations.model import OWN


@dataclass(frozen=True, slots=True, kw_only=True)
class ReasonMet:
    """A reason that an answer met.

    Attributes:
        rule: code of the rule; ``name``: the rule's name for people, as it was then.
        kept: the answer kept it.
        decided: it is the one that decided the exercise: the second question is about it.
    """

    rule: str
    name: str
    kept: bool
    decided: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """How a first try at an exercise went.

    Attributes:
        at: when it was answered; aware, UTC.
        person: id.
        pattern: uuid of the pattern it was made from; ``pattern_name``: as it was called then.
        piece: of which piece it was, whatever was asked for.
        asked: all that decides it, beside the pattern.
        answer: ids of choices, as in ``practice.drill.Answer``.
        grade: how it was known.
        seconds: from showing it to the answer.
        hint: the reason was asked for before the answer.
        seq: its number in the workshop file, ascending; 0 before it is kept.
    """

    at: datetime
    person: str
    pattern: str
    pattern_name: str
    piece: str
    asked: Asked
    answer: tuple[str, ...]
    right: bool
    grade: Grade
    seconds: float
    hint: bool = False
    reasons: tuple[ReasonMet, ...] = ()
    seq: int = 0


def grade_of_reason(result: Result, reason: ReasonMet) -> Grade | None:
    """Return what an answer says of one reason it met; ``None``: nothing.

    A wrong answer misses the reasons it breaks. It says nothing of those it happens to keep: most
    wrong orders keep most relations. A right answer knows all it kept; to teach is asked of the
    one that decided, so the others count as known.
    """
    if not reason.kept:
        return Grade.MISSED
    if not result.right:
        return None
    if result.grade is Grade.COULD_TEACH and not reason.decided:
        return Grade.KNEW
    return result.grade


def reason_key(rule: str, pattern: str) -> str:
    """Return what a reason is remembered by: the rule; a maker's own relation is one pattern's."""
    return f"{rule}@{pattern}" if rule.startswith(OWN) else rule


def reviews(results: Iterable[Result]) -> Iterator[tuple[str, Review]]:
    """Yield by ``reason_key`` what results say of reasons, in the order they were kept."""
    for result in results:
        for reason in result.reasons:
            grade = grade_of_reason(result, reason)
            if grade is not None:
                yield (
                    reason_key(reason.rule, result.pattern),
                    Review(at=result.at, grade=grade),
                )
