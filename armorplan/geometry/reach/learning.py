"""What joints have to come before, learned from orders that fail, where rows alone do not tell.

A row half made may already shut a tool out, and more sets of joints may do it than are worth telling
at once. So an order is tried, what fails in it becomes a lesson, and the next order keeps all
lessons, until one holds.
"""

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from typing import Generic, TypeVar

Lesson = TypeVar("Lesson", bound=Hashable)
_Order = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned(Generic[Lesson]):
    """Lessons, and the order that keeps them.

    Attributes:
        order: the last one tried; ``None`` where there is none at all.
        lessons: what it keeps.
        left: what still fails in it, because no order keeps that too, or none was found in time.
    """

    order: _Order | None
    lessons: tuple[Lesson, ...]
    left: tuple[Lesson, ...]


def learn(
    again: Callable[[tuple[Lesson, ...]], _Order | None],
    fails: Callable[[_Order], tuple[Lesson, ...]],
    *,
    most: int,
) -> Learned[Lesson]:
    """Return what is learned until an order holds, or none keeps all that was learned.

    Args:
        again: an order that keeps all lessons; ``None`` where there is none.
        fails: what an order fails in; what is known already is no news.
        most: so many orders are learned from at most.
    """
    kept: tuple[Lesson, ...] = ()
    order = again(kept)
    for _ in range(most):
        fresh = () if order is None else _fresh(fails(order), kept)
        if not fresh:
            return Learned(order=order, lessons=kept, left=())
        better = again((*kept, *fresh))
        if better is None:
            return Learned(order=order, lessons=kept, left=fresh)
        order, kept = better, (*kept, *fresh)
    left = () if order is None else _fresh(fails(order), kept)
    return Learned(order=order, lessons=kept, left=left)


def _fresh(failed: tuple[Lesson, ...], kept: tuple[Lesson, ...]) -> tuple[Lesson, ...]:
    known = frozenset(kept)
    return tuple(each for each in failed if each not in known)
