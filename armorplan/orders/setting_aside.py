"""The work goes on after a relation was broken: which ones are set aside, and which still hold."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import compress

from armorplan.orders.deciding import decide
from armorplan.relations.checking import is_broken_for_good
from armorplan.relations.conflict import smallest_core
from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import RelationIndex, named_steps
from armorplan.relations.knots import conflict_left
from armorplan.relations.mixing import Mix, mix
from armorplan.relations.settling import Settled
from armorplan.relations.weighing import weight


@dataclass(frozen=True, slots=True, kw_only=True)
class StillHolds:
    """What holds for the steps left, by number.

    Attributes:
        aside: relations that cannot be kept any more, in the order they were given up.
        live: by relation, its members left if it holds and its first step is left; else empty.
        back: all steps left in an order that keeps what holds, the last first.
    """

    aside: tuple[int, ...]
    live: tuple[tuple[int, ...], ...]
    back: tuple[int, ...]


def what_still_holds(index: RelationIndex, left: bytearray, active: bytearray) -> StillHolds:
    """Switch off the relations that cannot be kept any more, and tell which hold.

    First those already broken: their first step is left and no member is. Then, as long as what
    is left cannot be done, the lightest relation of a conflict; among equals one that lost a
    member to what was done, since that is what brought the conflict about.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        active: by relation, 1 where it counts; changed in place.
    """
    live = _members_left(index, left)
    firsts = index.firsts
    undone = [at for at in compress(range(len(firsts)), active) if left[firsts[at]]]
    aside = [at for at in undone if not live[at]]
    for at in aside:
        active[at] = 0

    def cost(at: int) -> tuple[tuple[int, float], bool]:
        return weight(index.relations[at]), live[at] == index.members[at]

    back = order_from_back(index, left, active)
    while len(back) < sum(left):
        aside.append(min(conflict_left(index, left, active, back), key=cost))
        active[aside[-1]] = 0
        back = order_from_back(index, left, active)
    held: list[tuple[int, ...]] = [()] * len(live)
    for at in undone:
        if active[at]:
            held[at] = live[at]
    return StillHolds(aside=tuple(aside), live=tuple(held), back=tuple(back))


def _members_left(index: RelationIndex, left: bytearray) -> list[tuple[int, ...]]:
    live = list(index.members)
    touched = {at for step, todo in enumerate(left) if not todo for at in index.by_member[step]}
    for at in touched:
        live[at] = tuple(m for m in live[at] if left[m])
    return live


@dataclass(frozen=True, slots=True, kw_only=True)
class MixBinds:
    """By relation of any kind 1 where it binds (``active``), and those that are broken for good."""

    active: bytearray
    broken: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MixHolds:
    """What holds for the steps left where 'after any of' or 'together' bind.

    Attributes:
        aside: relations that cannot be kept any more, in the order they were given up.
        mixed: the others in one shape.
        settled: an order that keeps them, or where the search gave up one that keeps the clauses.
    """

    aside: tuple[int, ...]
    mixed: Mix
    settled: Settled


def binding_after(index: RelationIndex, done: Sequence[str], left: bytearray) -> MixBinds:
    """Return which relations of all kinds bind and are not broken for good by what was done."""
    active, broken = bytearray(index.binds), []
    for at in index.mixed:
        if is_broken_for_good(index.relations[at], done, left, index):
            broken.append(at)
        else:
            active[at] = 1
    return MixBinds(active=active, broken=tuple(broken))


def what_mix_holds(index: RelationIndex, left: bytearray, active: bytearray) -> MixHolds:
    """Do what ``what_still_holds`` does, for relations of all kinds.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        active: by relation, 1 where it counts; changed in place. No 'together' that something has
            come between may count.
    """
    aside = [
        at
        for at, first in enumerate(index.firsts)
        if active[at] and index.plain[at] and left[first]
        if not any(left[member] for member in index.members[at])
    ]
    for at in aside:
        active[at] = 0

    def cost(at: int) -> tuple[tuple[int, float], bool]:
        named = named_steps(index.relations[at])
        return weight(index.relations[at]), all(left[index.number[step]] for step in named)

    while True:
        mixed = mix(index, left, active)
        settled = decide(mixed)
        if not settled.core:
            return MixHolds(aside=tuple(aside), mixed=mixed, settled=settled)
        aside.append(min(smallest_core(index, left, settled.core), key=cost))
        active[aside[-1]] = 0
