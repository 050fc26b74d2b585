"""One order where 'after any of' or 'together' are among the relations."""

from collections.abc import Iterable, Sequence
from itertools import groupby

from armorplan.orders.between import parted_groups
from armorplan.orders.deciding import decide
from armorplan.orders.fitting import not_fitting
from armorplan.orders.smallest_first import smallest_first
from armorplan.relations.index import NOBODY, RelationIndex, named_steps
from armorplan.relations.mending import LookAhead
from armorplan.relations.mixing import Choice, Mix, mix
from armorplan.relations.model import Together
from armorplan.relations.settling import Settled, settle

_MOST_GIVEN_UP = 12
"""Trials with relations that only steer that may end undecided; then none is made any more."""

_MOST_TRIALS = 60
"""Trials with relations that only steer, each of which lays out all of them anew; the samples take
one. Hundreds of rows that cannot all be set in one go would take minutes for a little ease."""


class GrowingOrder:
    """An order to which relations that steer are added, if they fit.

    First all goes by the smallest key under the clauses that hold in any case. Whatever that order
    keeps anyway is left as it is; the rest is settled as near to it as can be found.

    Args:
        index: steps and relations.
        counted: by relation of any kind, 1 where it has to be kept.
        steering: relations that may be added.
        by_key: the steps by their key, the smallest first.
    """

    def __init__(
        self,
        index: RelationIndex,
        counted: bytearray,
        *,
        steering: Iterable[int],
        by_key: Sequence[int],
    ) -> None:
        self._index = index
        self._steering = tuple(steering)
        self._place = {step: at for at, step in enumerate(by_key)}
        mixed = self._mixed(counted)
        self.settled = decide(mixed, order=self._first_order(mixed))
        """How the relations to be kept were settled; what is added changes it no more."""
        self._given_up = 0 if self.settled.decided else _MOST_GIVEN_UP
        self._trials = 0
        if not self.settled.core:
            self._hold(counted, mixed, self.settled)

    def add_all(self, relations: Iterable[int]) -> list[int]:
        """Make relations count, each if it fits beside those before it; return the others.

        To lay out blocks anew takes as long for all 'together' as for one, so those that follow
        each other are tried at once.
        """
        dropped: list[int] = []
        for in_one_go, run in groupby(relations, key=self._is_together):
            if in_one_go:
                dropped += self._not_together(list(run))
            else:
                dropped += [relation for relation in run if not self._add(relation)]
        return dropped

    def _is_together(self, relation: int) -> bool:
        return isinstance(self._index.relations[relation], Together)

    def _not_together(self, run: list[int]) -> list[int]:
        """Make 'together' relations count; return those that do not fit."""
        index = self._index
        groups = {at: [index.number[s] for s in named_steps(index.relations[at])] for at in run}
        order = self._mix.steps_of(self._look.order, len(index.steps))
        parted = parted_groups(index, self._counted, order, groups)
        whole = [at for at in run if at not in parted]
        return [at for at in run if at in parted] + not_fitting(whole, self._lay_with)

    def _add(self, relation: int) -> bool:
        choice = self._mix.steering[relation]
        if choice is None or self._takes(choice):
            self._counted[relation] = 1
            self._chose |= choice is not None and len(choice.ways) > 1
            return True
        # What was settled stands in its way: perhaps it can be settled otherwise.
        return self._chose and self._lay_with([relation]) is None

    def order(self) -> list[int]:
        """Return the order: always the smallest that may come next, as all was settled."""
        left = bytearray(self._mix.left)
        order = self._by_key(self._mix, left, self._active)
        return self._mix.steps_of(order, len(self._index.steps))

    def _takes(self, choice: Choice) -> bool:
        for way in choice.ways:
            added = []
            for at in way:
                if not self._look.add(at):
                    break
                added.append(at)
            if len(added) == len(way):
                return True
            for at in added:
                self._look.drop(at)
        return False

    def _lay_with(self, relations: list[int]) -> frozenset[int] | None:
        """Settle everything anew with more relations; where they cannot be kept, return why."""
        if self._given_up >= _MOST_GIVEN_UP or self._trials >= _MOST_TRIALS:
            return frozenset()
        self._trials += 1
        counted = bytearray(self._counted)
        for at in relations:
            counted[at] = 1
        mixed = self._mixed(counted)
        settled = settle(mixed, order=self._first_order(mixed))
        if settled.possible:
            self._hold(counted, mixed, settled)
            return None
        self._given_up += not settled.decided
        return settled.core

    def _mixed(self, counted: bytearray) -> Mix:
        index = self._index
        others = [at for at in self._steering if not (counted[at] or self._is_together(at))]
        return mix(index, index.left_after(()), counted, steering=others)

    def _first_order(self, mixed: Mix) -> list[int] | None:
        """Return what goes by the smallest key under the clauses that hold in any case."""
        if mixed.clash:
            return None
        order = self._by_key(mixed, bytearray(mixed.left), bytearray(mixed.fixed))
        return order if len(order) == sum(mixed.left) else None

    def _hold(self, counted: bytearray, mixed: Mix, settled: Settled) -> None:
        self._counted, self._mix = counted, mixed
        self._chose = bool(mixed.choices)
        self._active = bytearray(settled.active)
        left = bytearray(mixed.left)
        self._look = LookAhead(mixed.index, left=left, active=self._active, order=settled.order)

    def _by_key(self, mixed: Mix, left: bytearray, active: bytearray) -> list[int]:
        look = LookAhead(mixed.index, left=left, active=active)
        if not look.possible:
            return []
        return smallest_first(mixed.index, look, active, self._sorted(mixed))

    def _sorted(self, mixed: Mix) -> list[int]:
        """Return steps and blocks by key; a block has the smallest key of the steps in it."""
        parents, steps = mixed.blocks.parents, len(self._index.steps)
        place = [self._place.get(at, steps) for at in range(len(parents))]
        for at in range(steps):
            one = parents[at]
            while one != NOBODY:
                place[one] = min(place[one], place[at])
                one = parents[one]
        return sorted(range(len(parents)), key=lambda one: (place[one], one))
