"""One order that keeps all binding relations, and of the others as many as fit."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import TYPE_CHECKING

from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import RelationIndex, index_relations
from armorplan.relations.knots import conflict_left
from armorplan.relations.mending import LookAhead
from armorplan.relations.model import Relation
from armorplan.relations.weighing import weight

if TYPE_CHECKING:
    from _typeshed import SupportsRichComparison


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """An order, or the reason why there is none.

    Attributes:
        order: the steps; empty where the binding relations conflict.
        dropped: relations that only steer and that did not fit, the heaviest first.
        conflict: binding relations that cannot all hold; empty where there is an order.
    """

    order: tuple[str, ...]
    dropped: tuple[Relation, ...] = ()
    conflict: tuple[Relation, ...] = ()


def one_order(
    steps: Iterable[str],
    relations: Iterable[Relation],
    *,
    key: "Callable[[str], SupportsRichComparison]",
) -> Sequence:
    """Return the order that always takes the smallest key of the steps that may come next.

    Relations that only steer are added one by one, those with the most minutes first; one that
    cannot be kept beside those already in is dropped. Equal keys come in the order given.

    Args:
        steps: step ids.
        relations: such as name another step are left out.
        key: gives a sortable value for a step's id.
    """
    index = index_relations(steps, relations)
    left, active = index.left_after(()), bytearray(index.binds)
    look = LookAhead(index, left=left, active=active)
    if not look.possible:
        back = order_from_back(index, left, active)
        conflict = conflict_left(index, left, active, back)
        return Sequence(order=(), conflict=tuple(index.relations[at] for at in conflict))
    soft = [at for at in range(len(active)) if not active[at]]
    soft.sort(key=lambda at: weight(index.relations[at]), reverse=True)
    dropped = tuple(index.relations[at] for at in soft if not look.add(at))
    order = _smallest_first(index, look, active, key)
    return Sequence(order=tuple(index.steps[at] for at in order), dropped=dropped)


def _smallest_first(
    index: RelationIndex,
    look: LookAhead,
    active: bytearray,
    key: "Callable[[str], SupportsRichComparison]",
) -> list[int]:
    """Take steps from the front, each the smallest that leaves nothing stuck.

    A step that waits for no other may still be held by the look-ahead. It stays so until the first
    step of one of its relations is done, since taking other steps only leaves fewer ways on.
    """
    by_key = sorted(range(len(index.steps)), key=lambda at: key(index.steps[at]))
    place = {step: at for at, step in enumerate(by_key)}
    waiting = _Waiting(index, active)
    free = [place[step] for step in by_key if not waiting.on[step]]
    order: list[int] = []
    while free:
        step = by_key[heappop(free)]
        if not waiting.done[step] and not waiting.on[step] and look.take(step):
            order.append(step)
            for freed in waiting.do(step):
                heappush(free, place[freed])
    return order


class _Waiting:
    """Counts for each step the relations in which it is the last member left."""

    def __init__(self, index: RelationIndex, active: bytearray) -> None:
        self._index = index
        self._active = active
        self._left_of = [len(members) for members in index.members]
        self.done = bytearray(len(index.steps))
        self.on = [0] * len(index.steps)
        for at, members in enumerate(index.members):
            if active[at] and len(members) == 1:
                self.on[members[0]] += 1

    def do(self, step: int) -> Iterator[int]:
        """Count a step as done; yield members of its relations that now wait for nothing."""
        index, done = self._index, self.done
        done[step] = 1
        for at in index.by_member[step]:
            self._left_of[at] -= 1
            if self._active[at] and self._left_of[at] == 1 and not done[index.firsts[at]]:
                self.on[self._members_left(at)[0]] += 1
        for at in index.by_first[step]:
            for member in self._members_left(at) if self._active[at] else ():
                self.on[member] -= self._left_of[at] == 1
                if not self.on[member]:
                    yield member

    def _members_left(self, relation: int) -> list[int]:
        return [m for m in self._index.members[relation] if not self.done[m]]
