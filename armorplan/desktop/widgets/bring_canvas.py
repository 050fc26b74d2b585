"""The drawing that is brought in: large, to scale, walked by keys, with what is asked about lit."""

from collections.abc import Collection, Mapping
from math import hypot

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainterPath, QResizeEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.bringing.answering import Fact
from armorplan.desktop.bring_view import BringView, Ghost
from armorplan.desktop.bring_words import KEY_OF, shape_words
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.bring_drawn import DrawnShapes
from armorplan.desktop.widgets.bring_ghost import GhostItem
from armorplan.desktop.widgets.bring_items import HolesItem, ShapeItem
from armorplan.desktop.widgets.parts_overlays import ScaleBar
from armorplan.desktop.widgets.picture_view import RING_Z, PictureView
from armorplan.geometry.brought.model import Shape
from armorplan.pattern.parts import Point

REACH_PX, RING_PX = 10.0, 11.0
BAR_OFF_PX = 8
REVEALED_MOST = 60
"""More shapes than this lie all over the drawing: the view stays where it is."""
AROUND_MM, AROUND_SHARE = 30.0, 0.4
"""Shown around what one goes near to, at least and of its size."""
KIND_OF = {key: kind for kind, key in KEY_OF.items()}
AS_LETTER = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
FACT_OF = {
    Qt.Key.Key_N: Fact.NAME,
    Qt.Key.Key_K: Fact.KIND,
    Qt.Key.Key_L: Fact.MATERIAL,
    Qt.Key.Key_G: Fact.PIECE,
}
"""The key with which something is said of the part that holds the ring, or that this lies in."""


