"""Steps of a build that make an exercise: few, closed, with right orders and wrong ones.

They are grown round a relation whose reason the exercise is to need, out of the steps of a topic and
at most as many of other parts of its piece: a strap alone has few steps that are not one after another.
What has to be done before them is done, everything else waits until after, so that their order
decides, and nothing else. Where there are right orders and wrong ones, some wrong one is but two
neighbours away from a right one: none of these exercises is plain at sight.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice
from math import factorial
from typing import TypeVar

from armorplan.app.derived import Derived
from armorplan.app.drills.learning import Learned, told_by_reach
from armorplan.app.drills.step_grounds import Ground, grounds_of
from armorplan.practice.drill import Asked, Level
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.levels import FEWEST_STEPS, Topic, chance_of, mixed_topics
from armorplan.practice.settled_order import Bits
from armorplan.practice.tight import tight_relations
from armorplan.relations.model import Relation

_Made = TypeVar("_Made")
PLAIN_SOURCE = "follows from the step itself"
"""Reasons that nobody has to learn; an exercise needs some other where there is one."""
RIGHT_AT_MOST = 0.5
"""So many of all orders may be right; of more, an answer is rather luck."""
ATTEMPTS = 12
"""So many offers are looked at before the best of them is taken."""
_RULES = 2
_TOPICS, _SEEDS = 8, 12


MOST_NAMED = 4
"""A title names so many parts; of more it says how many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepSet:
    """Steps to be put in order.

    Attributes:
        topic: what it is about.
        learned: their right orders; ``done``: what is done before them, in order.
        tight: relations that decide their order: no other says the same by a step between.
        main: the relation it was made for; of the rule asked for where there is one.
        needs: by number of a step, which of the others its states keep before it.
        is_steered: that is what the build's own order keeps, not only what binds.
        waits: those of the steps that time alone does.
    """

    topic: Topic
    learned: Learned
    tight: tuple[Relation, ...]
    main: Relation
    needs: tuple[Bits, ...]
    is_steered: bool
    waits: Bits

    @property
    def few(self) -> FewOrders:
        """The right orders."""
        return self.learned.few

    def parts(self, derived: Derived) -> tuple[str, ...]:
        """Return the parts it is about, and those that its steps name; in the pattern's order."""
        steps = map(derived.work.step, self.few.steps)
        named = (s for s in steps if derived.work.sets(s) or len(s.parts) <= MOST_NAMED)
        about = {part for step in named for part in step.parts}.union(self.topic.parts)
        return tuple(part.id for part in derived.assembly.parts if part.id in about)

    @property
    def rules(self) -> tuple[str, ...]:
        """The rules whose reasons it needs, that of the main relation first."""
        main = self.main.reason.rule
        return (main, *sorted({each.reason.rule for each in self.tight} - {main}))


def best_of(
    offers: Iterable[_Made],
    lacks: Callable[[_Made], tuple[bool, ...]],
    *,
    attempts: int = ATTEMPTS,
) -> _Made | None:
    """Return the first of some offers that lacks nothing, or of a few the one that lacks least.

    Args:
        offers: in chance's order.
        lacks: what one lacks, what weighs most first.
        attempts: so many are looked at before the best of them is taken.
    """
    best: tuple[tuple[bool, ...], _Made] | None = None
    for offer in islice(offers, attempts):
        lack = lacks(offer)
        if best is None or lack < best[0]:
            best = lack, offer
        if not any(lack):
            break
    return None if best is None else best[1]


def lacks_of(asked: Asked, found: StepSet, least: int) -> tuple[bool, ...]:
    """Return what steps lack for a good exercise of at least so many, what weighs most first."""
    reasons = [each.reason for each in found.tight]
    return (
        bool(asked.focus) and found.main.reason.rule != asked.focus,
        not found.is_steered,
        all(reason.source == PLAIN_SOURCE for reason in reasons),
        len(found.few.steps) < least,
        len(found.rules) < _RULES,
        found.few.count == 1,
    )


