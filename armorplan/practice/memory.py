"""How a reason sits with a person, reckoned from how it was known each time it was met.

The published memory model of the ``fsrs`` library does the reckoning, with the parameters it comes
with. Nothing of the library leaves this module. Where nothing else is said, a bound here is our
own choice, without a source.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Self

from fsrs import Card, Rating, Scheduler, State

from armorplan.practice.grades import Grade, ReasonState, Review

MASTERED_DAYS = 21.0
"""Stability from which a reason may count as mastered: about as long as a harness is at the bench,
so that it outlasts one."""

MASTERED_SITS = 0.8
"""How sure it still has to sit for that. It is worth asking again at 0.9: who comes some days late
to that has not lost it yet."""

_RATINGS = {
    Grade.MISSED: Rating.Again,
    Grade.NEEDED_REASON: Rating.Hard,
    Grade.KNEW: Rating.Good,
    Grade.COULD_TEACH: Rating.Easy,
}
# Without chance: the same reviews give the same days.
_SCHEDULER = Scheduler(enable_fuzzing=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Memory:
    """How a reason sits after some reviews; ``met`` adds one.

    Attributes:
        last: how it was known the last time.
        last_at: when that was; ``due_at``: when it is worth asking again. Aware, UTC.
        stability_days: after so many days it is recalled nine times in ten.
        difficulty: of the model, 1 to 10; never shown.
        later: how often it was known a day or more after it was met before.
        phase: of the model: its phase, and the step in it, if it has any.
    """

    last: Grade
    last_at: datetime
    due_at: datetime
    stability_days: float
    difficulty: float
    later: int
    phase: tuple[int, int | None]


def met(memory: Memory | None, review: Review) -> Memory:
    """Return how a reason sits after one more review.

    A clock that was set back between two reviews makes the later one as old as the earlier: it
    says nothing of forgetting.

    Args:
        memory: how it sat before; ``None``: it was never met.
        review: how it was known; its instant may have any zone.
    """
    at, later = review.at.astimezone(UTC), 0
    if memory is not None:
        at = max(at, memory.last_at)
        is_later = (at - memory.last_at).days >= 1 and review.grade is not Grade.MISSED
        later = memory.later + is_later
    card, _ = _SCHEDULER.review_card(_card(memory, at), _RATINGS[review.grade], at)
    return Memory(
        last=review.grade,
        last_at=at,
        due_at=card.due,
        stability_days=card.stability or 0.0,
        difficulty=card.difficulty or 0.0,
        later=later,
        phase=(card.state.value, card.step),
    )


class _MadeAnew(Card):
    """What the library keeps of a reason: made for one question, so that it need not copy it."""

    def __copy__(self) -> Self:
        return self


def _card(memory: Memory | None, at: datetime) -> Card:
    """Return what the library keeps of a reason.

    Number and instant are always given: without them it waits, and looks at the clock.
    """
    if memory is None:
        return _MadeAnew(card_id=1, due=at)
    state, step = memory.phase
    return _MadeAnew(
        card_id=1,
        state=State(state),
        step=step,
        stability=memory.stability_days,
        difficulty=memory.difficulty,
        due=memory.due_at,
        last_review=memory.last_at,
    )


def remembered(reviews: Iterable[Review], now_at: datetime) -> Memory | None:
    """Return how a reason sits; ``None``: it was never met.

    Args:
        reviews: in the order they were kept, which alone tells what came after what.
        now_at: this instant; aware. A review that says it is later was kept by a clock that ran
            ahead: it counts as of now.
    """
    memory = None
    for review in reviews:
        memory = met(memory, Review(at=min(review.at, now_at), grade=review.grade))
    return memory


def sits(memory: Memory, at: datetime) -> float:
    """Return how sure a reason still sits at an instant (aware): above 0, up to 1.

    It goes by whole days since it was met last, as the model does.
    """
    return float(_SCHEDULER.get_card_retrievability(_card(memory, at), at))


def is_due(memory: Memory, at: datetime) -> bool:
    """Tell whether a reason is worth asking again at an instant."""
    return memory.due_at <= at


def state_of(memory: Memory | None, at: datetime) -> ReasonState:
    """Return how a reason sits, in a word.

    Mastered is what was known without help the last time, was known on a later day at all, sits
    for as long as a harness takes (``MASTERED_DAYS``), and is not gone by now (``MASTERED_SITS``).
    The last time counts beside the stability, which a single miss may leave high: who missed it
    today has not mastered it. Nor has who was right over and over on one afternoon.
    """
    if memory is None:
        return ReasonState.UNSEEN
    known = memory.last in (Grade.KNEW, Grade.COULD_TEACH) and memory.later > 0
    if known and memory.stability_days >= MASTERED_DAYS and sits(memory, at) >= MASTERED_SITS:
        return ReasonState.MASTERED
    return ReasonState.SHAKY
