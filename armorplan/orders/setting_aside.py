"""The work goes on after a relation was broken: which ones are set aside, and which still hold."""

from dataclasses import dataclass

from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import RelationIndex
from armorplan.relations.knots import conflict_left
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
    undone = [at for at, first in enumerate(index.firsts) if active[at] and left[first]]
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
