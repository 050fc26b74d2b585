"""The smallest repair of an order: the fewest steps to take out and put elsewhere.

Steps that stay keep the order they stand in. If that contradicts the relations, a conflict names
some of them, and at least one of those has to move: so sets of steps to move are tried by their
size, each grown from a conflict by one of its steps, until one fits. What fits first is smallest.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from armorplan.orders.sequence import one_order
from armorplan.orders.stretch import relations_within
from armorplan.relations.checking import breaks, first_break
from armorplan.relations.conflict import find_conflict
from armorplan.relations.index import named_steps
from armorplan.relations.model import Before, Force, Reason, Relation, Together
from armorplan.relations.weighing import binding

MOST_WORK = 40_000
"""Conflicts looked for, times steps, before settling for a bound: a few seconds."""
_QUICKER = 20
"""To see what an order breaks is so much quicker than to look for a conflict."""

_STANDS = Reason(rule="as-it-stands", text="as it stands", force=Force.CANNOT, source="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair:
    """A mended order.

    Attributes:
        order: the same steps in an order that keeps all relations that bind.
        moved: the steps that were taken out and put elsewhere, as they stood.
        at_least: no repair moves fewer steps than this.
    """

    order: tuple[str, ...]
    moved: tuple[str, ...]
    at_least: int

    @property
    def exact(self) -> bool:
        """No repair moves fewer steps; otherwise one might, down to ``at_least``."""
        return len(self.moved) == self.at_least


def smallest_repair(
    order: Sequence[str],
    relations: Iterable[Relation],
    *,
    before: Sequence[str] = (),
    after: Sequence[str] = (),
) -> Repair | None:
    """Return a repair of an order that moves as few steps as possible.

    Exact as long as the search stays within ``MOST_WORK``; a seven-step order always does.

    Args:
        order: every step once.
        relations: only those that bind count.
        before: what is done before and stays there.
        after: what comes after and stays there.

    Returns:
        The repair, or ``None`` where no order of these steps keeps the relations. What is broken
        by ``before`` and ``after`` alone is passed over.
    """
    kept = relations_within(order, binding(relations), before=before, after=after)
    if first_break(order, kept) is None:
        return Repair(order=tuple(order), moved=(), at_least=0)
    return _Mending(tuple(order), kept).smallest()


class _Mending:
    def __init__(self, order: tuple[str, ...], relations: tuple[Relation, ...]) -> None:
        self._order = order
        self._place = {step: at for at, step in enumerate(order)}
        self._relations = relations
        self._work_left = MOST_WORK
        self._blamed_often = Counter(
            step for broken in breaks(order, relations) for step in named_steps(broken.relation)
        )

    def smallest(self) -> Repair | None:
        """Return the smallest repair found, with the bound that was proved."""
        mended = self._mended(())
        if not mended:
            return None
        moved = self._moved(mended)
        least = self._apart()
        for search in (self._greedy, self._by_size):
            if least < len(moved):
                found, proved = search(len(moved))
                least = max(least, proved)
                if found is not None and (order := self._mended(self._links(found))):
                    mended, moved = order, found
        in_order = tuple(sorted(moved, key=self._place.__getitem__))
        return Repair(order=mended, moved=in_order, at_least=min(least, len(moved)))

    def _apart(self) -> int:
        """Return how many conflicts share no step: each of them takes a move of its own."""
        moved, count = frozenset[str](), 0
        while self._work_left > 0 and (blamed := self._blamed(moved)):
            moved |= frozenset(blamed)
            count += 1
        return count

    def _greedy(self, most: int) -> tuple[frozenset[str] | None, int]:
        """Move of each conflict the step that is named most often; no more than ``most`` in all."""
        moved = frozenset[str]()
        while self._work_left > 0 and len(moved) < most:
            blamed = self._blamed(moved)
            if not blamed:
                return moved, 0
            moved |= {max(blamed, key=self._blamed_often.__getitem__)}
        return None, 0

    def _by_size(self, most: int) -> tuple[frozenset[str] | None, int]:
        """Return the smallest set to move with fewer than ``most`` steps, and the size proved."""
        sets: list[frozenset[str]] = [frozenset()]
        for size in range(most):
            larger: dict[frozenset[str], None] = {}
            for moved in sets:
                if self._work_left <= 0:
                    return None, size
                blamed = self._blamed(moved)
                if not blamed:
                    return moved, size
                larger.update(dict.fromkeys(moved | {step} for step in blamed))
            sets = list(larger)
        return None, most

    def _blamed(self, moved: frozenset[str]) -> tuple[str, ...]:
        """Return steps of which one has to move if all but ``moved`` are to stay; none if they can.

        A relation broken among those that stay blames the steps it names. Where none is, a
        conflict is looked for; a step that only passes on what stands before it to what stands
        behind it is not to blame there: without it the two stand in that order still. But where
        steps are to be done in one go, a step in the middle may be the very one between them.
        """
        stays = [step for step in self._order if step not in moved]
        self._work_left -= 1 + len(stays) // _QUICKER
        found = self._broken_among(stays)
        if found:
            return found
        self._work_left -= len(stays)
        conflict = find_conflict(self._order, (*self._relations, *self._links(moved)))
        links = [r for r in conflict if isinstance(r, Before) and r.reason is _STANDS]
        named = {s for r in conflict if r.reason is not _STANDS for s in named_steps(r)}
        ends = {r.first for r in links} ^ {r.then for r in links}
        linked = {step for r in links for step in (r.first, r.then)}
        if any(isinstance(r, Together) for r in conflict):
            named |= linked  # whatever is passed through may be what stands between
        return tuple(sorted(ends | (linked & named), key=self._place.__getitem__))

    def _broken_among(self, stays: list[str]) -> tuple[str, ...]:
        """Return the steps of a relation that those who stay break, the fewest found."""
        here = frozenset(stays)
        whole = [r for r in self._relations if named_steps(r) <= here]
        named = []
        for broken in breaks(stays, whole):
            steps = named_steps(broken.relation)
            if isinstance(broken.relation, Together):
                # One before what comes between, and one behind it, suffice to say so.
                steps = frozenset((broken.step, *_nearest(stays, broken.at, steps)))
            named.append(tuple(sorted(steps, key=self._place.__getitem__)))
        return min(named, key=lambda steps: (len(steps), steps), default=())

    def _links(self, moved: Iterable[str]) -> Iterator[Before]:
        out = frozenset(moved)
        stays = [step for step in self._order if step not in out]
        return (Before(first=a, then=b, reason=_STANDS) for a, b in pairwise(stays))

    def _mended(self, links: Iterable[Before]) -> tuple[str, ...]:
        """Return an order as near to the given one as the smallest place first makes it."""
        asked = (*self._relations, *links)
        found = one_order(self._order, asked, key=self._place.__getitem__)
        return () if found.unsettled else found.order

    def _moved(self, mended: tuple[str, ...]) -> frozenset[str]:
        """Return the steps outside a longest stretch of places that only rises."""
        tails: list[int] = []
        came_from: dict[int, int] = {}
        for place in (self._place[step] for step in mended):
            at = bisect_left(tails, place)
            came_from[place] = tails[at - 1] if at else -1
            tails[at : at + 1] = [place]
        stays, place = set(), tails[-1]
        while place >= 0:
            stays.add(self._order[place])
            place = came_from[place]
        return frozenset(self._order) - stays


def _nearest(stays: list[str], at: int, steps: frozenset[str]) -> tuple[str, str]:
    """Return the last of the steps in front of a place, and the first behind it."""
    front = next(stays[i] for i in range(at, -1, -1) if stays[i] in steps)
    return front, next(step for step in stays[at:] if step in steps)
