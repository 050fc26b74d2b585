"""Where the tags and threads of a graph lie: layers folded into bands, or as the parts lie."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.app.rows import GraphEdge, GraphRows
from armorplan.desktop.layout_bands import folded
from armorplan.desktop.layout_dag import Place, Size, layered
from armorplan.desktop.layout_parts import apart

GAP_ACROSS = 92.0
GAP_DOWN = 62.0
"""Between parts: room for the words on the threads, and for a part's loop on itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphLayout:
    """Middles of the tags, and the points that each edge passes from side to side of its tags.

    An edge from a tag to itself has one point: the middle of that tag.
    """

    centres: Mapping[str, Place]
    routes: Mapping[str, tuple[Place, ...]]


def edge_key(edge: GraphEdge) -> str:
    """Return the key of an edge in the picture."""
    return f"edge:{edge.tail}|{edge.head}"


def laid_out(rows: GraphRows, tag: Size, lie: Mapping[str, Place]) -> GraphLayout:
    """Lay a graph out with tags of one size; ``lie`` tells where parts lie in the drawing."""
    nodes = [node.id for node in rows.nodes]
    if not rows.directed:
        room = (tag[0] + GAP_ACROSS, tag[1] + GAP_DOWN)
        centres = apart({node: lie.get(node, (0.0, 0.0)) for node in nodes}, room)
        routes = {
            edge_key(e): tuple(dict.fromkeys((centres[e.tail], centres[e.head])))
            for e in rows.edges
        }
        return GraphLayout(centres=centres, routes=routes)
    sizes = dict.fromkeys(nodes, tag)
    laid = folded(layered(sizes, [(e.tail, e.head) for e in rows.edges]), sizes)
    half = tag[0] / 2
    routes = {
        edge_key(e): _from_side_to_side(laid.routes[e.tail, e.head], half)
        for e in rows.edges
        if (e.tail, e.head) in laid.routes
    }
    return GraphLayout(centres=laid.centres, routes=routes)


def _from_side_to_side(points: tuple[Place, ...], half: float) -> tuple[Place, ...]:
    """Return the route from the right side of one tag to the left side of another."""
    (x, y), (to_x, to_y) = points[0], points[-1]
    return ((x + half, y), *points[1:-1], (to_x - half, to_y))
