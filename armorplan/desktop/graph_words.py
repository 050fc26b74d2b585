"""Sentences about the nodes and edges of the graphs, for lists and screen readers."""

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import GraphEdge, GraphNode, GraphRows
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.twin_model import TwinRow

MOST_NAMED = 4


def _tr(text: str) -> str:
    return QCoreApplication.translate("GraphWords", text)


def _named(labels: list[str]) -> str:
    shown = "; ".join(labels[:MOST_NAMED])
    more = len(labels) - MOST_NAMED
    return shown + (_tr(" and {n} more").format(n=more) if more > 0 else "")


def node_rows(rows: GraphRows) -> tuple[TwinRow, ...]:
    """Return every node with its state and what it hangs on."""
    label = {node.id: node.label for node in rows.nodes}
    before: dict[str, list[str]] = {}
    for edge in rows.edges:
        before.setdefault(edge.head, []).append(label.get(edge.tail, edge.tail))
        if not rows.directed and edge.tail != edge.head:
            before.setdefault(edge.tail, []).append(label.get(edge.head, edge.head))
    return tuple(_node_row(node, before.get(node.id, []), rows) for node in rows.nodes)


def _node_row(node: GraphNode, others: list[str], rows: GraphRows) -> TwinRow:
    words = f"{node.label} – {state_word(node.state)}"
    if others:
        says = _tr("after: {others}") if rows.directed else _tr("joined to: {others}")
        words = f"{words} – {says.format(others=_named(others))}"
    return TwinRow(key=node.id, cells=(words,), spoken=words)


def edge_row(edge: GraphEdge, rows: GraphRows, key: str) -> TwinRow:
    """Return an edge of the assembly graph: what holds which parts."""
    label = {node.id: node.label for node in rows.nodes}
    ends = (label.get(edge.tail, edge.tail), label.get(edge.head, edge.head))
    if edge.tail == edge.head:
        words = _tr("{joints}: {part} on itself").format(joints=edge.label, part=ends[0])
    else:
        words = _tr("{joints}: {one} and {other}").format(
            joints=edge.label, one=ends[0], other=ends[1]
        )
    return TwinRow(key=key, cells=(f"    {words}",), spoken=words)
