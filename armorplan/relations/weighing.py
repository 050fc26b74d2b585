"""What a relation weighs: which to give up first where not all can be kept."""

from collections.abc import Iterable

from armorplan.relations.model import Force, Relation

_RANK = {Force.USUAL: 0, Force.EASIER: 1, Force.SPOIL: 2, Force.CANNOT: 3}
_MINUTES = ("min", "minutes")


def price_min(relation: Relation) -> float:
    """Return the minutes that keeping an 'easier' relation saves: the most its reason gives, or 0.

    In a reason of another force minutes mean something else, such as drying.
    """
    if relation.reason.force is not Force.EASIER:
        return 0.0
    return max((n.value for n in relation.reason.numbers if n.unit in _MINUTES), default=0.0)


def weight(relation: Relation) -> tuple[int, float]:
    """Return a key that sorts the lighter relation first: by force, then by its minutes."""
    return _RANK[relation.reason.force], price_min(relation)


def lightest(relations: Iterable[Relation]) -> Relation:
    """Return the relation that costs least to give up; the first of equals.

    Raises:
        ValueError: there is none to choose from.
    """
    return min(relations, key=weight)


def binding(relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return the relations that have to be kept, in their order."""
    return tuple(r for r in relations if r.reason.force.binds)
