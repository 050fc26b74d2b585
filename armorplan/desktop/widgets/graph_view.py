"""Two graphs of the build: how the parts hang together, and what comes before what."""

from typing import Literal

from PySide6.QtWidgets import QListView, QWidget

from armorplan.app.rows import GraphEdge, GraphNode, GraphRows, Selection
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.colours import Colours
from armorplan.desktop.graph_layout import edge_key
from armorplan.desktop.graph_words import edge_row, node_rows
from armorplan.desktop.picture_colours import leather
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.graph_canvas import GraphCanvas
from armorplan.desktop.widgets.picture_pane import PicturePane

Kind = Literal["assembly", "steps"]


class GraphView(PicturePane):
    """Shows one of the graphs and tells the bridge which part, joints or steps are chosen."""

    def __init__(self, bridge: Bridge, kind: Kind, parent: QWidget | None = None) -> None:
        super().__init__(f"{kind}_graph", self._choose_key, parent)
        self._bridge = bridge
        self._kind = kind
        self._rows = GraphRows(nodes=(), edges=(), directed=kind == "steps")
        self.canvas = GraphCanvas(self._fill, self)
        self.canvas.setObjectName(f"{kind}_canvas")
        self.canvas.setAccessibleName(self._title())
        self.canvas.setAccessibleDescription(
            self.tr(
                "Arrow keys walk, Page Down goes through everything in order, Enter chooses, "
                "Escape chooses nothing. Plus and minus zoom, zero shows all, Shift with arrows "
                "moves the drawing."
            )
        )
        self.twin_model = TwinModel((self._title(),), self)
        self.twin = QListView(self)
        self.twin.setObjectName(f"{kind}_list")
        self.twin.setAccessibleName(self.tr("{graph} as a list").format(graph=self._title()))
        self.twin.setModel(self.twin_model)
        self.twin.setSelectionMode(QListView.SelectionMode.ExtendedSelection)
        self.twin.setUniformItemSizes(True)
        self.hold(self.canvas, self.canvas, self.twin)
        self.canvas.hands.chosen.connect(self._choose_key)
        self.canvas.hands.walked.connect(self.speak)
        self.watch(bridge)
        self.refresh()

    def _title(self) -> str:
        if self._kind == "steps":
            return self.tr("What comes before what")
        return self.tr("What holds the parts together")

    def refresh(self) -> None:
        """Ask for the rows anew and draw what has changed."""
        session = self._bridge.session
        rows = session.step_graph() if self._kind == "steps" else session.assembly_graph()
        if rows != self._rows:
            self._rows = rows
            self.canvas.show_graph(rows, self._lie())
            edges = () if rows.directed else rows.edges
            edge_rows = (edge_row(edge, rows, edge_key(edge)) for edge in edges)
            self.twin_model.show((*node_rows(rows), *edge_rows))
        self.show_selection(self._bridge.selection)

    def _lie(self) -> dict[str, Place]:
        if self._rows.directed:
            return {}
        return {part.id: part.label_at for part in self._bridge.session.diagram().parts}

    def _fill(self, colours: Colours, node: GraphNode) -> str:
        return colours.panel if self._kind == "steps" else leather(colours, node.kind, 2)

    def _choose_key(self, key: str) -> None:
        node = next((n for n in self._rows.nodes if n.id == key), None)
        edge = next((e for e in self._rows.edges if edge_key(e) == key), None)
        if edge is not None:
            self._choose_edge(edge)
        elif node is None or self._kind == "steps":
            self._bridge.choose_steps(node.steps if node else ())
        else:
            self._bridge.choose_part(node.id)

    def _choose_edge(self, edge: GraphEdge) -> None:
        if len(edge.joints) == 1:
            self._bridge.choose_joint(edge.joints[0])
            return
        found = [self._bridge.session.choose_joint(joint) for joint in edge.joints]
        steps = tuple(dict.fromkeys(step for one in found for step in one.steps))
        parts = tuple(dict.fromkeys((edge.tail, edge.head)))
        self._bridge.select(Selection(steps=steps, parts=parts, joints=edge.joints))

    def show_selection(self, selection: Selection) -> None:
        """Show what is chosen."""
        steps, parts = frozenset(selection.steps), frozenset(selection.parts)
        joints = frozenset(selection.joints)

        def lit(row: GraphNode | GraphEdge) -> bool:
            if isinstance(row, GraphEdge):
                return not joints.isdisjoint(row.joints)
            if self._kind == "steps":
                return not steps.isdisjoint(row.steps)
            return row.id in parts

        self.canvas.light(lit)
        edges = () if self._rows.directed else self._rows.edges
        self.follow(
            (
                *(n.id for n in self._rows.nodes if lit(n)),
                *(edge_key(e) for e in edges if lit(e)),
            )
        )
