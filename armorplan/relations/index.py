"""Relations indexed by step, once, so that questions about 2,000 steps cost milliseconds.

Both kinds of relation have one shape here: ``first`` is done before the last of its ``members``.
A ``Before`` has one member. A step is never its own member: to stand before the last of a set it
belongs to, it has to stand before the last of the others. A relation left without any member can
never be kept, whatever the order: 'a before a', or 'a before the last of nothing'.

A relation that names a step which is not there is left out and reported by ``unknown_steps``. For
``BeforeAll`` this is the true reading and no mere leniency: what is shut off only by all of its
members together is never shut off when one of them is never done.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field

from armorplan.relations.model import Before, BeforeAll, Relation


def first_and_members(relation: Relation) -> tuple[str, frozenset[str]]:
    """Return the step that comes first, and the others before the last of which it comes."""
    if isinstance(relation, Before):
        return relation.first, frozenset((relation.then,)) - {relation.first}
    return relation.first, relation.of - {relation.first}


def named_steps(relation: Relation) -> frozenset[str]:
    """Return every step a relation names."""
    if isinstance(relation, BeforeAll):
        return relation.of | {relation.first}
    return frozenset((relation.first, relation.then))


def unknown_steps(steps: Iterable[str], relations: Iterable[Relation]) -> tuple[str, ...]:
    """Return the steps that relations name and that are not among ``steps``, sorted."""
    named = {step for relation in relations for step in named_steps(relation)}
    return tuple(sorted(named.difference(steps)))


def known_relations(steps: Collection[str], relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return the relations that name only these steps; the others say nothing about them."""
    known = frozenset(steps)
    return tuple(r for r in relations if named_steps(r) <= known)


@dataclass(frozen=True, slots=True, kw_only=True)
class RelationIndex:
    """Steps and relations by number, with the look-ups every question needs.

    Attributes:
        steps: step ids; a step's number is its place here.
        relations: the relations that name only these steps; numbered likewise.
        number: a step's number by its id.
        firsts: by relation, the number of the step that comes first.
        members: by relation, the numbers of the steps before the last of which it comes.
        by_first: by step, the relations in which it comes first.
        by_member: by step, the relations of which it is a member.
        binds: by relation, 1 where its force binds, else 0.
    """

    steps: tuple[str, ...]
    relations: tuple[Relation, ...]
    number: Mapping[str, int] = field(repr=False, compare=False)
    firsts: tuple[int, ...] = field(repr=False, compare=False)
    members: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    by_first: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    by_member: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    binds: bytes = field(repr=False, compare=False)

    def left_after(self, done: Iterable[str]) -> bytearray:
        """Return by step 1 where it is still to do, 0 where done; unknown ids are passed over."""
        left = bytearray(b"\x01" * len(self.steps))
        for step in done:
            at = self.number.get(step)
            if at is not None:
                left[at] = 0
        return left


def index_relations(steps: Iterable[str], relations: Iterable[Relation]) -> RelationIndex:
    """Index relations over these steps; the order of both is kept, repeated steps count once."""
    ids = tuple(dict.fromkeys(steps))
    number = {step: at for at, step in enumerate(ids)}
    known = known_relations(ids, relations)
    by_first: list[list[int]] = [[] for _ in ids]
    by_member: list[list[int]] = [[] for _ in ids]
    firsts, members = [], []
    for at, relation in enumerate(known):
        first, others = first_and_members(relation)
        firsts.append(number[first])
        members.append(tuple(sorted(number[step] for step in others)))
        by_first[firsts[-1]].append(at)
        for member in members[-1]:
            by_member[member].append(at)
    return RelationIndex(
        steps=ids,
        relations=known,
        number=number,
        firsts=tuple(firsts),
        members=tuple(members),
        by_first=tuple(tuple(found) for found in by_first),
        by_member=tuple(tuple(found) for found in by_member),
        binds=bytes(r.reason.force.binds for r in known),
    )


def indexed(
    relations: RelationIndex | Iterable[Relation], *, also: Iterable[str] = ()
) -> RelationIndex:
    """Return an index as it is, or index relations over all steps they name and ``also``."""
    if isinstance(relations, RelationIndex):
        return relations
    given = tuple(relations)
    named = sorted({step for relation in given for step in named_steps(relation)})
    return index_relations((*also, *named), given)
