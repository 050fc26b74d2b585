"""What was signed off stands until it is taken back; then what was said before it stands again."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff

_Stack = list[tuple[int, SignedOff]]
"""What was said of one kind, each over what it stands in the place of, with its place among all."""


def standing(words: Iterable[SignedOff], person: str) -> dict[str, SignedOff]:
    """Return what stands of a person's skills, by kind of step.

    Args:
        words: all that was said, in its order.
        person: id.
    """
    return {kind: stack[-1][1] for kind, stack in _stacks(words, person).items()}


def last_said(words: Iterable[SignedOff], person: str) -> SignedOff | None:
    """Return what was said last of a person's skills and still stands; ``None``: nothing does."""
    found = max((stack[-1] for stack in _stacks(words, person).values()), default=None, key=_place)
    return found[1] if found else None


def taking_back(
    words: Iterable[SignedOff], person: str, *, by: str, at: datetime
) -> tuple[SignedOff, ...]:
    """Return the words that take back what was said last and still stands; empty: nothing does.

    Nothing is wiped out: the first says that the shop's file counts again, a second one says anew
    what stood before.

    Args:
        words: all that was said, in its order.
        person: whose skills; an id.
        by: who takes it back.
        at: when; aware, UTC.
    """
    stacks = _stacks(words, person).values()
    if not stacks:
        return ()
    *before, (_, last) = max(stacks, key=lambda stack: _place(stack[-1]))
    back = SignedOff(person=person, kind=last.kind, how=SkillHow.AS_FILED, by=by, at=at)
    return (back, replace(before[-1][1], at=at)) if before else (back,)


def _place(said: tuple[int, SignedOff]) -> int:
    return said[0]


def _stacks(words: Iterable[SignedOff], person: str) -> dict[str, _Stack]:
    stacks: dict[str, _Stack] = {}
    below: dict[str, _Stack] = {}
    for at, word in enumerate(words):
        if word.person != person:
            continue
        stack = stacks.pop(word.kind, [])
        under = below.pop(word.kind, [])
        if word.how is SkillHow.AS_FILED:
            below[word.kind] = stack[:-1]
        elif under and _alike(under[-1][1], word):
            stacks[word.kind] = under
        else:
            stacks[word.kind] = [*stack, (at, word)]
    return stacks


def _alike(one: SignedOff, other: SignedOff) -> bool:
    return (one.how, one.by, one.note) == (other.how, other.by, other.note)
