"""Rows that are joined, as far as it was answered how."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from armorplan.geometry.matching.model import RowMatch
from armorplan.pattern.parts import Hole, Part


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Two rows that are joined.

    Attributes:
        match: which holes meet.
        outer: id of the part that lies outside.
        turns: its fasteners are pivots.
        on_wearer: the holes it meets are marked on the wearer.
        fastener: id on the shelf.
    """

    match: RowMatch
    outer: str = ""
    turns: bool = False
    on_wearer: bool = False
    fastener: str = ""

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Holes that meet, the outer one first."""
        if self.outer == self.match.second != self.match.first:
            return tuple((second, first) for first, second in self.match.pairs)
        return self.match.pairs

    @property
    def inner(self) -> str:
        """Id of the part that lies inside; the same one where a part closes on itself."""
        return self.match.first if self.outer == self.match.second else self.match.second


def hole_of(parts: Mapping[str, Part], part: str, hole: str) -> Hole:
    """Return a hole of a part."""
    return next(each for each in parts[part].holes if each.id == hole)


def rows_links(rows: Iterable[Row]) -> tuple[tuple[str, str], ...]:
    """Return the pairs of parts that are joined."""
    return tuple((row.match.first, row.match.second) for row in rows)


def linked(pairs: Iterable[tuple[str, str]], parts: Iterable[str]) -> tuple[tuple[str, ...], ...]:
    """Return groups of parts that hang together by pairs, in the order of the parts."""
    import networkx as nx

    ordered = list(parts)
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(ordered)
    graph.add_edges_from(pairs)
    place = {part: at for at, part in enumerate(ordered)}
    groups = (
        tuple(sorted(group, key=place.__getitem__)) for group in nx.connected_components(graph)
    )
    return tuple(sorted(groups, key=lambda group: place[group[0]]))
