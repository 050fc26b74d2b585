"""Rows that are joined, as far as it was answered how."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from armorplan.geometry.areas import ring_area_mm2
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
        from_end: it is worked from what the match names last.
    """

    match: RowMatch
    outer: str = ""
    turns: bool = False
    on_wearer: bool = False
    fastener: str = ""
    from_end: bool = False

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Holes that meet, the outer one first, in the order they are worked."""
        along = self.match.pairs[::-1] if self.from_end else self.match.pairs
        if self.outer == self.match.second != self.match.first:
            return tuple((second, first) for first, second in along)
        return along

    @property
    def inner(self) -> str:
        """Id of the part that lies inside; the same one where a part closes on itself."""
        return self.match.first if self.outer == self.match.second else self.match.second


def from_the_top(row: Row, parts: Mapping[str, Part]) -> Row:
    """Return a row as it is worked: downwards on its larger part, or to the right if it lies level."""
    match = row.match
    larger = max((match.first, match.second), key=lambda key: ring_area_mm2(parts[key].outline))
    at = 0 if larger == match.first else 1
    (x0, y0), (x1, y1) = (hole_of(parts, larger, match.pairs[end][at]).centre for end in (0, -1))
    is_level = abs(x1 - x0) > abs(y1 - y0)
    return replace(row, from_end=x1 < x0 if is_level else y1 < y0)


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
