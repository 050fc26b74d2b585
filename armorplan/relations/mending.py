"""One valid order, mended as steps are taken from it and relations are added to it.

For 'before' and 'before all of' the answers are exact and need no solver (the reasoning stands in
``relations.from_back``).
"""

from collections.abc import Sequence

from armorplan.relations.from_back import order_from_back
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

    def __init__(
        self,
        index: RelationIndex,
        *,
        left: bytearray,
        active: bytearray,
        order: Sequence[int] | None = None,
    ) -> None:
        """Start from an order of all steps left that keeps the active relations, or look for one."""
        self._index = index
        self._left = left
        self._active = active
        self.order = list(order or order_from_back(index, left, active)[::-1])
        """The steps left, in a valid order as far as they can be placed."""
        self.rank = [0] * len(index.steps)
        """By step, its place in the order."""
        for rank, step in enumerate(self.order):
            self.rank[step] = rank
        self.possible = len(self.order) == sum(left)
        """Whether all steps left can be done with all active relations kept."""

    def take(self, step: int) -> bool:
        """Do ``step`` now if all else can still be done after it; tell whether it was done."""
        self._left[step] = 0
        loose = [
            at
            for at in self._index.by_member[step]
            if self._active[at] and self._left[self._index.firsts[at]] and not self.holds(at)
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

    def drop(self, relation: int) -> None:
        """Make a relation count no more."""
        self._active[relation] = 0

    def holds(self, relation: int) -> bool:
        """Tell whether the present order keeps a relation whose first step is left."""
        rank, left = self.rank, self._left
        here = rank[self._index.firsts[relation]]
        return any(left[m] and rank[m] > here for m in self._index.members[relation])

    def _mend(self, relation: int) -> bool:
        if self.holds(relation):
            return True
        members = [m for m in self._index.members[relation] if self._left[m]]
        if not members:
            return False
        first = self._index.firsts[relation]
        return self._move(first, max(self.rank[m] for m in members)) or self._move(first, 0)

    def _move(self, first: int, target: int) -> bool:
        """Move ``first``, and what has to go with it, to just before the step ranked ``target``."""
        moving = self._moving_with(first, target)
        placed = self._place_anew(moving, target)
        if len(placed) < len(moving):
            return False
        # A step whose own relation still waits to be mended may move too, from behind ``first``.
        end = max(self.rank[step] for step in moving) + 1
        stretch = placed[::-1] + [s for s in self.order[target:end] if s not in moving]
        self.order[target:end] = stretch
        for rank, step in enumerate(stretch, start=target):
            self.rank[step] = rank
        return True

    def _moving_with(self, first: int, target: int) -> set[int]:
        """Return ``first`` and all behind ``target`` that lose their last support with it."""
        index, rank, left = self._index, self.rank, self._left
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
        index, rank, left = self._index, self.rank, self._left
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
