"""Which of a few joints cannot wait for the others, or is harder to get at once they are set.

Of joints that nothing else keeps apart every order holds, unless one of them comes to lie out of
reach: that one has to be set before the last of the others. It is found in the relations, however
many of them it takes, and whatever is done by then. What only takes longer afterwards is asked of the
relations that say so, and of reach itself.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf

from armorplan.app.derived import Derived
from armorplan.app.drills.reach_turns import dearer_min
from armorplan.orders.setting_aside import binding_after, what_mix_holds
from armorplan.relations.conflict import conflict_among
from armorplan.relations.index import RelationIndex, first_and_members, index_relations, is_plain
from armorplan.relations.model import Before, BeforeAll, Force, Reason, Relation
from armorplan.relations.weighing import weight
from armorplan.rules.reaching import BY_REACH, LEAST_MIN

_ASKED = Reason(rule="", text="", force=Force.CANNOT, source="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """The one of a few steps that comes before the last of the others.

    Attributes:
        step: its id.
        binds: it cannot be set afterwards; else it only takes longer.
        chain: the relations it follows from, the nearest first; never empty.
    """

    step: str
    binds: bool
    chain: tuple[Relation, ...]


def decided(derived: Derived, steps: Sequence[str], done: Sequence[str]) -> Decided | None:
    """Return which of a few steps comes before the last of the others; ``None``: not just one does.

    Args:
        derived: the build.
        steps: those that are chosen from, none of them done.
        done: what is done, in a valid order.
    """
    asking = _Asking(derived, steps, done)
    bound = [step for step in steps if asking.cannot_wait(step) or asking.is_shut_off(step)]
    if bound:
        return asking.told(bound[0], binds=True) if len(bound) == 1 else None
    dearer = [step for step in steps if asking.is_dearer(step)]
    return asking.told(dearer[0], binds=False) if len(dearer) == 1 else None


class _Asking:
    def __init__(self, derived: Derived, steps: Sequence[str], done: Sequence[str]) -> None:
        self._derived, self._steps, self._done = derived, tuple(steps), tuple(done)
        self._known = derived.index.relations
        self._left = derived.index.left_after(done)
        self._dearer: dict[str, float] = {}

    @cached_property
    def _index(self) -> RelationIndex:
        return _with_asked(self._derived, self._steps)

    def cannot_wait(self, step: str) -> bool:
        """Tell whether no order of what is left has a step after all the others."""
        if not self._derived.index.mixed:
            others = self._others(step)
            return not may_be_last(self._derived.index, self._left, step, others)
        index, active = self._index, self._counted(step)
        binds = binding_after(index, self._done, self._left).active
        for at in range(self._number):
            active[at] &= binds[at]
        return bool(what_mix_holds(index, self._left, active).aside)

    def is_shut_off(self, step: str) -> bool:
        """Tell whether by reach alone no tool gets to a step's joint after the others."""
        return self._dearer_min(step) == inf

    @property
    def _number(self) -> int:
        return len(self._known)

    def _counted(self, step: str) -> bytearray:
        """Return what binds, with the asked relations that have a step after all the others."""
        active = bytearray(relation.reason.binds for relation in self._index.relations)
        for at in range(self._number, len(active)):
            asked = self._index.relations[at]
            active[at] = isinstance(asked, Before) and asked.then == step
        return active

    def is_dearer(self, step: str) -> bool:
        """Tell whether a step takes longer after the others, by a relation or by reach."""
        if any(True for _ in self._steering(step)):
            return True
        return self._dearer_min(step) >= LEAST_MIN

    def _dearer_min(self, step: str) -> float:
        if step not in self._dearer:
            others = self._others(step)
            self._dearer[step] = dearer_min(self._derived, step, self._done, others)
        return self._dearer[step]

    def _others(self, step: str) -> tuple[str, ...]:
        return tuple(other for other in self._steps if other != step)

    def told(self, step: str, *, binds: bool) -> Decided | None:
        """Return a step with the relations it follows from; ``None`` where none of them says so."""
        if binds:
            near = [each for each in self._direct(step) if each.reason.binds]
            chain = tuple(sorted(near, key=weight, reverse=True))[:1] or self._conflict(step)
        else:
            chain = tuple(sorted(self._steering(step), key=weight, reverse=True))[:1]
        return Decided(step=step, binds=binds, chain=chain) if chain else None

    def _steering(self, step: str) -> Iterator[Relation]:
        """Yield what makes a step easier before the others; by reach only what reach bears out."""
        for relation in self._direct(step):
            reason = relation.reason
            stands = reason.force is Force.EASIER and not reason.overruled
            stands = stands and relation not in self._derived.not_kept
            by_reach = reason.rule in BY_REACH
            if stands and (not by_reach or self._dearer_min(step) >= LEAST_MIN):
                yield relation

    def _direct(self, step: str) -> Iterator[Before | BeforeAll]:
        """Yield the relations that have a step before the last of some, all of whom are here or done."""
        others, done = frozenset(self._others(step)), frozenset(self._done)
        for at in self._derived.index.by_first[self._derived.index.number[step]]:
            relation = self._known[at]
            if is_plain(relation):
                members = first_and_members(relation)[1] - done
                if members and members <= others:
                    yield relation

    def _conflict(self, step: str) -> tuple[Relation, ...]:
        core = conflict_among(self._index, self._counted(step))
        return tuple(self._known[at] for at in core if at < self._number)


def may_be_last(
    index: RelationIndex, left: Sequence[int], step: str, others: Iterable[str]
) -> bool:
    """Tell whether an order of what is left has a step after all of some others.

    From the back all is placed that may stand there without any of the others: a step, once all
    that it comes before have one placed behind it. What can be placed never bars anything else, so
    that this is exact for 'before' and 'before all of'.

    Args:
        index: steps and relations; what binds counts.
        left: by step, 1 where it is still to do.
        step: what is to be last.
        others: what it is to come after.
    """
    wanted, barred = index.number[step], {index.number[other] for other in others}
    waits = [0] * len(index.steps)
    for at, first in enumerate(index.firsts):
        if index.binds[at] and left[first]:
            waits[first] += 1
    met = bytearray(len(index.firsts))
    front = [at for at, todo in enumerate(left) if todo and not waits[at] and at not in barred]
    while front:
        placed = front.pop()
        if placed == wanted:
            return True
        for at in index.by_member[placed]:
            first = index.firsts[at]
            if index.binds[at] and not met[at] and left[first]:
                met[at] = 1
                waits[first] -= 1
                if not waits[first] and first not in barred:
                    front.append(first)
    return False


def _with_asked(derived: Derived, steps: Iterable[str]) -> RelationIndex:
    """Return the relations of a build, and behind them for each pair of steps the one before the other."""
    every = tuple(steps)
    asked = [
        Before(first=other, then=step, reason=_ASKED)
        for step in every
        for other in every
        if other != step
    ]
    return index_relations(derived.index.steps, (*derived.index.relations, *asked))
