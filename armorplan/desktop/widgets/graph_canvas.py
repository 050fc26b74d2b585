"""A graph as one sees and handles it: opens where work goes on, walks, hits."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QPoint, QRectF, Qt
from PySide6.QtGui import QColor, QPainterPath, QShowEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import GraphRows
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.graph_drawing import Fill, GraphDrawing, Lit
from armorplan.desktop.widgets.picture_view import PictureView

READABLE = 0.7
"""The picture opens no smaller than this, on what can be done now; ``0`` shows all of it."""
SMALL_GRAPH = 15
"""A graph of so few tags opens whole, whatever its scale."""


class GraphCanvas(PictureView):
    """Shows ``rows.GraphRows``. Keys are node ids, and ``edge:TAIL|HEAD`` where edges are chosen.

    A graph without direction lies as its parts lie in the drawing; a directed one in layers.
    """

    most_scale = 3.0

    def __init__(self, fill: Fill, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.drawing = GraphDrawing(self._scene, fill)
        self._opened = False
        self._restyle()

    def show_graph(self, rows: GraphRows, lie: Mapping[str, Place]) -> None:
        """Take new rows; ``lie`` tells where the parts of an undirected graph lie."""
        if self.drawing.take(rows, lie):
            self._begin()
        self.show_ring()

    def light(self, lit: Lit) -> None:
        """Light the nodes and edges that ``lit`` names, and dim the rest if there are any."""
        self.drawing.light(lit)
        self.show_ring()

    def look_of(self, key: str) -> Look:
        """Return how a node or edge is drawn now."""
        return self.drawing.look_of(key)

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        if self.drawing.wear(colours, self.font()):
            self._begin()
        self.show_ring()

    # --- what the picture says of itself ----------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self.drawing.places()

    def first(self) -> str:
        return self.drawing.first()

    def bounds(self) -> QRectF:
        return self.drawing.bounds()

    def edge_of(self, key: str) -> QPainterPath:
        return self.drawing.edge_of(key)

    def key_at(self, spot: QPoint) -> str:
        found = self._scene.items(self.mapToScene(spot), Qt.ItemSelectionMode.IntersectsItemShape)
        return next((key for item in found if (key := self.drawing.key_of(item))), "")

    # --- opening ----------------------------------------------------------------------------

    def _begin(self) -> None:
        self._opened = False
        self.set_room()
        self._open()

    def _open(self) -> None:
        """Show all where it can be read, else the first that is lit, ready or under way."""
        if self._opened or not self.drawing.first() or not self.isVisible():
            return
        self._opened = True
        self.fit()
        tags = sum(not key.startswith("edge:") for key in self.places())
        if self.scale_now() >= READABLE or tags <= SMALL_GRAPH:
            return
        self.zoom(READABLE / self.scale_now())
        self.centerOn(self.edge_of(self.first()).boundingRect().center())
        self._keep_inside()

    def _keep_inside(self) -> None:
        """Show no empty ground beside the picture where the picture could stand."""
        view = self.viewport().rect()
        box = self.mapFromScene(self.bounds().adjusted(-20, -20, 20, 20)).boundingRect()
        left = _into(box.left(), box.right(), view.width())
        top = _into(box.top(), box.bottom(), view.height())
        self.pan_by(QPoint(left, top))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._open()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._restyle()


def _into(low: int, high: int, room: int) -> int:
    """Return how far to move over a stretch so that it fills the room, or stands in its middle."""
    if high - low <= room:
        return (low + high - room) // 2
    return low if low > 0 else min(high - room, 0)
