"""What the relations between steps say of the order of what is set in one go."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from graphlib import CycleError, TopologicalSorter

import networkx as nx

from armorplan.orders.effort_model import Rise
from armorplan.relations.index import first_and_members, is_plain
from armorplan.relations.model import Force, Relation

FROM_REACH = frozenset({"easier-while-open", "deep-end-easier"})
"""Rules whose minutes the margins tell already."""

Pairs = tuple[tuple[str, str], ...]
AllOf = tuple[tuple[str, frozenset[str]], ...]


def hard_pairs(relations: Iterable[Relation], home: Mapping[str, str]) -> Pairs | None:
    """Return which atom must come before which, through other steps too; ``None`` in a ring.

    Args:
        relations: between steps.
        home: by step the atom it belongs to.
    """
    after: dict[str, list[str]] = {}
    for relation in relations:
        if is_plain(relation) and relation.reason.binds:
            first, of = first_and_members(relation)
            if len(of) == 1:
                after.setdefault(first, []).extend(of)
    try:
        backwards = tuple(TopologicalSorter(after).static_order())
    except CycleError:
        return None
    atoms = {atom: at for at, atom in enumerate(dict.fromkeys(home.values()))}
    return tuple(sorted(_pairs(after, backwards, home, atoms)))


def _pairs(
    after: Mapping[str, Sequence[str]],
    backwards: Iterable[str],
    home: Mapping[str, str],
    atoms: Mapping[str, int],
) -> set[tuple[str, str]]:
    names, later, found = list(atoms), dict[str, int](), dict[str, int]()
    for step in backwards:
        ahead = 0
        for then in after.get(step, ()):
            ahead |= later[then] | (1 << atoms[home[then]] if then in home else 0)
        later[step] = ahead
        if step in home:
            found[home[step]] = found.get(home[step], 0) | ahead
    return {
        (first, names[at])
        for first, mask in found.items()
        for at in range(len(names))
        if mask >> at & 1 and names[at] != first
    }


def knotted(pairs: Pairs) -> frozenset[str]:
    """Return the atoms that would each have to come before the other: they are not one go."""
    graph: nx.DiGraph[str] = nx.DiGraph(pairs)
    knots = (knot for knot in nx.strongly_connected_components(graph) if len(knot) > 1)
    return frozenset(atom for knot in knots for atom in knot)


def hard_sets(relations: Iterable[Relation], home: Mapping[str, str]) -> AllOf:
    """Return which atom must come before the last of which others."""
    found = {
        (home[first], frozenset(home[step] for step in of))
        for first, of, relation in _among(relations, home)
        if relation.reason.binds and len(of) > 1
    }
    return tuple(sorted(((a, of) for a, of in found if a not in of), key=_sortable))


def priced(relations: Iterable[Relation], home: Mapping[str, str]) -> tuple[Rise, ...]:
    """Return what relations of force *easier* cost when they are not kept; not those of reach."""
    rises = (
        Rise(
            atom=home[first],
            after=frozenset(home[step] for step in of),
            minutes=relation.reason.price_min,
            why=f"{relation.reason.rule} {first}",
        )
        for first, of, relation in _among(relations, home)
        if relation.reason.force is Force.EASIER
        and not relation.reason.overruled
        and relation.reason.price_min > 0
        and relation.reason.rule not in FROM_REACH
        and home[first] not in {home[step] for step in of}
    )
    # One relation for each joint of a row says the same of the row.
    return tuple(dict.fromkeys(rises))


def _among(
    relations: Iterable[Relation], home: Mapping[str, str]
) -> Iterator[tuple[str, frozenset[str], Relation]]:
    for relation in relations:
        if is_plain(relation) and relation.first in home:
            first, of = first_and_members(relation)
            if of and of <= home.keys():
                yield first, of, relation


def _sortable(one: tuple[str, frozenset[str]]) -> tuple[str, list[str]]:
    return one[0], sorted(one[1])
