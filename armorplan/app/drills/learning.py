"""The right orders of a few steps with what trying them against the model of reach teaches.

Relations by whole rows do not tell of rows half made: an order that keeps them all may still leave
a joint that no tool gets to any more. What it has to be set before is learned from that order.
"""

import random
from collections.abc import Iterable, Sequence
from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.drills.source import DrillSource
from armorplan.app.learned_order import refused
from armorplan.practice.few_orders import FewOrders
from armorplan.relations.model import Relation
from armorplan.relations.weighing import binding
from armorplan.rules.overruling import overruled

_TRIED = 6
_ROUNDS = 20
_COUNTED = 100
"""So many right orders are each tried; of more, what trying some of them taught is taken for all."""


class Learned:
    """Orders of a few steps of a build, judged by relations and by reach.

    Attributes:
        done: what is done before them, in order.
        few: their right orders by all that was learned so far.
    """

    def __init__(self, derived: Derived, done: Sequence[str], steps: Sequence[str]) -> None:
        self.done = tuple(done)
        self._derived = derived
        self._steps = tuple(steps)
        self._lessons: dict[Relation, None] = {}
        here = {*self.done, *self._steps}
        self._after = tuple(step for step in derived.order if step not in here)
        self._setting = frozenset(
            step for step in self._steps if derived.work.sets(derived.work.step(step))
        )
        self._known = _touching(derived, self._steps)
        self.few = self._orders()

    def _orders(self) -> FewOrders:
        relations = (*self._known, *self._lessons)
        return FewOrders(self._steps, relations, before=self.done, after=self._after)

    def whole(self, order: Sequence[str]) -> tuple[str, ...]:
        """Return an order of the steps with all that comes before and after them."""
        return (*self.done, *order, *self._after)

    def learn(self, order: Iterable[str]) -> bool:
        """Try an order of some of the steps; tell whether it taught anything that binds them."""
        said = told_by_reach(self._derived, (*self.done, *order))
        fresh = [each for each in said if each not in self._lessons]
        if not fresh:
            return False
        before = len(self.few.relations)
        self._lessons.update(dict.fromkeys(fresh))
        self.few = self._orders()
        return len(self.few.relations) > before

    def settle(self) -> bool:
        """Try right orders until they teach nothing more; tell whether each right one was tried.

        Reach looks at what sets joints alone: orders in which these stand alike are tried once.
        """
        if len(self._setting) < 2:  # noqa: PLR2004 - one joint is not in another's way
            return True
        for _ in range(_ROUNDS):
            every = self.few.count <= _COUNTED
            if not any(map(self.learn, self._some(every=every))):
                return every
        return False

    def _some(self, *, every: bool) -> Iterable[tuple[str, ...]]:
        """Return right orders of the steps that set joints, each once; all of them, or a few."""
        orders = self.few.orders()
        if not every:
            chance = random.Random(self.few.count)  # noqa: S311 - a drill, not a secret
            orders = (self.few.drawn(chance) for _ in range(_TRIED))
        return dict.fromkeys(
            tuple(step for step in order if step in self._setting) for order in orders
        )

    def played(self, source: DrillSource) -> DrillSource:
        """Return the build with what reach taught among its relations, for playing an answer."""
        if not self._lessons:
            return source
        relations = (*source.derived.relations, *self._lessons)
        return replace(source, derived=replace(source.derived, relations=relations))

    @property
    def lessons(self) -> tuple[Relation, ...]:
        """What reach has taught beside the relations of the build."""
        return tuple(self._lessons)

    @property
    def learns(self) -> bool:
        """Tell whether reach has taught anything."""
        return bool(self._lessons)


def told_by_reach(derived: Derived, order: Sequence[str]) -> tuple[Relation, ...]:
    """Return what joints an order leaves out of reach, as far as that binds."""
    said = refused(derived.facts, order)
    return binding(overruled(said, derived.facts)[0]) if said else ()


def _touching(derived: Derived, steps: Sequence[str]) -> tuple[Relation, ...]:
    """Return the relations that say anything of steps, in the build's order of relations."""
    index = derived.index
    found = set(index.others)
    for step in steps:
        at = index.number[step]
        found.update(index.by_first[at], index.by_member[at])
    return tuple(index.relations[at] for at in sorted(found))
