"""What a relation that only steers gives way to, where the order does not keep it."""

from collections.abc import Iterable, Sequence

from armorplan.orders.windows import windows
from armorplan.relations.conflict import find_conflict
from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import index_relations
from armorplan.relations.knots import conflict_left
from armorplan.relations.model import Apart, Relation
from armorplan.relations.weighing import binding, weight

_MOST_EXPLAINED = 24
"""Of more relations than this the reason is not looked for: one search takes some milliseconds."""


def giving_way(
    steps: Sequence[str], relations: Iterable[Relation], dropped: Sequence[Relation]
) -> dict[Relation, tuple[Relation, ...]]:
    """Return by dropped relation such others as it cannot be kept beside, as few as it takes.

    What binds is looked at first, then what steers and weighs no less. The value is empty where
    that was not settled, or of the lightest where very many are dropped.

    Args:
        steps: step ids, all of them.
        relations: all there are.
        dropped: those that steer and that the order does not keep, the heaviest first.
    """
    if not dropped:
        return {}
    given = tuple(relations)
    left_out = frozenset(dropped)
    bind = binding(given)
    steer = [r for r in given if not r.reason.binds and r not in left_out and _steers(r)]
    kept = (*bind, *windows(given), *steer)
    told = {one: _against(steps, kept, one) for one in dropped[:_MOST_EXPLAINED]}
    return told | dict.fromkeys(dropped[_MOST_EXPLAINED:], ())


def _steers(relation: Relation) -> bool:
    return not (relation.reason.overruled or isinstance(relation, Apart))


def _against(
    steps: Sequence[str], kept: tuple[Relation, ...], dropped: Relation
) -> tuple[Relation, ...]:
    """Return what stands against a relation among those kept, without the relation itself."""
    heavy = [r for r in kept if r.reason.binds or weight(r) >= weight(dropped)]
    index = index_relations(steps, (*heavy, dropped))
    left = index.left_after(())
    for counted in (bytearray(index.binds), bytearray(index.plain)):
        counted[-1] = index.plain[-1]
        back = order_from_back(index, left, counted)
        found = [index.relations[at] for at in conflict_left(index, left, counted, back)]
        if found:
            return tuple(r for r in found if r != dropped)
    return tuple(r for r in find_conflict(steps, (*heavy, dropped)) if r != dropped)
