"""Relations indexed by step, once, so that questions about 2,000 steps cost milliseconds.

'Before' and 'before all of' have one shape here: ``first`` is done before the last of its
``members``. A ``Before`` has one member. A step is never its own member: to stand before the last
of a set it belongs to, it has to stand before the last of the others. A relation left without any
member can never be kept, whatever the order: 'a before a', or 'a before the last of nothing'.
The other kinds have no such shape and are numbered in ``others``; 'apart' says nothing of order.

A relation may name a step which is not there (``unknown_steps`` reports it). 'Before' and 'before
all of' are left out then, and for the second this is the true reading and no mere leniency: what
is shut off only by all members together is never shut off when one of them is never done. 'After
any of', 'together' and 'apart' go on without the missing step: nobody can wait for what is never
done, and the others are still done in one go.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeGuard

from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Relation, Together

NOBODY = -1
"""Stands for the first step of a relation that has none."""
Clause = tuple[int, tuple[int, ...]]
"""By number: the first of the pair comes before the last of the members."""


def is_plain(relation: Relation) -> TypeGuard[Before | BeforeAll]:
    """Tell whether a relation puts one step before the last of others."""
    return isinstance(relation, Before | BeforeAll)


def first_and_members(relation: Before | BeforeAll) -> tuple[str, frozenset[str]]:
    """Return the step that comes first, and the others before the last of which it comes."""
    if isinstance(relation, Before):
        return relation.first, frozenset((relation.then,)) - {relation.first}
    return relation.first, relation.of - {relation.first}


def named_steps(relation: Relation) -> frozenset[str]:
    """Return every step a relation names."""
    if isinstance(relation, Before):
        return frozenset((relation.first, relation.then))
    if isinstance(relation, BeforeAll):
        return relation.of | {relation.first}
    return relation.of | {relation.then} if isinstance(relation, AfterAny) else relation.of


def unknown_steps(steps: Iterable[str], relations: Iterable[Relation]) -> tuple[str, ...]:
    """Return the steps that relations name and that are not among ``steps``, sorted."""
    named = {step for relation in relations for step in named_steps(relation)}
    return tuple(sorted(named.difference(steps)))


def known_relations(steps: Collection[str], relations: Iterable[Relation]) -> tuple[Relation, ...]:
    """Return what relations say of these steps; those that say nothing of them are left out."""
    return tuple(_known(frozenset(steps), relations))


def _known(known: frozenset[str], relations: Iterable[Relation]) -> Iterator[Relation]:
    for relation in relations:
        if named_steps(relation) <= known:
            yield relation
        elif isinstance(relation, AfterAny):
            if relation.then in known and relation.of & known:
                yield replace(relation, of=relation.of & known)
        elif isinstance(relation, Together | Apart) and len(relation.of & known) > 1:
            yield replace(relation, of=relation.of & known)


@dataclass(frozen=True, slots=True, kw_only=True)
class RelationIndex:
    """Steps and relations by number, with the look-ups every question needs.

    Attributes:
        steps: step ids; a step's number is its place here.
        relations: what relations say of these steps; numbered likewise.
        number: a step's number by its id.
        firsts: by relation, the number of the step that comes first, or ``NOBODY``.
        members: by relation, the numbers of the steps before the last of which it comes.
        by_first: by step, the relations in which it comes first.
        by_member: by step, the relations of which it is a member.
        plain: by relation, 1 where it is 'before' or 'before all of' and nobody overruled it.
        binds: by relation, 1 where it is plain and binds.
        others: the numbers of all relations that are 'after any of' or 'together'.
    """

    steps: tuple[str, ...]
    relations: tuple[Relation, ...]
    number: Mapping[str, int] = field(repr=False, compare=False)
    firsts: tuple[int, ...] = field(repr=False, compare=False)
    members: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    by_first: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    by_member: tuple[tuple[int, ...], ...] = field(repr=False, compare=False)
    plain: bytes = field(repr=False, compare=False)
    binds: bytes = field(repr=False, compare=False)
    others: tuple[int, ...] = field(default=(), repr=False, compare=False)

    @property
    def mixed(self) -> tuple[int, ...]:
        """The numbers of the relations of kind 'after any of' or 'together' that bind."""
        return tuple(at for at in self.others if self.relations[at].reason.binds)

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
    firsts = [NOBODY] * len(known)
    members: list[tuple[int, ...]] = [()] * len(known)
    for at, relation in enumerate(known):
        if not is_plain(relation):
            continue
        first, others = first_and_members(relation)
        firsts[at] = number[first]
        members[at] = tuple(sorted(number[step] for step in others))
        by_first[firsts[at]].append(at)
        for member in members[at]:
            by_member[member].append(at)
    return RelationIndex(
        steps=ids,
        relations=known,
        number=number,
        firsts=tuple(firsts),
        members=tuple(members),
        by_first=tuple(tuple(found) for found in by_first),
        by_member=tuple(tuple(found) for found in by_member),
        plain=bytes(is_plain(r) and not r.reason.overruled for r in known),
        binds=bytes(is_plain(r) and r.reason.binds for r in known),
        others=tuple(at for at, r in enumerate(known) if isinstance(r, AfterAny | Together)),
    )


def index_clauses(
    names: Sequence[str], clauses: Sequence[Clause], relations: Sequence[Relation]
) -> RelationIndex:
    """Index plain clauses by number, each with the relation it comes from; all of them count."""
    by_first: list[list[int]] = [[] for _ in names]
    by_member: list[list[int]] = [[] for _ in names]
    for at, (first, members) in enumerate(clauses):
        by_first[first].append(at)
        for member in members:
            by_member[member].append(at)
    every = b"\x01" * len(clauses)
    return RelationIndex(
        steps=tuple(names),
        relations=tuple(relations),
        number={},
        firsts=tuple(first for first, _ in clauses),
        members=tuple(members for _, members in clauses),
        by_first=tuple(map(tuple, by_first)),
        by_member=tuple(map(tuple, by_member)),
        plain=every,
        binds=every,
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
