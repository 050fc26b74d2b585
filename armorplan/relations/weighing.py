"""What a relation weighs: which to give up first where not all can be kept."""

from collections.abc import Iterable

from armorplan.relations.model import Force, Relation

_RANK = {Force.USUAL: 0, Force.EASIER: 1, Force.SPOIL: 2, Force.CANNOT: 3}


def price_min(relation: Relation) -> float:
    """Return the minutes that keeping an 'easier' relation saves; 0 for the other forces."""
    reason = relation.reason
    return reason.price_min if reason.force is Force.EASIER else 0.0


def weight(relation: Relation) -> tuple[int, float]:
    """Return a key that sorts the lighter relation first: by force, then by its minutes."""
    return _RANK[relation.reason.force], price_min(relation)


def lightest(relations: Iterable[Relation]) -> Relation:
    """Return the relation that costs least to give up.

    Of equals the maker's own: it can be taken back, and what the trade knows stays true. Of those
    the first.

    Raises:
        ValueError: there is none to choose from.
    """
    return min(relations, key=lambda relation: (weight(relation), not relation.reason.own_id))


def binding(relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return the relations that have to be kept, in their order."""
    return tuple(r for r in relations if r.reason.binds)
