"""Which relations decide the order of a few steps: those that no step between says anyway."""

from collections.abc import Sequence

from armorplan.practice.few_orders import Bits, FewOrders
from armorplan.practice.worst import always_before
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import AfterAny, Relation


def tight_relations(few: FewOrders) -> tuple[Relation, ...]:
    """Return the relations that decide the right orders of a few steps.

    'a before b' decides where no step stands between the two in every right order: else it follows
    from what puts that step there. 'Before the last of' some, or 'after any of' some, decides where
    none of them is the one in every right order. Two that say the same of the same steps both do.
    """
    before = always_before(few)
    return tuple(each for each in few.relations if _decides(few, each, before))


def _decides(few: FewOrders, relation: Relation, before: Sequence[Bits]) -> bool:
    if isinstance(relation, AfterAny):
        first_ones = few.bits(relation.of - {relation.then})
        return not first_ones & before[few.number[relation.then]]
    if not is_plain(relation):
        return True
    first, members = first_and_members(relation)
    at = few.number[first]
    certain = [one for one in map(few.number.__getitem__, members) if before[one] >> at & 1]
    if not certain:
        return len(members) > 1
    return any(not _between(at, before[one], before) for one in certain)


def _between(first: int, ahead: Bits, before: Sequence[Bits]) -> bool:
    """Tell whether something of what is ahead stands behind the first."""
    return any(ahead >> one & 1 and some >> first & 1 for one, some in enumerate(before))
