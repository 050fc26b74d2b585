"""The drawing of a graph: tags where the layout puts them, threads between them."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainterPath, QShowEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import BenchState, GraphEdge, GraphNode, GraphRows
from armorplan.desktop.colours import Colours
from armorplan.desktop.graph_layout import edge_key, laid_out
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.graph_items import (
    PART_WIDE,
    STEP_WIDE,
    Label,
    TagItem,
    ThreadItem,
    flowing,
    looping,
    straight,
    tag_size,
)
from armorplan.desktop.widgets.picture_view import PictureView

READABLE = 0.7
"""The picture opens no smaller than this, on what can be done now; ``0`` shows all of it."""

_LIVE = (BenchState.RUNNING, BenchState.DRYING, BenchState.PAUSED, BenchState.READY)

Fill = Callable[[Colours, GraphNode], str]
Lit = Callable[[GraphNode | GraphEdge], bool]


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
        self._labels: dict[str, Label] = {}
        self._lie: Mapping[str, Place] = {}
        self._opened = False

    def show_graph(self, rows: GraphRows, lie: Mapping[str, Place]) -> None:
        """Take new rows; the layout is made anew only where nodes or edges have changed."""
        before, self._rows = self._rows, rows
        if _shape(before) != _shape(rows):
            self._lie = lie
            self._rebuild()
        for node in rows.nodes:
            self._tags[node.id].node = node
        self.light(self._lit)

    def _rebuild(self) -> None:
        for item in (*self._tags.values(), *self._threads.values(), *self._labels.values()):
            self._scene.removeItem(item)
        wide = STEP_WIDE if self._rows.directed else PART_WIDE
        size = tag_size(QFontMetricsF(self.font()), wide)
        laid = laid_out(self._rows, size, self._lie)
        self._tags = {node.id: TagItem(node, size) for node in self._rows.nodes}
        self._threads, self._labels = {}, {}
        for node, tag in self._tags.items():
            tag.setPos(*laid.centres[node])
        draw = flowing if self._rows.directed else straight
        for edge in self._rows.edges:
            route = laid.routes.get(edge_key(edge), ())
            path = draw(route) if len(route) > 1 else looping(self._tags[edge.head].pos(), size)
            self._threads[edge_key(edge)] = ThreadItem(edge, path, directed=self._rows.directed)
        if not self._rows.directed:
            self._name_threads()
        for item in (*self._threads.values(), *self._tags.values(), *self._labels.values()):
            self._scene.addItem(item)
        self._opened = False
        self.set_room()
        self._open()

    def _name_threads(self) -> None:
        """Give every thread its label, off the tags and off each other where there is room."""
        taken = [tag.box.translated(tag.pos()) for tag in self._tags.values()]
        for key, thread in self._threads.items():
            spots = thread.label_spots()
            label = Label(thread.edge.label, spots[0])
            label.restyle(colours_of(self.palette()), self.font())
            taken.append(label.settle(spots, taken))
            self._labels[key] = label

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
            by_end = self._rows.directed and not nodes.isdisjoint(thread.ends)
            thread.look = Look.LIT if key in edges or by_end else other
            thread.restyle(colours)
        if self._rows.directed:
            self._hang_rules()
        for key, label in self._labels.items():
            label.look = self._threads[key].look if key in self._threads else Look.LIT
            label.restyle(colours, self.font())
        self.show_ring()

    def _hang_rules(self) -> None:
        """Hang the rules of the lit threads on the tags they lead to."""
        for label in self._labels.values():
            self._scene.removeItem(label)
        rules: dict[str, list[str]] = {}
        for thread in self._threads.values():
            if thread.look is Look.LIT:
                words = thread.edge.label.replace("-", " ")
                rules.setdefault(thread.edge.head, []).append(words)
        self._labels = {}
        for head, found in rules.items():
            box = self._tags[head].box.translated(self._tags[head].pos())
            at = QPointF(box.center().x(), box.top())
            label = Label("; ".join(dict.fromkeys(found)), at, box.width())
            self._labels[f"rule:{head}"] = label
            self._scene.addItem(label)

    def look_of(self, key: str) -> Look:
        """Return how a node or edge is drawn now."""
        return self._tags[key].look if key in self._tags else self._threads[key].look

    # --- what the picture says of itself ----------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        found = {key: (tag.pos().x(), tag.pos().y()) for key, tag in self._tags.items()}
        if not self._rows.directed:
            spots = {
                key: label.outline().boundingRect().center() for key, label in self._labels.items()
            }
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
            if isinstance(item, Label) and not self._rows.directed:
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
        self.centerOn(self._tags[self.first()].pos())
        self._keep_inside()

    def _keep_inside(self) -> None:
        """Show no empty ground beside the picture where the picture could stand."""
        view = self.viewport().rect()
        box = self.mapFromScene(self.bounds().adjusted(-20, -20, 20, 20)).boundingRect()
        left = _into(box.left(), box.right(), view.width())
        top = _into(box.top(), box.bottom(), view.height())
        self.pan_by(QPoint(left, top))

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
            self._rebuild()
            self.light(self._lit)


def _into(low: int, high: int, room: int) -> int:
    """Return how far to move over a stretch so that it fills the room, or stands in its middle."""
    if high - low <= room:
        return (low + high - room) // 2
    return low if low > 0 else min(high - room, 0)


def _shape(rows: GraphRows) -> tuple[object, ...]:
    """Return what the layout depends on: ids and edges, not states."""
    edges = tuple((e.tail, e.head, e.label) for e in rows.edges)
    return (tuple(node.id for node in rows.nodes), edges, rows.directed)
