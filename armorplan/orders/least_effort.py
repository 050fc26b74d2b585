"""The order of least effort: what can be set in any order is set in the one that costs least.

Atoms that neither rises nor hard relations tie together are solved apart, each group exactly up
to 14 atoms and by the solver beyond; tools and turning over are looked at when the groups are put
together again.
"""

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

import networkx as nx

from armorplan.orders.effort_bits import EffortBits, each_bit
from armorplan.orders.effort_changes import fewer_changes
from armorplan.orders.effort_greedy import greedy
from armorplan.orders.effort_model import TICKS, EffortOrder, EffortProblem, Spent
from armorplan.orders.effort_solver import Solve, by_solver
from armorplan.orders.effort_subsets import MOST_ATOMS, by_subsets

_KEPT = 256
_NOTHING = Spent(work_min=0.0, change_min=0.0, by_atom=())


def least_effort(problem: EffortProblem, *, solve: Solve | None = None) -> EffortOrder:
    """Return the order of least work, of those one with few changes of tool, then as listed.

    Args:
        problem: what is to be ordered; ``before`` is closed here, it need not be.
        solve: asks the solver about groups of more than 14 atoms; without it such a group gets a
            good order and the bound that follows from what must come before what.
    """
    problem = replace(problem, before=_closed(problem))
    bits = EffortBits(problem)
    found = [_group(problem, atoms, solve) for atoms in _groups(problem)]
    chains = [[bits.number[one] for one in order] for order, _ in found if order is not None]
    order = None if len(chains) < len(found) else _put_together(bits, chains)
    if order is None:
        return EffortOrder(
            order=(), spent=_NOTHING, bound_min=0.0, change_bound_min=0.0, proved=False
        )
    bound = sum(bits.base) + sum(bound for _, bound in found)
    spent = bits.spent(order)
    return EffortOrder(
        order=tuple(bits.ids[at] for at in order),
        spent=spent,
        bound_min=bound / TICKS,
        change_bound_min=bits.change_bound() / TICKS,
        proved=round(spent.work_min * TICKS) == bound,
    )


def _closed(problem: EffortProblem) -> tuple[tuple[str, str], ...]:
    """Return 'before' with all that follows from it, so that atoms can be left out of it."""
    followers = EffortBits(replace(problem, rises=())).followers
    for middle, after_it in enumerate(tuple(followers)):
        if after_it:
            _through(followers, middle)
    ids = [atom.id for atom in problem.atoms]
    return tuple(
        (ids[first], ids[then]) for first, f in enumerate(followers) for then in each_bit(f)
    )


def _through(followers: list[int], middle: int) -> None:
    """Add to what comes before ``middle`` all that follows it (Warshall, 1962)."""
    for first, found in enumerate(followers):
        if found >> middle & 1:
            followers[first] |= followers[middle]


def _groups(problem: EffortProblem) -> list[list[str]]:
    """Return the atoms that rises and hard relations tie together, as listed."""
    graph: nx.Graph[str] = nx.Graph()
    for rise in problem.rises:
        _tie(graph, rise.atom, rise.after)
    for first, of in problem.before_all:
        _tie(graph, first, of)
    for first, then in problem.before:
        if first == then or (first in graph and then in graph):
            graph.add_edge(first, then)
    place = {atom.id: at for at, atom in enumerate(problem.atoms)}
    groups = [sorted(group, key=place.__getitem__) for group in nx.connected_components(graph)]
    return sorted(groups, key=lambda group: place[group[0]])


def _tie(graph: "nx.Graph[str]", atom: str, others: Iterable[str]) -> None:
    graph.add_node(atom)
    graph.add_edges_from((atom, one) for one in others)


Group = tuple[tuple[str, ...] | None, int]
"""The best order of a group, ``None`` where there is none, and its bound of extra hundredths."""


def _group(problem: EffortProblem, atoms: list[str], solve: Solve | None) -> Group:
    own = _only(problem, frozenset(atoms))
    return _exactly(own) if len(atoms) <= MOST_ATOMS else _bounded(own, solve)


@lru_cache(maxsize=_KEPT)
def _exactly(problem: EffortProblem) -> Group:
    """Return the order by subsets; a group that an edit left as it was is not redone."""
    bits = EffortBits(problem)
    order = by_subsets(bits)
    if order is None:
        return None, 0
    return tuple(bits.ids[at] for at in order), sum(bits.extras(order))


def _bounded(problem: EffortProblem, solve: Solve | None) -> Group:
    """Return the order the solver finds, or without a solver a good one."""
    bits = EffortBits(problem)
    order = greedy(bits)
    if order is None:
        return None, 0
    bound = bits.bound()
    if solve is not None and bound < sum(bits.extras(order)):
        order, bound = by_solver(bits, order, solve)
    return tuple(bits.ids[at] for at in order), bound


def _only(problem: EffortProblem, atoms: frozenset[str]) -> EffortProblem:
    return replace(
        problem,
        atoms=tuple(atom for atom in problem.atoms if atom.id in atoms),
        rises=tuple(rise for rise in problem.rises if rise.atom in atoms),
        before=tuple(pair for pair in problem.before if atoms.issuperset(pair)),
        before_all=tuple(one for one in problem.before_all if one[0] in atoms),
    )


def _put_together(bits: EffortBits, chains: list[list[int]]) -> tuple[int, ...] | None:
    """Return one order of the groups' orders and of all that is in none of them.

    It goes as listed, and leaves the listing only where that saves a change.
    """
    ahead = [0] * len(bits.ids)
    for first, followers in enumerate(bits.followers):
        for then in each_bit(followers):
            ahead[then] |= 1 << first
    for chain in chains:
        for first, then in pairwise(chain):
            ahead[then] |= 1 << first
    listed = _as_listed(bits, ahead)
    return None if listed is None else fewer_changes(bits, listed, ahead)


def _as_listed(bits: EffortBits, ahead: list[int]) -> tuple[int, ...] | None:
    order, done = list[int](), 0
    while done != bits.everything:
        at = next((at for at in each_bit(bits.everything & ~done) if not ahead[at] & ~done), None)
        if at is None:
            return None
        order.append(at)
        done |= 1 << at
    return tuple(order)
