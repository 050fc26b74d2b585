"""Relations that follow from one another: what is done before the last of some steps, by one rule.

To be done before the last of a few steps is the stricter: it is then done before the last of more.
Where both are known the wider one is told, since it is the plainer: 'before the row is shut'.
"""

from collections.abc import Iterable, Mapping, Sequence

from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Relation

_Key = tuple[str, str, str]


def stricter(relations: Sequence[Relation]) -> frozenset[int]:
    """Return the places of relations from which a wider one among them follows, by the same rule."""
    return frozenset(
        at
        for some in _by_first(relations).values()
        for at, members in some.items()
        if any(members < others for others in some.values())
    )


def implying(relations: Sequence[Relation], given: Iterable[int]) -> frozenset[int]:
    """Return the places of relations from which one of those given follows, by the same rule."""
    near = _by_first(relations)
    places = {at: some for some in near.values() for at in some}
    return frozenset(
        other
        for at in given
        if at in places
        for other, members in places[at].items()
        if members < places[at][at]
    )


def _by_first(relations: Sequence[Relation]) -> Mapping[_Key, dict[int, frozenset[str]]]:
    """Return the members of relations that put one step before others, by that step and their rule."""
    found: dict[_Key, dict[int, frozenset[str]]] = {}
    for at, relation in enumerate(relations):
        if is_plain(relation):
            first, members = first_and_members(relation)
            reason = relation.reason
            found.setdefault((first, reason.rule, reason.force), {})[at] = members
    return found
