"""One order where 'after any of' or 'together' are among the relations."""

from collections.abc import Iterable, Sequence

from armorplan.orders.deciding import decide
from armorplan.orders.smallest_first import smallest_first
from armorplan.relations.index import NOBODY, RelationIndex
from armorplan.relations.mending import LookAhead
from armorplan.relations.mixing import Choice, Mix, mix
from armorplan.relations.model import Together
from armorplan.relations.settling import Settled


class GrowingOrder:
    """An order to which relations are added one by one, if they fit.

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
        self._counted = counted
        self._steering = tuple(steering)
        self._place = {step: at for at, step in enumerate(by_key)}
        self.settled = self._lay(counted)
        """How the relations to be kept were settled; what is added changes it no more."""

    def add(self, relation: int) -> bool:
        """Make a relation count if it can be kept beside those that count; tell whether it can."""
        if isinstance(self._index.relations[relation], Together):
            return self._lay_with(relation)
        choice = self._mix.steering[relation]
        if choice is None or self._takes(choice):
            self._counted[relation] = 1
            self._chose |= choice is not None and len(choice.ways) > 1
            return True
        # What was settled stands in its way: perhaps it can be settled otherwise.
        return self._chose and self._lay_with(relation)

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

    def _lay_with(self, relation: int) -> bool:
        counted = bytearray(self._counted)
        counted[relation] = 1
        if not self._lay(counted).possible:
            return False
        self._counted = counted
        return True

    def _lay(self, counted: bytearray) -> Settled:
        """Settle everything that counts; hold on to it unless it cannot be kept."""
        index = self._index
        others = [
            at
            for at in self._steering
            if not counted[at] and not isinstance(index.relations[at], Together)
        ]
        mixed = mix(index, index.left_after(()), counted, steering=others)
        order = self._by_key(mixed, bytearray(mixed.left), bytearray(mixed.fixed))
        settled = decide(mixed, order=order if len(order) == sum(mixed.left) else None)
        if not settled.core:
            self._mix = mixed
            self._chose = bool(mixed.choices)
            self._active = bytearray(settled.active)
            left = bytearray(mixed.left)
            self._look = LookAhead(
                mixed.index, left=left, active=self._active, order=settled.order
            )
        return settled

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