class BringCanvas(PictureView):
    """Keys of the picture are those of the shapes.

    ``kind_said`` carries a kind that was pressed for what holds the ring, ``fact_wanted`` what is
    to be said of its part, ``marked`` that a point of it is to be measured from or to: where it
    was clicked, else its middle.
    """

    kind_said = Signal(object)
    fact_wanted = Signal(object)
    marked = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_canvas")
        self.setAccessibleName(self.tr("The drawing"))
        self.setMinimumSize(240, 120)
        self._is_measuring = False
        self.drawn = DrawnShapes(self._scene)
        self._places: Mapping[str, Place] = {}
        self._bounds = QRectF()
        self.ghost = GhostItem()
        self.ghost.setZValue(RING_Z - 1)
        self._scene.addItem(self.ghost)
        self._bar = ScaleBar(self)
        self.foot_px = self._bar.sizeHint().height() + BAR_OFF_PX
        self.zoomed.connect(self._bar.take_scale)
        self.zoomed.connect(self.drawn.place_names)
        self.zoomed.connect(lambda _scale: self.show_ring())
        self.hands.walked.connect(self._speak)
        self._restyle()

    # --- what is drawn ------------------------------------------------------------------------

    def show_view(self, view: BringView) -> None:
        """Draw the shapes of a view; what is drawn the same way stays as it is."""
        was_empty = not self.drawn.shapes
        self.drawn.show_view(view)
        self._places = view.places
        left, top, right, bottom = view.box
        self._bounds = QRectF(left, top, right - left, bottom - top)
        self.set_room()
        if was_empty:
            self.fit()
        self.drawn.place_names(self.scale_now())
        self.show_ring()

    def light(self, keys: Collection[str]) -> None:
        """Light what is asked about, and bring it into view where it is not."""
        wanted = frozenset(keys)
        self.drawn.light(wanted)
        self.drawn.place_names(self.scale_now())
        if len(wanted) > REVEALED_MOST:
            return
        box = self.drawn.box_of(wanted)
        view = self.mapToScene(self.viewport().rect()).boundingRect()
        if not box.isEmpty() and not view.contains(box):
            self.ensureVisible(box) if box.width() < view.width() else self.fit()

    def call(self, names: Mapping[str, str]) -> None:
        """Write on parts what a question calls them."""
        self.drawn.call(names)
        self.drawn.place_names(self.scale_now())

    def go_near(self, keys: Collection[str]) -> None:
        """Show some shapes, and what is laid on them, as large as they can be with what is around."""
        box = self.drawn.box_of(keys).united(self.ghost.laid_box())
        around = max(AROUND_MM, AROUND_SHARE * max(box.width(), box.height()))
        near = box.adjusted(-around, -around, around, around)
        self.fit_to(QRectF() if box.isEmpty() else near.intersected(self._bounds.united(box)))

    def show_ghost(self, ghost: Ghost | None) -> None:
        """Draw what fits what, or nothing."""
        self.ghost.show_ghost(ghost)

    def measure(self, wanted: bool) -> None:
        """Have clicks mark points to be measured between, or not."""
        self._is_measuring = wanted

    def shape_at(self, key: str) -> Shape | None:
        """Return a shape by its key."""
        return self.drawn.shapes.get(key)

    def words_of(self, key: str) -> str:
        """Say what a shape is taken for; empty where there is none."""
        shape = self.drawn.shapes.get(key)
        if shape is None:
            return ""
        holder = self.drawn.shapes.get(shape.inside)
        return shape_words(shape, holder.name if holder else "")

    def _speak(self, key: str) -> None:
        announce(self, self.words_of(key))

    # --- what the picture says of itself ------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self._places

    def bounds(self) -> QRectF:
        return self._bounds

    def edge_of(self, key: str) -> QPainterPath:
        path = self.drawn.paths.get(key, QPainterPath())
        box, least_mm = path.boundingRect(), 2 * RING_PX / self.scale_now()
        if key not in self.drawn.paths or max(box.width(), box.height()) >= least_mm:
            return path
        ring = QPainterPath()  # around what is too small for a line of its own to be seen
        ring.addEllipse(box.center(), least_mm / 2, least_mm / 2)
        return ring

    def key_at(self, spot: QPoint) -> str:
        at, reach_mm = self.mapToScene(spot), REACH_PX / self.scale_now()
        near = QRectF(at.x() - reach_mm, at.y() - reach_mm, 2 * reach_mm, 2 * reach_mm)
        found = [
            (item.area_mm2(), key)
            for item in self._scene.items(near, Qt.ItemSelectionMode.IntersectsItemBoundingRect)
            if isinstance(item, ShapeItem | HolesItem) and (key := item.key_near(at, reach_mm))
        ]
        return min(found)[1] if found else ""

    def point_near(self, spot: QPoint) -> Point:
        """Return the corner or middle of a shape that lies nearest to a point of the viewport, in mm."""
        at, reach_mm = self.mapToScene(spot), REACH_PX / self.scale_now()
        shape = self.drawn.shapes.get(self.key_at(spot))
        corners: tuple[Point, ...] = ()
        if shape is not None:
            corners = (shape.circle[0],) if shape.circle else shape.points
        near = min(corners, key=lambda c: _apart(c, at), default=None)
        if near is None or _apart(near, at) > reach_mm:
            return (at.x(), at.y())
        return near

    # --- events -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        plain = not event.modifiers()
        here = self.hands.here
        if plain and here and key in KIND_OF:
            self.kind_said.emit(KIND_OF[key])
        elif event.modifiers() in AS_LETTER and key in FACT_OF:
            self.fact_wanted.emit(FACT_OF[key])
        elif plain and here and key == Qt.Key.Key_M:
            self.marked.emit(self._places[here])
        else:
            super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._is_measuring and event.button() == Qt.MouseButton.LeftButton:
            self.marked.emit(self.point_near(event.position().toPoint()))
        super().mouseReleaseEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._bar.move(BAR_OFF_PX, self.height() - self._bar.height() - BAR_OFF_PX)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._restyle()

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        self.ghost.colours, self.ghost.font = colours, self.font()
        self.ghost.update()
        self.drawn.wear(colours, self.font())
        self.drawn.place_names(self.scale_now())
        self.show_ring()


def _apart(corner: Point, at: QPointF) -> float:
    return hypot(corner[0] - at.x(), corner[1] - at.y())
