"""The items of a graph in their scene: tags where the layout puts them, threads between them."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont, QFontMetricsF, QPainterPath
from PySide6.QtWidgets import QGraphicsScene

from armorplan.app.rows import BenchState, GraphEdge, GraphNode, GraphRows
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.graph_layout import edge_key, laid_out
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.thread_paths import flowing, looping, straight
from armorplan.desktop.widgets.graph_items import (
    PART_WIDE,
    STEP_WIDE,
    Label,
    TagItem,
    ThreadItem,
    tag_size,
)

LIVE = (
    *(BenchState.RUNNING, BenchState.DRYING, BenchState.PAUSED),
    *(BenchState.READY, BenchState.MISSED),
)

Fill = Callable[[Colours, GraphNode], str]
Lit = Callable[[GraphNode | GraphEdge], bool]


class GraphDrawing:
    """Draws ``rows.GraphRows`` into a scene; ``fill`` gives each tag its ground."""

    def __init__(self, scene: QGraphicsScene, fill: Fill) -> None:
        self._scene = scene
        self._fill = fill
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._rows = GraphRows(nodes=(), edges=(), directed=True)
        self._lit: Lit = lambda _row: False
        self._lie: Mapping[str, Place] = {}
        self._tags: dict[str, TagItem] = {}
        self._threads: dict[str, ThreadItem] = {}
        self._labels: dict[str, Label] = {}

    @property
    def directed(self) -> bool:
        """Tell whether edges have a direction; if not, they can be chosen too."""
        return self._rows.directed

    def take(self, rows: GraphRows, lie: Mapping[str, Place]) -> bool:
        """Take new rows; return whether nodes or edges have changed, or only states."""
        before, self._rows = self._rows, rows
        anew = _shape(before) != _shape(rows)
        if anew:
            self._lie = lie
            self._rebuild()
        for node in rows.nodes:
            self._tags[node.id].node = node
        self.light(self._lit)
        return anew

    def wear(self, colours: Colours, font: QFont) -> bool:
        """Draw in these colours and this font; return whether tags have changed their size."""
        anew = font != self._font
        self._colours, self._font = colours, font
        if anew:
            self._rebuild()
        self.light(self._lit)
        return anew

    def _rebuild(self) -> None:
        for item in (*self._tags.values(), *self._threads.values(), *self._labels.values()):
            self._scene.removeItem(item)
        wide = STEP_WIDE if self._rows.directed else PART_WIDE
        size = tag_size(QFontMetricsF(self._font), wide)
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

    def _name_threads(self) -> None:
        """Give every thread its label, off the tags and off each other where there is room."""
        taken = [tag.box.translated(tag.pos()) for tag in self._tags.values()]
        for key, thread in self._threads.items():
            spots = thread.label_spots()
            label = Label(thread.edge.label, spots[0])
            label.restyle(self._colours, self._font)
            taken.append(label.settle(spots, taken))
            self._labels[key] = label

    # --- looks ------------------------------------------------------------------------------

    def light(self, lit: Lit) -> None:
        """Light the nodes and edges that ``lit`` names, and dim the rest if there are any."""
        self._lit = lit
        nodes = {node.id for node in self._rows.nodes if lit(node)}
        edges = {edge_key(edge) for edge in self._rows.edges if lit(edge)}
        other = Look.DIM if nodes or edges else Look.PLAIN
        for tag in self._tags.values():
            tag.look = Look.LIT if tag.node.id in nodes else other
            tag.restyle(self._colours, self._fill(self._colours, tag.node), self._font)
        for key, thread in self._threads.items():
            by_end = self._rows.directed and not nodes.isdisjoint(thread.ends)
            thread.look = Look.LIT if key in edges or by_end else other
            thread.restyle(self._colours)
        if self._rows.directed:
            self._hang_rules()
        for key, label in self._labels.items():
            label.look = self._threads[key].look if key in self._threads else Look.LIT
            label.restyle(self._colours, self._font)

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

    # --- where things lie -------------------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        """Return where tags lie, and the words of edges that can be chosen."""
        found = {key: (tag.pos().x(), tag.pos().y()) for key, tag in self._tags.items()}
        if not self._rows.directed:
            spots = {
                k: label.outline().boundingRect().center() for k, label in self._labels.items()
            }
            found |= {key: (at.x(), at.y()) for key, at in spots.items()}
        return found

    def first(self) -> str:
        """Return the first tag that is lit, else under way, else ready, else the first of all."""
        tags = list(self._tags.values())
        lit = [tag for tag in tags if tag.look is Look.LIT]
        live = [tag for state in LIVE for tag in tags if tag.node.state is state]
        return next((tag.node.id for tag in (*lit, *live, *tags)), "")

    def bounds(self) -> QRectF:
        """Return the box around all tags and threads."""
        box = QRectF()
        for tag in self._tags.values():
            box = box.united(tag.sceneBoundingRect())
        for thread in self._threads.values():
            box = box.united(thread.sceneBoundingRect())
        return box

    def edge_of(self, key: str) -> QPainterPath:
        """Return the outline of a tag, or of the words on a thread."""
        return self._tags[key].outline() if key in self._tags else self._labels[key].outline()

    def key_of(self, item: object) -> str:
        """Return the key of an item that can be chosen; empty for any other."""
        if isinstance(item, TagItem):
            return item.node.id
        if isinstance(item, Label) and not self._rows.directed:
            return next(key for key, label in self._labels.items() if label is item)
        return ""


def _shape(rows: GraphRows) -> tuple[object, ...]:
    """Return what the layout depends on: ids and edges, not states."""
    edges = tuple((e.tail, e.head, e.label) for e in rows.edges)
    return (tuple(node.id for node in rows.nodes), edges, rows.directed)
