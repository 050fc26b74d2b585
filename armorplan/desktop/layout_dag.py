"""Places the boxes of a directed graph in layers, left to right, with few crossings.

Longest-path layers with sources pulled next to what needs them, dummy places along edges that
pass a layer, barycentre sweeps, then least-squares heights that keep the order. The same graph
always gives the same picture. Units are scene units; a position is the centre of a box.
"""

from bisect import bisect_right, insort
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import networkx as nx

Place = tuple[float, float]
Size = tuple[float, float]
Edge = tuple[str, str]
_Key = str | tuple[str, str, int]
_Order = list[list[_Key]]

SWEEPS = 12
SWEPT_LINKS = 12_000
"""So many links are gone over at most: a graph of very long edges gets fewer sweeps, at least 2."""
GAP_ACROSS = 72.0
"""Free width between two layers: room for the bends of the edges."""
GAP_ALONG = 26.0
DUMMY: Size = (0.0, 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layered:
    """Where boxes stand and how edges run.

    ``routes`` holds for each edge the points it passes, from tail to head; an edge that closes a
    cycle runs straight. ``crossings`` counts the crossings between neighbouring layers.
    """

    centres: Mapping[str, Place]
    routes: Mapping[Edge, tuple[Place, ...]]
    crossings: int


def layered(sizes: Mapping[str, Size], edges: Iterable[Edge]) -> Layered:
    """Lay a graph out; ``sizes`` gives each box's width and height and the order that ties keep.

    Edges between unknown boxes are ignored; a self-loop gets no route. Cycles are allowed: the
    edge that runs against the order of ``sizes`` is then left out of the layering.
    """
    known = tuple(e for e in dict.fromkeys(edges) if e[0] in sizes and e[1] in sizes)
    graph = _forward(tuple(sizes), known)
    level = _levels(graph)
    chains = {e: _chain(e, level) for e in known if graph.has_edge(*e)}
    links = [link for chain in chains.values() for link in pairwise(chain)]
    order = _rows(sizes, chains, level)
    order, crossings = _swept(order, links)
    across = _across(order, sizes)
    along = _along(order, links, sizes)
    places: dict[_Key, Place] = {
        key: (across[column], along[key]) for column, keys in enumerate(order) for key in keys
    }
    routes = {e: tuple(places[k] for k in chain) for e, chain in chains.items()}
    routes |= {e: (places[e[0]], places[e[1]]) for e in known if e not in routes and e[0] != e[1]}
    return Layered(
        centres={node: places[node] for node in sizes}, routes=routes, crossings=crossings
    )


def _forward(nodes: Sequence[str], edges: Sequence[Edge]) -> "nx.DiGraph[str]":
    """Return the graph without the edges that run backwards inside a cycle."""
    rank = {node: place for place, node in enumerate(nodes)}
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_nodes_from(nodes)
    graph.add_edges_from(e for e in edges if e[0] != e[1])
    home = {n: i for i, group in enumerate(nx.strongly_connected_components(graph)) for n in group}
    graph.remove_edges_from(
        [(a, b) for a, b in graph.edges if home[a] == home[b] and rank[a] > rank[b]]
    )
    return graph


def _levels(graph: "nx.DiGraph[str]") -> dict[str, int]:
    level: dict[str, int] = {}
    for depth, generation in enumerate(nx.topological_generations(graph)):
        level |= dict.fromkeys(generation, depth)
    for node in reversed(list(nx.topological_sort(graph))):
        if graph.in_degree(node) == 0 and graph.out_degree(node) > 0:
            level[node] = min(level[n] for n in graph.successors(node)) - 1
    return level


def _chain(edge: Edge, level: Mapping[str, int]) -> tuple[_Key, ...]:
    tail, head = edge
    between = range(level[tail] + 1, level[head])
    return (tail, *((tail, head, column) for column in between), head)


def _rows(
    sizes: Mapping[str, Size], chains: Mapping[Edge, tuple[_Key, ...]], level: Mapping[str, int]
) -> _Order:
    order: _Order = [[] for _ in range(max(level.values(), default=-1) + 1)]
    for node in sizes:
        order[level[node]].append(node)
    for (tail, _), chain in chains.items():
        for column, key in enumerate(chain[1:-1], level[tail] + 1):
            order[column].append(key)
    return order


def _neighbours(links: Iterable[tuple[_Key, _Key]]) -> tuple[dict[_Key, list[_Key]], ...]:
    before: dict[_Key, list[_Key]] = {}
    after: dict[_Key, list[_Key]] = {}
    for tail, head in links:
        after.setdefault(tail, []).append(head)
        before.setdefault(head, []).append(tail)
    return before, after


def _swept(order: _Order, links: Sequence[tuple[_Key, _Key]]) -> tuple[_Order, int]:
    """Return the best order of ``SWEEPS`` passes, forwards and backwards by turns."""
    before, after = _neighbours(links)
    sweeps = min(SWEEPS, max(2, SWEPT_LINKS // max(len(links), 1)))
    best, fewest = [list(column) for column in order], _crossings(order, after)
    for sweep in range(sweeps):
        if fewest == 0:
            break
        back = sweep % 2
        columns = range(len(order) - 2, -1, -1) if back else range(1, len(order))
        for column in columns:
            beside = order[column + 1 if back else column - 1]
            _sort_by_mean(order[column], beside, after if back else before)
        count = _crossings(order, after)
        if count < fewest:
            best, fewest = [list(column) for column in order], count
    return best, fewest


def _sort_by_mean(
    column: list[_Key], beside: list[_Key], linked: Mapping[_Key, list[_Key]]
) -> None:
    place = {key: float(i) for i, key in enumerate(beside)}
    mean: dict[_Key, float] = {}
    for i, key in enumerate(column):
        others = [place[k] for k in linked.get(key, ())]
        mean[key] = sum(others) / len(others) if others else float(i)
    column.sort(key=mean.__getitem__)


def _crossings(order: _Order, after: Mapping[_Key, list[_Key]]) -> int:
    total = 0
    for here, there in pairwise(order):
        place = {key: i for i, key in enumerate(there)}
        seen: list[int] = []
        for key in here:
            ends = sorted(place[k] for k in after.get(key, ()))
            total += sum(len(seen) - bisect_right(seen, end) for end in ends)
            for end in ends:
                insort(seen, end)
    return total


def _across(order: _Order, sizes: Mapping[str, Size]) -> list[float]:
    centres, edge = [], 0.0
    for column in order:
        width = max((sizes[k][0] for k in column if isinstance(k, str)), default=0.0)
        centres.append(edge + width / 2)
        edge += width + GAP_ACROSS
    return centres


def _along(
    order: _Order, links: Sequence[tuple[_Key, _Key]], sizes: Mapping[str, Size]
) -> dict[_Key, float]:
    """Return heights near the mean of the linked places, boxes apart and in their order."""
    before, after = _neighbours(links)
    shifts = [_shifts(column, sizes) for column in order]
    at = {key: s for column, shift in zip(order, shifts, strict=True)
          for key, s in zip(column, shift, strict=True)}  # fmt: skip
    for linked, backwards in ((before, False), (after, True), (before, False), (None, True)):
        pairs = zip(order, shifts, strict=True)
        for column, shift in reversed(list(pairs)) if backwards else pairs:
            wanted = [_wish(key, before, after, at) if linked is None
                      else _mean(linked.get(key, ()), at, at[key]) for key in column]  # fmt: skip
            level = rising([w - s for w, s in zip(wanted, shift, strict=True)])
            at |= {key: y + s for key, y, s in zip(column, level, shift, strict=True)}
    return at


def _shifts(column: Sequence[_Key], sizes: Mapping[str, Size]) -> list[float]:
    """Return the least height of each place above the first, box beside box."""
    heights = [(sizes[k] if isinstance(k, str) else DUMMY)[1] for k in column]
    shifts = [0.0] * len(column)
    for i, (upper, lower) in enumerate(pairwise(heights)):
        shifts[i + 1] = shifts[i] + (upper + lower) / 2 + GAP_ALONG
    return shifts


def _mean(keys: Iterable[_Key], at: Mapping[_Key, float], otherwise: float) -> float:
    heights = [at[k] for k in keys]
    return sum(heights) / len(heights) if heights else otherwise


def _wish(
    key: _Key,
    before: Mapping[_Key, list[_Key]],
    after: Mapping[_Key, list[_Key]],
    at: Mapping[_Key, float],
) -> float:
    return _mean((*before.get(key, ()), *after.get(key, ())), at, at[key])


def rising(values: Iterable[float]) -> Iterator[float]:
    """Return the nearest non-decreasing run by least squares (pool adjacent violators).

    SciPy has this too, but its import would hold the window for longer than the whole layout.
    """
    pools: list[tuple[float, int]] = []
    for value in values:
        total, count = value, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            more, members = pools.pop()
            total, count = total + more, count + members
        pools.append((total, count))
    return (total / count for total, count in pools for _ in range(count))