class StepSets:
    """Offers sets of steps of a build."""

    def __init__(self, derived: Derived, asked: Asked, sizes: tuple[int, int]) -> None:
        """Take the build, what is asked, and the fewest and most steps that are wanted."""
        self._derived = derived
        self._asked = asked
        self._sizes = sizes
        self._chance = chance_of(asked)
        self._grounds = grounds_of(derived)

    def offers(self) -> Iterator[StepSet]:
        """Yield sets of steps that make an exercise; those that need the rule asked for first.

        Where the level has nothing to do with that rule, steps of the piece or of all are taken,
        as few as the level has.
        """
        found = self._topics(self._asked.level)
        if self._asked.focus:
            for topic in (*found, *self._topics(Level.PIECE), *self._topics(Level.HARNESS)):
                yield from self._of_topic(topic, self._is_asked)
        for topic in found[:_TOPICS]:
            yield from self._of_topic(topic, lambda _: True)

    def _of_topic(self, topic: Topic, is_meant: Callable[[Relation], bool]) -> Iterator[StepSet]:
        for ground in self._grounds:
            seeds = [one for one in ground.seeds(topic) if is_meant(one)]
            offers = (self._offer(ground, topic, seed) for seed in self._in_turn(seeds))
            yield from (offer for offer in offers if offer is not None)

    def _topics(self, level: Level) -> tuple[Topic, ...]:
        derived, asked = self._derived, replace(self._asked, level=level)
        return mixed_topics(derived.assembly, derived.work, asked, self._chance)

    def _is_asked(self, relation: Relation) -> bool:
        return relation.reason.rule == self._asked.focus

    def _in_turn(self, seeds: Sequence[Relation]) -> Iterator[Relation]:
        """Yield relations in chance's order, each rule in turn; what nobody has to learn last."""
        by_rule: dict[tuple[bool, str], list[Relation]] = {}
        for seed in seeds:
            key = (seed.reason.source == PLAIN_SOURCE, seed.reason.rule)
            by_rule.setdefault(key, []).append(seed)
        rules = sorted(by_rule)
        self._chance.shuffle(rules)
        rules.sort(key=lambda key: key[0])
        for rule in rules * max(2, _SEEDS // max(1, len(rules))):
            yield self._chance.choice(by_rule[rule])

    def _offer(self, ground: Ground, topic: Topic, seed: Relation) -> StepSet | None:
        settled, size = ground.settled, self._chance.randint(*self._sizes)
        beside = self._of_piece(topic)
        bits = ground.grown(topic, seed, size, beside=beside, chance=self._chance)
        if bits.bit_count() < FEWEST_STEPS or not bits & settled.bits(topic.own):
            return None
        done = ground.wet.dried(settled.ahead_of(bits), bits)
        learned = Learned(self._derived, done, settled.steps(bits))
        return self._judged(ground, topic, learned, seed)

    def _of_piece(self, topic: Topic) -> tuple[str, ...]:
        """Return the steps of the piece, or the pieces, that a topic is part of."""
        work = self._derived.work
        pieces = {(work.step(step).piece, work.step(step).side) for step in topic.steps}
        return tuple(step.id for step in work.steps if (step.piece, step.side) in pieces)

    def _judged(
        self, ground: Ground, topic: Topic, learned: Learned, seed: Relation
    ) -> StepSet | None:
        if not self._can_be_done(learned):
            return None
        learned.settle()
        few = learned.few
        is_plain = few.count > RIGHT_AT_MOST * factorial(len(few.steps))
        if not few.count or is_plain or not ground.wet.is_dry(learned):
            return None
        tight = tight_relations(few)
        of_seed = (each for each in (*tight, *few.relations) if each.reason == seed.reason)
        main = next(of_seed, None)
        if main is None:
            return None
        return StepSet(
            topic=topic,
            learned=learned,
            tight=tight,
            main=main,
            needs=ground.needs(few),
            is_steered=ground.is_steered,
            waits=few.bits(
                step for step in few.steps if not self._derived.work.step(step).attended
            ),
        )

    def _can_be_done(self, learned: Learned) -> bool:
        """Tell whether bringing the steps together leaves nothing more out of reach."""
        said = told_by_reach(self._derived, learned.whole(learned.few.steps))
        return self._left_out.issuperset(said)

    @cached_property
    def _left_out(self) -> frozenset[Relation]:
        return frozenset(told_by_reach(self._derived, self._derived.order))
