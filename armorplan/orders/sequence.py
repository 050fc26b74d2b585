"""One order that keeps all binding relations, and of the others as many as fit."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.orders.mixed_sequence import GrowingOrder
from armorplan.orders.smallest_first import smallest_first
from armorplan.orders.windows import WINDOW, windows
from armorplan.relations.checking import breaks
from armorplan.relations.conflict import smallest_core
from armorplan.relations.from_back import order_from_back
from armorplan.relations.index import RelationIndex, index_relations
from armorplan.relations.knots import conflict_left
from armorplan.relations.mending import LookAhead
from armorplan.relations.model import Apart, Relation, Together
from armorplan.relations.weighing import binding, weight

if TYPE_CHECKING:
    from _typeshed import SupportsRichComparison


@dataclass(frozen=True, slots=True, kw_only=True)
class Sequence:
    """An order, or the reason why there is none.

    Attributes:
        order: the steps; empty where the binding relations conflict.
        dropped: relations that only steer and that did not fit, the heaviest first.
        conflict: binding relations that cannot all hold; empty where there is an order.
        unsettled: binding relations the order breaks, because no order that keeps all was found
            in time, nor was it proved that there is none. Empty but for wild tangles.
    """

    order: tuple[str, ...]
    dropped: tuple[Relation, ...] = ()
    conflict: tuple[Relation, ...] = ()
    unsettled: tuple[Relation, ...] = ()


def one_order(
    steps: Iterable[str],
    relations: Iterable[Relation],
    *,
    key: "Callable[[str], SupportsRichComparison]",
) -> Sequence:
    """Return the order that always takes the smallest key of the steps that may come next.

    Relations that only steer are added one by one, those with the most minutes first, and 'together'
    last of equals; one that cannot be kept beside those already in is dropped. Before all of them
    comes that a step with a window behind it waits for what goes before the step in the window
    (``orders.windows``), as far as that fits. Equal keys come in the order given.

    'After any of' and 'together' leave a choice of ways to keep them. One is settled first, as near
    to the order by keys as it is found, and the smallest key is taken as it allows.

    Args:
        steps: step ids.
        relations: such as name another step are left out.
        key: gives a sortable value for a step's id.
    """
    given = tuple(relations)
    index = index_relations(steps, (*given, *windows(given)))
    by_key = sorted(range(len(index.steps)), key=lambda at: key(index.steps[at]))
    left, active = index.left_after(()), bytearray(index.binds)
    look = LookAhead(index, left=left, active=active)
    if not look.possible:
        back = order_from_back(index, left, active)
        conflict = conflict_left(index, left, active, back)
        return Sequence(order=(), conflict=tuple(index.relations[at] for at in conflict))
    soft = [at for at in range(len(active)) if _steers(index.relations[at])]
    soft.sort(key=lambda at: _heaviest_first(index.relations[at]))
    if any(not index.relations[at].reason.overruled for at in index.others):
        return _with_others(index, soft, by_key)
    left_out = [at for at in soft if not look.add(at)]
    order = smallest_first(index, look, active, by_key)
    return Sequence(
        order=tuple(index.steps[at] for at in order), dropped=_relations(index, left_out)
    )


def _relations(index: RelationIndex, numbers: Iterable[int]) -> tuple[Relation, ...]:
    return tuple(r for r in (index.relations[at] for at in numbers) if r.reason is not WINDOW)


def _steers(relation: Relation) -> bool:
    reason = relation.reason
    return not (reason.binds or reason.overruled or isinstance(relation, Apart))


def _heaviest_first(relation: Relation) -> tuple[bool, float, float, bool]:
    # 'Together' last of equals: what is tried in one stretch is laid out once (``GrowingOrder``).
    rank, price_min = weight(relation)
    is_wish = relation.reason is WINDOW
    return not is_wish, -rank, -price_min, isinstance(relation, Together)


def _with_others(index: RelationIndex, soft: list[int], by_key: list[int]) -> Sequence:
    counted = bytearray(index.binds)
    for at in index.mixed:
        counted[at] = 1
    growing = GrowingOrder(index, counted, steering=soft, by_key=by_key)
    relations, settled = index.relations, growing.settled
    if settled.core:
        conflict = smallest_core(index, index.left_after(()), settled.core)
        return Sequence(order=(), conflict=tuple(relations[at] for at in conflict))
    left_out = frozenset(growing.add_all(soft))
    dropped = _relations(index, (at for at in soft if at in left_out))
    order = tuple(index.steps[at] for at in growing.order())
    if settled.decided:
        return Sequence(order=order, dropped=dropped)
    broken = {b.relation for b in breaks(order, binding(relations))}
    unsettled = tuple(r for r in relations if r in broken)
    return Sequence(order=order, dropped=dropped, unsettled=unsettled)
