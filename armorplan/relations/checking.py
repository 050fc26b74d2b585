"""Which relations an order breaks, and where.

A relation is broken at the step that was done too early: the later one of a ``Before``, the last
member of a ``BeforeAll``, while the step that had to come first was not done yet; the step that
comes after none of an ``AfterAny``. A ``Together`` is broken by what comes in between. An order
breaks no ``Apart``.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from armorplan.relations.index import (
    RelationIndex,
    first_and_members,
    is_plain,
    known_relations,
)
from armorplan.relations.model import AfterAny, Relation, Together


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """A relation that an order breaks.

    Attributes:
        relation: the relation.
        at: index in the order at which it is broken.
        step: the step that stands there: too early, or between steps that are done in one go.
    """

    relation: Relation
    at: int
    step: str


def breaks(order: Sequence[str], relations: Iterable[Relation]) -> tuple[Break, ...]:
    """Return what a whole order breaks, in order of occurrence.

    Relations that name a step which is not in the order say nothing about it and are passed over.
    Where a step stands twice, its first place counts.
    """
    return breaks_of_prefix(order, known_relations(order, relations))


def first_break(order: Sequence[str], relations: Iterable[Relation]) -> Break | None:
    """Return what a whole order breaks first, or ``None`` where it is valid."""
    return next(iter(breaks(order, relations)), None)


def breaks_of_prefix(done: Sequence[str], relations: Iterable[Relation]) -> tuple[Break, ...]:
    """Return what is already broken when only ``done`` was done, in this order.

    A step that is not in ``done`` is still to come; ``known_relations`` sorts out relations that
    name steps which never will.
    """
    place: dict[str, int] = {}
    for at, step in enumerate(done):
        place.setdefault(step, at)
    found = []
    for relation in relations:
        spot = _broken_at(relation, place, done)
        if spot is not None:
            found.append(Break(relation=relation, at=spot, step=done[spot]))
    return tuple(sorted(found, key=lambda b: b.at))


def _broken_at(relation: Relation, place: Mapping[str, int], done: Sequence[str]) -> int | None:
    if isinstance(relation, AfterAny):
        here = place.get(relation.then, -1)
        others = relation.of - {relation.then}
        is_late = here >= 0 and all(place.get(step, here) >= here for step in others)
        return here if is_late else None
    if not is_plain(relation):
        return _parted_at(relation.of, place, done) if isinstance(relation, Together) else None
    first, members = first_and_members(relation)
    if not members:
        return place.get(first)
    if not all(member in place for member in members):
        return None
    last = max(place[member] for member in members)
    return None if place.get(first, last) < last else last


def _parted_at(of: AbstractSet[str], place: Mapping[str, int], done: Sequence[str]) -> int | None:
    """Return what ``comes_between`` does, by the places of the few instead of a walk over all."""
    if len(place) < len(done):
        return comes_between(done, of)
    stand = sorted(place[step] for step in of if step in place)
    end = next((at for at, one in enumerate(stand) if one != stand[0] + at), len(stand))
    is_whole = end == len(of)
    return None if not stand or is_whole or stand[0] + end == len(done) else stand[0] + end


def comes_between(done: Sequence[str], of: AbstractSet[str]) -> int | None:
    """Return where something came between the steps ``of``, done in part or in full.

    A step that stands in ``done`` more than once counts at its first place.
    """
    left, seen = set(of), set[str]()
    for at, step in enumerate(done):
        if step in of:
            left.discard(step)
        elif len(left) < len(of) and step not in seen:
            return at
        if not left:
            return None
        seen.add(step)
    return None


def breaks_so_far(done: Sequence[str], index: RelationIndex) -> tuple[Break, ...]:
    """Return what ``breaks_of_prefix`` does for all relations of an index.

    Of the plain relations only those are looked at that touch a step done; unknown steps are
    passed over.
    """
    place: dict[int, int] = {}
    for at, step in enumerate(done):
        number = index.number.get(step)
        if number is not None:
            place.setdefault(number, at)
    found = sorted(
        (at, relation)
        for number, at in place.items()
        for relation in _broken_at_step(index, number, place)
    )
    told = [Break(relation=index.relations[r], at=at, step=done[at]) for at, r in found]
    told += breaks_of_prefix(done, (index.relations[at] for at in index.others))
    return tuple(sorted(told, key=lambda b: b.at))


def _broken_at_step(index: RelationIndex, number: int, place: Mapping[int, int]) -> Iterator[int]:
    here = place[number]
    for relation in index.by_first[number]:
        if not index.members[relation]:
            yield relation
    for relation in index.by_member[number]:
        is_late = place.get(index.firsts[relation], here) >= here
        if is_late and all(m in place and place[m] <= here for m in index.members[relation]):
            yield relation


def is_broken_for_good(
    relation: Relation, done: Sequence[str], left: bytearray, index: RelationIndex
) -> bool:
    """Tell whether what was done has broken an 'after any of' or 'together' with steps left."""
    if not isinstance(relation, AfterAny | Together):
        return False
    if not any(left[index.number[step]] for step in relation.of):
        return False
    if isinstance(relation, Together):
        return comes_between(done, relation.of) is not None
    others = relation.of - {relation.then}
    return not left[index.number[relation.then]] and all(left[index.number[s]] for s in others)
