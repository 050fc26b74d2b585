"""Gathering a few steps that have much to do with each other, and can be done one after another."""

import random
from collections.abc import Callable, Iterable, Iterator, Sequence

from armorplan.practice.settled_order import Bits, SettledOrder, each
from armorplan.relations.model import Relation

_NEW_RULE, _LINKED, _WANTED, _ALIKE, _MORE, _CHANCE = 1.0, 0.5, 0.8, 0.6, 0.15, 1.2
"""What speaks for a step: a rule not met yet, any tie, that it is wanted; what against it: each
step of its kind there is, each step it brings along. And how much is left to chance."""
_RULES_COUNTED = 2
_LOOKED_AT = 60


class Gathering:
    """Grows sets of steps in which several rules meet.

    A set is closed: what has to stand between two of its steps is in it too, so that its steps can
    be done one after another.
    """

    def __init__(
        self,
        settled: SettledOrder,
        relations: Iterable[Relation],
        kind: Callable[[str], str],
        *,
        apart: Sequence[Bits] = (),
    ) -> None:
        """Take the order, the relations that tie steps, and what a step is alike with.

        Args:
            settled: the order.
            relations: what ties steps.
            kind: by step what it is alike with.
            apart: by place the steps that no set may hold with it; empty: any may stand together.
        """
        self.settled = settled
        self._apart = apart or [0] * len(settled.order)
        self._kinds = [kind(step) for step in settled.order]
        self._ties: list[list[tuple[Bits, str]]] = [[] for _ in settled.order]
        self._pairs = [(settled.pair(each), each) for each in relations]
        for pair, relation in self._pairs:
            for at in each(pair):
                self._ties[at].append((pair & ~(1 << at), relation.reason.rule))

    def bearing_on(self, own: Bits, pool: Bits) -> list[Relation]:
        """Return the relations by which the order keeps steps apart of which one is ``own``.

        At most one of them lies outside the pool.
        """
        return [
            relation
            for pair, relation in self._pairs
            if pair & own and (pair & ~pool).bit_count() <= 1
        ]

    def around(self, relation: Relation) -> Bits:
        """Return the steps by which the order keeps a relation, and what lies between them.

        Of 'before the last of' some these are the first step and that last one: the others are
        done before, or are taken along.
        """
        return self.settled.hull(self.settled.pair(relation))

    def may_meet(self, bits: Bits) -> bool:
        """Tell whether a set holds no two steps that are to be kept apart."""
        return not any(self._apart[at] & bits for at in each(bits))

    def grown(
        self, start: Bits, pool: Bits, size: int, *, wanted: Bits, chance: random.Random
    ) -> Bits:
        """Return a closed set of at most ``size`` steps of the pool that holds those of the start.

        Args:
            start: a closed set of steps of the pool.
            pool: the steps to choose from.
            size: as large as it may get; it stays smaller where nothing fits.
            wanted: steps that are rather taken than others.
            chance: decides among what is about as good.
        """
        chosen = start
        while chosen.bit_count() < size:
            found = max(self._offers(chosen, pool, size, wanted, chance), default=None)
            if found is None:
                break
            chosen |= found[1]
        return chosen

    def _offers(
        self, chosen: Bits, pool: Bits, size: int, wanted: Bits, chance: random.Random
    ) -> Iterator[tuple[float, Bits]]:
        room = size - chosen.bit_count()
        rules = {rule for at in each(chosen) for of, rule in self._ties[at] if of & chosen}
        near = list(each(self._near(chosen) & pool & ~chosen))
        for at in sorted(chance.sample(near, min(_LOOKED_AT, len(near)))):
            added = self.settled.hull(chosen | 1 << at) & ~chosen
            fits = not added & ~pool and added.bit_count() <= room
            if fits and self.may_meet(chosen | added):
                worth = self._worth(added, chosen, rules) + _WANTED * bool(wanted >> at & 1)
                yield worth + _CHANCE * chance.random(), added

    def _near(self, chosen: Bits) -> Bits:
        """Return what is tied to steps, one to one."""
        near = chosen
        for at in each(chosen):
            for of, _rule in self._ties[at]:
                near |= of if of.bit_count() == 1 else 0
        return near

    def _worth(self, added: Bits, chosen: Bits, rules: set[str]) -> float:
        met = {rule for at in each(added) for of, rule in self._ties[at] if of & chosen}
        kinds = [self._kinds[at] for at in each(chosen)]
        alike = sum(kinds.count(self._kinds[at]) for at in each(added))
        return (
            _NEW_RULE * min(len(met - rules), _RULES_COUNTED)
            + _LINKED * bool(met)
            - _ALIKE * alike
            - _MORE * (added.bit_count() - 1)
        )
