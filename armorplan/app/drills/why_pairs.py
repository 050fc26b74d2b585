"""Reasons of the same steps and parts that are true and do not decide what is asked."""

import random
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from armorplan.app.derived import Derived
from armorplan.app.drills.reasons import rule_words, title_of
from armorplan.practice.drill import Because
from armorplan.relations.index import first_and_members, is_plain, named_steps
from armorplan.relations.model import Before, BeforeAll, Force, Relation
from armorplan.steps.naming import part_name

PLAIN_FACTS = frozenset(("cut-before-use", "stack-before-joint", "drying-starts-at-once"))
"""Codes of rules that nobody would take for a reason of anything else: these come last."""
_NAMES_TELL = 2
_FEW_PARTS = 4
"""Of a step with more parts a title counts them, and names none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """What is asked why: that one of some steps comes before the last of some others.

    Attributes:
        ahead: the step that comes first; where one of several will do, all of these.
        behind: those before the last of which it comes; never empty.
        rule: code of the rule that decides it, of which no other reason is taken.
        texts: its sentences.
    """

    ahead: frozenset[str]
    behind: frozenset[str]
    rule: str
    texts: frozenset[str]

    @property
    def steps(self) -> frozenset[str]:
        """All steps it is of."""
        return self.ahead | self.behind


class OtherReasons:
    """Reasons of a build that are true of the steps of a pair, or of their parts, and settle it not.

    Left out is whatever lies on a way from the first step to one of those behind it, and whatever
    reads as such a one: that would have its share in the answer.
    """

    def __init__(self, derived: Derived, pair: Pair) -> None:
        self._derived, self._pair = derived, pair
        self._work = derived.work
        self._parts = min((self._work.step(s).parts for s in sorted(pair.steps)), key=len)

    def some(self, chance: random.Random, most: int) -> list[tuple[Because, str]]:
        """Return a few, each of another rule and name, the nearest first, with why each settles nothing."""
        found: dict[str, Before | BeforeAll] = {}
        for relation in sorted(self._drawn(chance), key=self._far):
            found.setdefault(rule_words(relation.reason.rule), relation)
        nearest = sorted(found.values(), key=self._far)[:most]
        return [(self._because(one), self._why_not(one)) for one in nearest]

    def _drawn(self, chance: random.Random) -> list[Before | BeforeAll]:
        every = list(self._aside())
        chance.shuffle(every)
        return every

    def _aside(self) -> Iterator[Before | BeforeAll]:
        """Yield relations that hold, of these steps or parts, and that say nothing of the pair."""
        told, near = set(self._pair.texts), list[Before | BeforeAll]()
        for relation in self._derived.index.relations:
            if not is_plain(relation) or not self._stands(relation):
                continue
            if self._is_on_the_way(relation):
                told.add(relation.reason.text)
            elif self._is_near(relation):
                near.append(relation)
        # A sentence that names nothing may be true of what is asked about as well.
        yield from (each for each in near if each.reason.text not in told)

    def _stands(self, relation: Relation) -> bool:
        reason = relation.reason
        return not reason.overruled and relation not in self._derived.not_kept

    def _is_near(self, relation: Before | BeforeAll) -> bool:
        steps = named_steps(relation)
        parts = {part for step in steps for part in self._work.step(step).parts}
        is_near = not (self._pair.steps.isdisjoint(steps) and parts.isdisjoint(self._parts))
        return is_near and relation.reason.rule != self._pair.rule

    def _is_on_the_way(self, relation: Before | BeforeAll) -> bool:
        first, members = first_and_members(relation)
        return first in self._after and not self._before.isdisjoint(members)

    @cached_property
    def _after(self) -> frozenset[str]:
        """What is ahead and all that has to come behind it."""
        index = self._derived.index

        def onward(step: str) -> Iterator[str]:
            for at in index.by_first[index.number[step]]:
                if index.binds[at]:
                    yield from (index.steps[member] for member in index.members[at])

        return _spread(self._pair.ahead, onward)

    @cached_property
    def _before(self) -> frozenset[str]:
        """Those behind and all that has to come before one of them."""
        index = self._derived.index

        def onward(step: str) -> Iterator[str]:
            for at in index.by_member[index.number[step]]:
                if index.binds[at]:
                    yield index.steps[index.firsts[at]]

        return _spread(self._pair.behind, onward)

    def _far(self, relation: Before | BeforeAll) -> tuple[bool, int, bool]:
        """Return a key that sorts the nearest first: what names as much of the pair as its own reason.

        Else that one would be known by the names in it, or by there being none, without a thought.
        """
        return (
            relation.reason.rule in PLAIN_FACTS,
            abs(self._said(relation.reason.text) - self._own),
            self._pair.steps.isdisjoint(named_steps(relation)),
        )

    @cached_property
    def _own(self) -> int:
        return max(map(self._said, self._pair.texts))

    def _said(self, text: str) -> int:
        """Return how much of the pair a sentence names, up to what catches the eye."""
        small = text.lower()
        return min(sum(name in small for name in self._named), _NAMES_TELL)

    @cached_property
    def _named(self) -> frozenset[str]:
        return frozenset(names_in(self._derived, self._pair.steps))

    def _because(self, relation: Before | BeforeAll) -> Because:
        rule = relation.reason.rule
        steps = tuple(sorted(named_steps(relation)))
        return Because(rule=rule, name=rule_words(rule), text=relation.reason.text, steps=steps)

    def _why_not(self, relation: Before | BeforeAll) -> str:
        first, members = first_and_members(relation)
        before, then = quoted(self._derived, first), quoted(self._derived, min(members))
        only = "is easier before" if relation.reason.force is Force.EASIER else "comes before"
        said = f"is true, but it says that {before} {only} {then}"
        return (
            f"'{rule_words(relation.reason.rule)}' {said}; of what is asked here it says nothing."
        )


def quoted(derived: Derived, step: str) -> str:
    """Return a step's title in quotes; in double ones where it has quotes of its own."""
    title = title_of(derived, step)
    return f'"{title}"' if "'" in title else f"'{title}'"


def names_in(derived: Derived, steps: Iterable[str]) -> Iterator[str]:
    """Yield, in small letters, what a sentence would name of some steps: titles, and a few parts."""
    for step in map(derived.work.step, sorted(steps)):
        yield step.title.lower()
        if len(step.parts) <= _FEW_PARTS:
            yield from (part_name(derived.assembly, part).lower() for part in step.parts)


def _spread(begun: Iterable[str], onward: Callable[[str], Iterable[str]]) -> frozenset[str]:
    """Return all that is reached from some steps, and these themselves."""
    found, front = set(begun), list(begun)
    while front:
        fresh = set(onward(front.pop())) - found
        found |= fresh
        front += fresh
    return frozenset(found)
