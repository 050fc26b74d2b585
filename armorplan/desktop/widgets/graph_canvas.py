"""The drawing of a graph: tags where the layout puts them, threads between them."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainterPath, QShowEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import BenchState, GraphEdge, GraphNode, GraphRows
from armorplan.desktop.colours import Colours
from armorplan.desktop.layout_dag import GAP_ALONG, layered
from armorplan.desktop.layout_parts import apart
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.graph_items import (
    TAG_WIDE,
    EdgeLabel,
    TagItem,
    ThreadItem,
    flowing,
    looping,
    tag_height,
)
from armorplan.desktop.widgets.picture_view import PictureView

READABLE = 0.75
"""The picture opens no smaller than this, on what can be done now; ``0`` shows all of it."""
GAP_ACROSS = 84.0

_LIVE = (BenchState.RUNNING, BenchState.DRYING, BenchState.PAUSED, BenchState.READY)

Fill = Callable[[Colours, GraphNode], str]
Lit = Callable[[GraphNode | GraphEdge], bool]


def edge_key(edge: GraphEdge) -> str:
    """Return the key of an edge in the picture."""
    return f"edge:{edge.tail}|{edge.head}"


class GraphCanvas(PictureView):
    """Shows ``rows.GraphRows``. Keys are node ids, and ``edge:TAIL|HEAD`` where edges are chosen.

    ``lie`` tells where the nodes of an undirected graph lie; a directed one is laid in layers.
    """

    most_scale = 3.0

    def __init__(self, fill: Fill, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._fill = fill
        self._rows = GraphRows(nodes=(), edges=(), directed=True)
        self._lit: Lit = lambda _row: False
        self._tags: dict[str, TagItem] = {}
        self._threads: dict[str, ThreadItem] = {}
        self._labels: dict[str, EdgeLabel] = {}
        self._opened = False

    def show_graph(self, rows: GraphRows, lie: Mapping[str, Place]) -> None:
        """Take new rows; the layout is made anew only where nodes or edges have changed."""
        before, self._rows = self._rows, rows
        if _shape(before) != _shape(rows):
            self._rebuild(lie)
        for node in rows.nodes:
            self._tags[node.id].node = node
        self.light(self._lit)

    def _rebuild(self, lie: Mapping[str, Place]) -> None:
        for item in (*self._tags.values(), *self._threads.values(), *self._labels.values()):
            self._scene.removeItem(item)
        height = tag_height(QFontMetricsF(self.font()))
        self._tags = {node.id: TagItem(node, height) for node in self._rows.nodes}
        self._threads, self._labels = {}, {}
        routes = self._place(lie, height)
        for edge in self._rows.edges:
            key = edge_key(edge)
            thread = ThreadItem(edge, routes[key], directed=self._rows.directed)
            self._threads[key] = thread
            if not self._rows.directed:
                self._label(key)
        for item in (*self._threads.values(), *self._tags.values()):
            self._scene.addItem(item)
        self._opened = False
        self.set_room()
        self._open()

    def _place(self, lie: Mapping[str, Place], height: float) -> dict[str, QPainterPath]:
        """Put the tags in their places and return the paths of the edges."""
        if self._rows.directed:
            laid = layered(
                dict.fromkeys(self._tags, (TAG_WIDE, height)),
                [(edge.tail, edge.head) for edge in self._rows.edges],
            )
            self._move(laid.centres)
            half = TAG_WIDE / 2
            return {
                edge_key(e): _between(laid.routes.get((e.tail, e.head), ()), half)
                for e in self._rows.edges
            }
        size = (TAG_WIDE + GAP_ACROSS, height + 3 * GAP_ALONG)
        self._move(apart({n: lie.get(n, (0.0, 0.0)) for n in self._tags}, size))
        return {edge_key(e): self._straight(e, height) for e in self._rows.edges}

    def _move(self, centres: Mapping[str, Place]) -> None:
        for node, tag in self._tags.items():
            tag.setPos(*centres[node])

    def _straight(self, edge: GraphEdge, height: float) -> QPainterPath:
        tail, head = self._tags[edge.tail].pos(), self._tags[edge.head].pos()
        if edge.tail == edge.head:
            return looping(tail, height)
        path = QPainterPath(tail)
        path.lineTo(head)
        return path

    # --- looks ------------------------------------------------------------------------------

    def light(self, lit: Lit) -> None:
        """Light the nodes and edges that ``lit`` names, and dim the rest if there are any."""
        self._lit = lit
        nodes = {node.id for node in self._rows.nodes if lit(node)}
        edges = {edge_key(edge) for edge in self._rows.edges if lit(edge)}
        other = Look.DIM if nodes or edges else Look.PLAIN
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        for tag in self._tags.values():
            tag.look = Look.LIT if tag.node.id in nodes else other
            tag.restyle(colours, self._fill(colours, tag.node), self.font())
        for key, thread in self._threads.items():
            ends = {thread.edge.tail, thread.edge.head}
            by_end = self._rows.directed and bool(ends & nodes)
            thread.look = Look.LIT if key in edges or by_end else other
            thread.restyle(colours)
            if by_end:
                self._label(key)
            if key in self._labels:
                self._labels[key].look = thread.look
                self._labels[key].restyle(colours, self.font())
                self._labels[key].setVisible(not self._rows.directed or by_end)
        self.show_ring()

    def _label(self, key: str) -> None:
        """Make an edge's label, if it has none yet; threads of steps get one only when lit."""
        if key not in self._labels:
            thread = self._threads[key]
            words = thread.edge.label.replace("-", " ")
            self._labels[key] = EdgeLabel(words, thread.middle())
            self._scene.addItem(self._labels[key])

    def look_of(self, key: str) -> Look:
        """Return how a node or edge is drawn now."""
        return self._tags[key].look if key in self._tags else self._threads[key].look

    # --- what the picture says of itself ----------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        found = {key: (tag.pos().x(), tag.pos().y()) for key, tag in self._tags.items()}
        if not self._rows.directed:
            spots = {key: thread.middle() for key, thread in self._threads.items()}
            found |= {key: (at.x(), at.y()) for key, at in spots.items()}
        return found

    def bounds(self) -> QRectF:
        box = QRectF()
        for tag in self._tags.values():
            box = box.united(tag.sceneBoundingRect())
        for thread in self._threads.values():
            box = box.united(thread.sceneBoundingRect())
        return box

    def edge_of(self, key: str) -> QPainterPath:
        return self._tags[key].outline() if key in self._tags else self._labels[key].outline()

    def key_at(self, spot: QPoint) -> str:
        at = self.mapToScene(spot)
        for item in self._scene.items(at, Qt.ItemSelectionMode.IntersectsItemShape):
            if isinstance(item, TagItem):
                return item.node.id
            if isinstance(item, EdgeLabel) and not self._rows.directed:
                return next(key for key, label in self._labels.items() if label is item)
        return ""

    # --- opening ----------------------------------------------------------------------------

    def _open(self) -> None:
        """Show all where it can be read, else the first that is lit, ready or under way."""
        if self._opened or not self._tags or not self.isVisible():
            return
        self._opened = True
        self.fit()
        if self.scale_now() >= READABLE:
            return
        self.zoom(READABLE / self.scale_now())
        ahead = self.viewport().width() / self.scale_now() / 4 if self._rows.directed else 0.0
        self.centerOn(self._tags[self.first()].pos() + QPointF(ahead, 0.0))

    def first(self) -> str:
        """Return the first tag that is lit, else under way, else ready, else the first of all."""
        tags = list(self._tags.values())
        lit = [tag for tag in tags if tag.look is Look.LIT]
        live = [tag for state in _LIVE for tag in tags if tag.node.state is state]
        return next((tag.node.id for tag in (*lit, *live, *tags)), "")

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._open()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.light(self._lit)
        if event.type() == QEvent.Type.FontChange and self._tags:
            lie = {node: (tag.pos().x(), tag.pos().y()) for node, tag in self._tags.items()}
            self._rebuild(lie)
            self.light(self._lit)


def _shape(rows: GraphRows) -> tuple[object, ...]:
    """Return what the layout depends on: ids and edges, not states."""
    edges = tuple((e.tail, e.head, e.label) for e in rows.edges)
    return (tuple(node.id for node in rows.nodes), edges, rows.directed)


def _between(points: tuple[Place, ...], half: float) -> QPainterPath:
    """Return the thread from the right side of one tag to the left side of another."""
    if not points:
        return QPainterPath()
    (x, y), (to_x, to_y) = points[0], points[-1]
    return flowing(((x + half, y), *points[1:-1], (to_x - half, to_y)))
