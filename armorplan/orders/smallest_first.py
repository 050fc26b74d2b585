"""The order that always takes the smallest step that may come next, of plain relations."""

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush

from armorplan.relations.index import RelationIndex
from armorplan.relations.mending import LookAhead


def smallest_first(
    index: RelationIndex, look: LookAhead, active: bytearray, by_key: Sequence[int]
) -> list[int]:
    """Take steps from the front, each the smallest that leaves nothing stuck.

    A step that waits for no other may still be held by the look-ahead. It stays so until the first
    step of one of its relations is done, since taking other steps only leaves fewer ways on.

    Args:
        index: steps and plain relations.
        look: a valid order of all steps; it is used up.
        active: by relation, 1 where it counts.
        by_key: the steps, the smallest first.
    """
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
