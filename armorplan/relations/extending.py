"""An index with some steps and relations more, without indexing all the others again."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from armorplan.relations.index import NOBODY, RelationIndex, index_relations, known_relations
from armorplan.relations.model import Relation


def extended(
    index: RelationIndex,
    steps: Iterable[str],
    relations: Iterable[Relation],
    *,
    instead: Mapping[int, Relation],
) -> RelationIndex:
    """Return an index of its own steps and relations and of these, in that order.

    Args:
        index: as it is.
        steps: that it does not have.
        relations: of its steps and these; such as name another are left out.
        instead: by number, relations that say the same of the same steps for another reason.
    """
    more = tuple(dict.fromkeys(steps))
    ids = (*index.steps, *more)
    number = {**index.number, **{step: at for at, step in enumerate(more, len(index.steps))}}
    new = index_relations(ids, known_relations(number, relations))
    first_new = len(index.relations)

    def joined(
        old: tuple[tuple[int, ...], ...], added: tuple[tuple[int, ...], ...]
    ) -> tuple[tuple[int, ...], ...]:
        padded = (*old, *(((),) * len(more)))
        return tuple(
            (*mine, *(at + first_new for at in theirs)) if theirs else mine
            for mine, theirs in zip(padded, added, strict=True)
        )

    kept = list(index.relations)
    plain, binds = bytearray(index.plain), bytearray(index.binds)
    for at, relation in instead.items():
        kept[at] = relation
        is_plain = index.firsts[at] != NOBODY
        plain[at] = is_plain and not relation.reason.overruled
        binds[at] = is_plain and relation.reason.binds
    return replace(
        index,
        steps=ids,
        relations=(*kept, *new.relations),
        number=number,
        firsts=(*index.firsts, *new.firsts),
        members=(*index.members, *new.members),
        by_first=joined(index.by_first, new.by_first),
        by_member=joined(index.by_member, new.by_member),
        plain=bytes(plain) + new.plain,
        binds=bytes(binds) + new.binds,
        others=(*index.others, *(at + first_new for at in new.others)),
    )
