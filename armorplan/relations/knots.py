"""Plain relations that cannot all hold, as few as it takes.

Where steps are stuck (see ``from_back``), each has a relation whose members are all stuck. Take
one such relation for every stuck step and draw an arrow from the step to each member. Where the
arrows lead in and never out again (a sink of the strongly connected parts) lie steps that are
stuck by these relations alone. Taking any one of the relations away frees its step, and with it,
one after the other, all that lead there: so the relations of a sink conflict, and no fewer of
them do. A ring of ``Before`` is the plainest case.
"""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from armorplan.relations.index import RelationIndex
from armorplan.relations.model import Relation
from armorplan.relations.weighing import weight

if TYPE_CHECKING:
    import networkx as nx

_Shut = dict[int, list[tuple[int, tuple[int, ...]]]]
"""By stuck step, the relations that hold it, each with its members, all of them stuck."""


def conflict_left(
    index: RelationIndex, left: bytearray, active: bytearray, back: Iterable[int]
) -> tuple[int, ...]:
    """Return the numbers of active relations that cannot all hold for the steps left.

    Args:
        index: steps and relations.
        left: by step, 1 where it is still to do.
        active: by relation, 1 where it counts.
        back: what ``order_from_back`` could place of them.
    """
    placed = frozenset(back)
    shut: _Shut = {}
    for at, first in enumerate(index.firsts):
        if active[at] and left[first] and first not in placed:
            members = tuple(m for m in index.members[at] if left[m])
            if placed.isdisjoint(members):
                shut.setdefault(first, []).append((at, members))
    if not shut:
        return ()
    for found in (several for several in shut.values() if len(several) > 1):
        found.sort(key=lambda pair: (len(pair[1]), _heavy_first(index.relations[pair[0]])))
    return _shortest_ring(shut) or _smallest_sink(shut)


def _heavy_first(relation: Relation) -> tuple[float, float]:
    # Of relations that say the same, only giving up the heaviest would help.
    rank, price = weight(relation)
    return -rank, -price


def _shortest_ring(shut: _Shut) -> tuple[int, ...]:
    import networkx as nx

    graph: nx.DiGraph[int] = nx.DiGraph()
    for first in sorted(shut):
        for at, members in shut[first]:
            if not members:
                return (at,)
            if len(members) == 1 and not graph.has_edge(first, members[0]):
                graph.add_edge(first, members[0], relation=at)
    best: list[int] = []
    for ring in nx.strongly_connected_components(graph):
        for start in sorted(ring) if len(ring) > 1 else ():
            found = _ring_through(graph, start, longest=len(best) - 1 if best else len(ring))
            best = found or best
    return tuple(graph.edges[a, b]["relation"] for a, b in _around(best))


def _ring_through(graph: "nx.DiGraph[int]", start: int, *, longest: int) -> list[int]:
    """Return the steps of a shortest ring through ``start`` with at most ``longest`` of them."""
    came_from = {start: start}
    reached = [start]
    for _ in range(longest):
        reached_next = []
        for step in reached:
            for onward in graph[step]:
                if onward == start:
                    return _walk_back(came_from, step)
                if onward not in came_from:
                    came_from[onward] = step
                    reached_next.append(onward)
        reached = reached_next
    return []


def _walk_back(came_from: dict[int, int], step: int) -> list[int]:
    ring = [step]
    while came_from[ring[-1]] != ring[-1]:
        ring.append(came_from[ring[-1]])
    return ring[::-1]


def _around(ring: list[int]) -> Iterator[tuple[int, int]]:
    return zip(ring, ring[1:] + ring[:1], strict=True)


def _smallest_sink(shut: _Shut) -> tuple[int, ...]:
    import networkx as nx

    graph: nx.DiGraph[int] = nx.DiGraph()
    for first in sorted(shut):
        graph.add_edges_from((first, member) for member in shut[first][0][1])
    sinks = [
        part
        for part in nx.strongly_connected_components(graph)
        if all(onward in part for step in part for onward in graph[step])
    ]
    smallest = min(sinks, key=lambda part: (len(part), min(part)))
    return tuple(shut[step][0][0] for step in sorted(smallest))
