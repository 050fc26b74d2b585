"""All right orders of a few steps at once, by the sets in which they can be begun.

Whether a step may come next depends on what is done, not on the order it was done in. So the right
orders of n steps are the ways through at most 2^n sets: few enough for the most steps an exercise
has, whatever kinds of relation meet. Counting, drawing and measuring are exact.
"""

import random
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from armorplan.orders.stretch import relations_within
from armorplan.practice.drill import MOST_STEPS
from armorplan.practice.settled_order import Bits, each
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import AfterAny, Relation, Together
from armorplan.relations.weighing import binding


@dataclass(frozen=True, slots=True)
class _Last:
    """A step may not be the last of these while the first is not done."""

    first: Bits
    members: Bits


class FewOrders:
    """The right orders of a few steps, with what is done before and after them fixed.

    Attributes:
        steps: their ids, in the order in which they were given.
        relations: what binds among them; see ``orders.stretch.relations_within``.
    """

    def __init__(
        self,
        steps: Sequence[str],
        relations: Iterable[Relation],
        *,
        before: Sequence[str] = (),
        after: Iterable[str] = (),
    ) -> None:
        """Take steps, each once, and all relations; only those that bind count.

        Raises:
            ValueError: more steps than an exercise has, or one of them twice.
        """
        if len(steps) > MOST_STEPS or len(set(steps)) < len(steps):
            raise ValueError(f"{len(steps)} steps; at most {MOST_STEPS} are meant, each once")
        self.steps = tuple(steps)
        self.relations = relations_within(
            self.steps, binding(relations), before=before, after=frozenset(after)
        )
        self.number = {step: at for at, step in enumerate(self.steps)}
        self.whole: Bits = (1 << len(self.steps)) - 1
        self._needs: list[Bits] = [0] * len(self.steps)
        self._lasts: list[list[_Last]] = [[] for _ in self.steps]
        self._any: list[list[Bits]] = [[] for _ in self.steps]
        self._blocks: list[Bits] = []
        self._never: Bits = 0
        for relation in self.relations:
            self._take(relation)

    def bits(self, steps: Iterable[str]) -> Bits:
        """Return steps as a set."""
        return sum(1 << self.number[step] for step in set(steps))

    def _take(self, relation: Relation) -> None:
        if isinstance(relation, AfterAny):
            others = relation.of - {relation.then}
            self._any[self.number[relation.then]].append(self.bits(others))
        elif isinstance(relation, Together):
            self._blocks.append(self.bits(relation.of))
        elif is_plain(relation):
            self._take_plain(*first_and_members(relation))

    def _take_plain(self, first: str, members: frozenset[str]) -> None:
        bit, of = self.bits((first,)), self.bits(members)
        if not members:
            self._never |= bit
        for member in members:
            at = self.number[member]
            if of == 1 << at:
                self._needs[at] |= bit
            else:
                self._lasts[at].append(_Last(bit, of))

    def may(self, done: Bits) -> Bits:
        """Return what breaks nothing if it is done next; the way may still end later."""
        left = self.whole & ~done & ~self._never
        for block in self._blocks:
            if done & block and block & ~done:
                left &= block
        return sum(
            1 << at for at in range(len(self.steps)) if left >> at & 1 and self._fits(at, done)
        )

    def _fits(self, at: int, done: Bits) -> bool:
        if self._needs[at] & ~done:
            return False
        after = done | 1 << at
        return all(one.first & done or one.members & ~after for one in self._lasts[at]) and all(
            done & some for some in self._any[at]
        )

    @cached_property
    def ways(self) -> dict[Bits, int]:
        """By set that can be done first, in how many ways the rest can follow; dead ends are left out."""
        onward: dict[Bits, Bits] = {}
        layers: list[list[Bits]] = [[0]]
        for _ in self.steps:
            found: dict[Bits, None] = {}
            for done in layers[-1]:
                onward[done] = self.may(done)
                found.update((done | 1 << at, None) for at in each(onward[done]))
            layers.append(list(found))
        ways = dict.fromkeys(layers[-1], 1)
        for layer in reversed(layers[:-1]):
            for done in layer:
                number = sum(ways.get(done | 1 << at, 0) for at in each(onward[done]))
                if number:
                    ways[done] = number
        return ways

    @property
    def count(self) -> int:
        """How many orders are right."""
        return self.ways.get(0, 0)

    def onward(self, done: Bits) -> tuple[int, ...]:
        """Return by number what may come next, so that the rest can follow."""
        return tuple(at for at in each(self.may(done)) if done | 1 << at in self.ways)

    def way_to(self, done: Bits) -> tuple[str, ...]:
        """Return an order of steps that can be done first, so that the rest can follow."""
        found: list[int] = []
        while done:
            last = next(
                at
                for at in reversed(tuple(each(done)))
                if done ^ 1 << at in self.ways and self.may(done ^ 1 << at) >> at & 1
            )
            found.append(last)
            done ^= 1 << last
        return tuple(self.steps[at] for at in reversed(found))

    def is_right(self, order: Sequence[str]) -> bool:
        """Tell whether an order of all the steps keeps what binds."""
        if sorted(order) != sorted(self.steps):
            return False
        done: Bits = 0
        for at in map(self.number.__getitem__, order):
            if not self.may(done) >> at & 1:
                return False
            done |= 1 << at
        return True

    def orders(self) -> Iterator[tuple[str, ...]]:
        """Yield every right order, by the steps' own order; there may be very many."""
        yield from self._orders((), 0)

    def _orders(self, begun: tuple[str, ...], done: Bits) -> Iterator[tuple[str, ...]]:
        if done == self.whole and self.count:
            yield begun
        for at in self.onward(done):
            yield from self._orders((*begun, self.steps[at]), done | 1 << at)

    def drawn(self, chance: random.Random) -> tuple[str, ...]:
        """Return a right order, each as likely as any other; empty where there is none."""
        found: tuple[str, ...] = ()
        done = 0
        while done != self.whole and self.count:
            nexts = self.onward(done)
            at = _weighed(chance, nexts, [self.ways[done | 1 << at] for at in nexts])
            found, done = (*found, self.steps[at]), done | 1 << at
        return found


def _weighed(chance: random.Random, some: Sequence[int], weights: Sequence[int]) -> int:
    """Return one of some by whole weights, which floats would not hold."""
    spot = chance.randrange(sum(weights))
    for one, weight in zip(some, weights, strict=True):
        spot -= weight
        if spot < 0:
            return one
    raise AssertionError
