"""Which relations decide the order of a few steps: those that no step between says anyway."""

from collections.abc import Sequence

from armorplan.practice.few_orders import FewOrders
from armorplan.practice.settled_order import Bits
from armorplan.practice.worst import always_before
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import AfterAny, Relation


def tight_relations(few: FewOrders) -> tuple[Relation, ...]:
    """Return the relations that decide the right orders of a few steps.

    'a before b' decides where no step stands between the two in every right order: else it follows
    from what puts that step there. 'Before the last of' some, or 'after any of' some, decides by
    the one that it puts there in every right order in the same way, or because it is open which.
    Two that say the same of the same steps both decide.
    """
    before = always_before(few)
    return tuple(each for each in few.relations if _decides(few, each, before))


def _decides(few: FewOrders, relation: Relation, before: Sequence[Bits]) -> bool:
    if isinstance(relation, AfterAny):
        then = few.number[relation.then]
        ones = [few.number[step] for step in sorted(relation.of - {relation.then})]
        pairs = [(one, then) for one in ones if before[then] >> one & 1]
    elif is_plain(relation):
        first, members = first_and_members(relation)
        at = few.number[first]
        ones = [few.number[step] for step in sorted(members)]
        pairs = [(at, one) for one in ones if before[one] >> at & 1]
    else:
        return True
    return not pairs or any(not _between(one, before[other], before) for one, other in pairs)


def _between(first: int, ahead: Bits, before: Sequence[Bits]) -> bool:
    """Tell whether something of what is ahead stands behind the first."""
    return any(ahead >> one & 1 and some >> first & 1 for one, some in enumerate(before))
