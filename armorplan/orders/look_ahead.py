"""The look-ahead: would everything left still be possible if a certain step came next?

Every question about the future of an order is answered here; a new kind of relation changes this
file and ``relations.completing``, and none of their callers.

For 'before' and 'before all of' the answer is exact and needs no solver (the reasoning stands in
``relations.completing``). ``LookAhead`` answers for one step after another while an order grows;
``held_back`` answers for all steps at one moment.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import reduce
from heapq import heappop, heappush
from operator import or_

from armorplan.orders.setting_aside import StillHolds
from armorplan.relations.completing import order_from_back
from armorplan.relations.index import RelationIndex


class LookAhead:
    """Holds one valid order of the steps left, and mends it as steps are taken from it.

    A relation is supported by a member that stands behind its first step. A step taken out, or a
    relation added, leaves some relation without support; its first step is then moved to before
    one of the members, and with it whoever loses support by that, as few as possible. Only where
    that fails are they moved to the very front, where they find all support there is: what finds
    no place even there can never be done. Mostly there is nothing to mend, and the answer is free.

    ``left`` (by step) and ``active`` (by relation) belong to this object once handed over.
    """

    def __init__(self, index: RelationIndex, *, left: bytearray, active: bytearray) -> None:
        self._index = index
        self._left = left
        self._active = active
        self._order = order_from_back(index, left, active)[::-1]
        self._rank = [0] * len(index.steps)
        for rank, step in enumerate(self._order):
            self._rank[step] = rank
        self.possible = len(self._order) == sum(left)
        """Whether all steps left can be done with all active relations kept."""

    def take(self, step: int) -> bool:
        """Do ``step`` now if all else can still be done after it; tell whether it was done."""
        self._left[step] = 0
        loose = [
            at
            for at in self._index.by_member[step]
            if self._active[at] and self._left[self._index.firsts[at]] and not self._supported(at)
        ]
        if all(self._mend(relation) for relation in loose):
            return True
        # What was mended so far stays: it moved only steps before this one, forward, so that the
        # order still holds with this step where it stood.
        self._left[step] = 1
        return False

    def add(self, relation: int) -> bool:
        """Make a relation count if all can still be kept with it; tell whether it was added."""
        self._active[relation] = 1
        if self._mend(relation):
            return True
        self._active[relation] = 0
        return False

    def _supported(self, relation: int) -> bool:
        rank, left = self._rank, self._left
        here = rank[self._index.firsts[relation]]
        return any(left[m] and rank[m] > here for m in self._index.members[relation])

    def _mend(self, relation: int) -> bool:
        if self._supported(relation):
            return True
        members = [m for m in self._index.members[relation] if self._left[m]]
        if not members:
            return False
        first = self._index.firsts[relation]
        return self._move(first, max(self._rank[m] for m in members)) or self._move(first, 0)

    def _move(self, first: int, target: int) -> bool:
        """Move ``first``, and what has to go with it, to just before the step ranked ``target``."""
        moving = self._moving_with(first, target)
        placed = self._place_anew(moving, target)
        if len(placed) < len(moving):
            return False
        # A step whose own relation still waits to be mended may move too, from behind ``first``.
        end = max(self._rank[step] for step in moving) + 1
        stretch = placed[::-1] + [s for s in self._order[target:end] if s not in moving]
        self._order[target:end] = stretch
        for rank, step in enumerate(stretch, start=target):
            self._rank[step] = rank
        return True

    def _moving_with(self, first: int, target: int) -> set[int]:
        """Return ``first`` and all behind ``target`` that lose their last support with it."""
        index, rank, left = self._index, self._rank, self._left
        moving, spread = {first}, [first]
        while spread:
            for at in index.by_member[spread.pop()]:
                head = index.firsts[at]
                if not self._active[at] or not left[head] or head in moving:
                    continue
                here = rank[head]
                if here >= target and not any(
                    left[m] and rank[m] > here and m not in moving for m in index.members[at]
                ):
                    moving.add(head)
                    spread.append(head)
        return moving

    def _place_anew(self, moving: set[int], target: int) -> list[int]:
        """Return those of the moving steps that find a place at ``target``, hindmost first."""
        index, rank, left = self._index, self._rank, self._left
        unmet, loose = dict.fromkeys(moving, 0), set()
        for step in moving:
            for at in index.by_first[step]:
                if self._active[at] and not any(
                    left[m] and rank[m] >= target and m not in moving for m in index.members[at]
                ):
                    loose.add(at)
                    unmet[step] += 1
        placed = sorted((step for step in moving if not unmet[step]), reverse=True)
        for step in placed:
            for at in index.by_member[step]:
                if at in loose:
                    loose.discard(at)
                    head = index.firsts[at]
                    unmet[head] -= 1
                    if not unmet[head]:
                        placed.append(head)
        return placed


def held_back(
    index: RelationIndex, holds: StillHolds, free: Collection[int]
) -> dict[int, list[int]]:
    """Return, of the ``free`` steps, those that would leave a step stuck, with what holds them.

    For every step the set of free steps without which it could still be placed from the back is
    kept as the bits of one number, so that one sweep answers for all of them. The sets only grow;
    where they no longer do they are exact. A relation holds a step if without that step none of
    its members could be placed, and so its first never.

    Args:
        index: steps and relations.
        holds: the relations that hold, and an order of all steps left.
        free: steps to be answered for.
    """
    bit = {step: 1 << at for at, step in enumerate(sorted(free))}
    without = _placed_without(index, holds, bit) if bit else []
    held: dict[int, list[int]] = {}
    for at, members in enumerate(holds.live):
        for member in members if len(members) > 1 else ():
            if member in bit and not any(without[m] & bit[member] for m in members):
                held.setdefault(member, []).append(at)
    return held


def _placed_without(index: RelationIndex, holds: StillHolds, bit: Mapping[int, int]) -> list[int]:
    """Return by step the bits of the free steps without which it can still be placed."""
    live, back = holds.live, holds.back
    everyone = (1 << len(bit)) - 1
    without = [everyone] * len(index.steps)
    place = {step: at for at, step in enumerate(back)}
    touched = _leaning_on(index, live, bit)
    for step in touched:
        without[step] = 0
    todo = sorted(place[step] for step in touched)
    waiting = set(todo)
    while todo:
        at = heappop(todo)
        waiting.discard(at)
        step = back[at]
        could = everyone & ~bit.get(step, 0)
        for relation in index.by_first[step]:
            if live[relation]:
                could &= reduce(or_, (without[m] for m in live[relation]))
        if could != without[step]:
            without[step] = could
            heads = {place[index.firsts[r]] for r in index.by_member[step] if live[r]} - waiting
            waiting |= heads
            for head in heads:
                heappush(todo, head)
    return without


def _leaning_on(
    index: RelationIndex, live: Sequence[Sequence[int]], steps: Iterable[int]
) -> set[int]:
    """Return the steps and all that have to come before one of them, or may have to."""
    found = set(steps)
    spread = sorted(found)
    while spread:
        for relation in index.by_member[spread.pop()]:
            first = index.firsts[relation]
            if live[relation] and first not in found:
                found.add(first)
                spread.append(first)
    return found
