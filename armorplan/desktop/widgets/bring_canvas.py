"""The drawing that is brought in: large, to scale, walked by keys, with what is asked about lit."""

from collections.abc import Collection, Mapping
from math import hypot

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainterPath, QResizeEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.bringing.answering import Fact
from armorplan.desktop.bring_view import BringView, Ghost
from armorplan.desktop.bring_words import KEY_OF, shape_words
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.bring_ghost import GhostItem
from armorplan.desktop.widgets.bring_items import HolesItem, NamePlate, ShapeItem
from armorplan.desktop.widgets.parts_overlays import ScaleBar
from armorplan.desktop.widgets.picture_view import RING_Z, PictureView
from armorplan.geometry.brought.model import Shape, ShapeKind
from armorplan.pattern.parts import Point

REACH_PX, RING_PX = 10.0, 11.0
BAR_OFF_PX = 8
REVEALED_MOST = 60
"""More shapes than this lie all over the drawing: the view stays where it is."""
NAME_SHARES = (0.0, -0.4, 0.4, -0.75, 0.75)
"""Where a name may stand in its part: shares of the way from the middle to the top and bottom."""
NAMED_MOST = 12
"""The names of so few parts that are asked about are written however small they are."""
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
        self._items: dict[str, ShapeItem] = {}
        self._names: dict[str, NamePlate] = {}
        self._shapes: Mapping[str, Shape] = {}
        self._paths: Mapping[str, QPainterPath] = {}
        self._places: Mapping[str, Place] = {}
        self._bounds = QRectF()
        self._holes: dict[str, HolesItem] = {}
        self._taken: dict[str, list[QRectF]] = {}
        self._held: dict[str, list[Shape]] = {}
        self._lit: frozenset[str] = frozenset()
        self.ghost = GhostItem()
        self.ghost.setZValue(RING_Z - 1)
        self._scene.addItem(self.ghost)
        self._bar = ScaleBar(self)
        self.foot_px = self._bar.sizeHint().height() + BAR_OFF_PX
        self.zoomed.connect(self._bar.take_scale)
        self.zoomed.connect(self._show_names)
        self.zoomed.connect(lambda _scale: self.show_ring())
        self.hands.walked.connect(self._speak)
        self._restyle()

    # --- what is drawn ------------------------------------------------------------------------

    def show_view(self, view: BringView) -> None:
        """Draw the shapes of a view; what is drawn the same way stays as it is."""
        shapes = {shape.key: shape for shape in view.found.shapes}
        self._draw_holes(view.found.shapes)
        for key in [k for k in self._items if shapes.get(k) != self._shapes[k]]:
            self._drop(key)
        colours = colours_of(self.palette())
        for key, shape in shapes.items():
            if key not in self._items and not _is_round_hole(shape):
                self._items[key] = item = ShapeItem(shape, view.paths[key])
                item.wear(colours, lit=key in self._lit)
                self._scene.addItem(item)
            if shape.kind is ShapeKind.PART and shape.name and key not in self._names:
                self._add_name(shape)
        was_empty = not self._shapes
        self._shapes, self._paths, self._places = shapes, view.paths, view.places
        self._take_cuts(view)
        left, top, right, bottom = view.box
        self._bounds = QRectF(left, top, right - left, bottom - top)
        self.set_room()
        if was_empty:
            self.fit()
        self._show_names(self.scale_now())
        self.show_ring()

    def _draw_holes(self, shapes: tuple[Shape, ...]) -> None:
        """Draw the round holes, those of a part together."""
        within: dict[str, list[Shape]] = {}
        for shape in shapes:
            if _is_round_hole(shape):
                within.setdefault(shape.inside, []).append(shape)
        for part in [p for p in self._holes if within.get(p) != self._held.get(p)]:
            self._scene.removeItem(self._holes.pop(part))
        for part, holes in within.items():
            if part not in self._holes:
                self._holes[part] = HolesItem(holes)
                self._holes[part].wear(colours_of(self.palette()), self._lit)
                self._scene.addItem(self._holes[part])
        self._held = within

    def _take_cuts(self, view: BringView) -> None:
        """Remember what is cut into each part: names keep off it."""
        self._taken = {}
        for shape in view.found.shapes:
            if shape.kind in (ShapeKind.HOLE, ShapeKind.SLOT):
                box = view.paths[shape.key].boundingRect()
                self._taken.setdefault(shape.inside, []).append(box)

    def _drop(self, key: str) -> None:
        self._scene.removeItem(self._items.pop(key))
        if key in self._names:
            self._scene.removeItem(self._names.pop(key))

    def _add_name(self, shape: Shape) -> None:
        name = NamePlate(shape.name)
        name.setZValue(RING_Z - 2)
        name.wear(colours_of(self.palette()), self.font())
        self._scene.addItem(name)
        self._names[shape.key] = name

    def _show_names(self, scale: float) -> None:
        """Write names on the parts, clear of what is cut into them; of parts asked about, else below."""
        asked = self._lit & self._names.keys()
        for key, name in self._names.items():
            box, size = self._paths[key].boundingRect(), name.boundingRect().size() / scale
            below = QPointF(box.center().x() - size.width() / 2, box.bottom())
            at = below if key in asked and len(asked) <= NAMED_MOST else None
            if size.width() <= box.width() and size.height() <= box.height():
                at = self._clear_of_holes(key, box, size) or at
            name.setVisible(at is not None)
            name.setPos(at or box.center())

    def _clear_of_holes(self, part: str, box: QRectF, size: QSizeF) -> QPointF | None:
        """Return where a name of a size covers no hole or slot: in the middle, else higher or lower."""
        taken = self._taken.get(part, ())
        room = (box.height() - size.height()) / 2
        for share in NAME_SHARES:
            centre = QPointF(box.center().x(), box.center().y() + share * room)
            place = QRectF(QPointF(), size)
            place.moveCenter(centre)
            if not any(place.intersects(cut) for cut in taken):
                return place.topLeft()
        return None

    def light(self, keys: Collection[str]) -> None:
        """Light what is asked about, and bring it into view where it is not."""
        wanted = frozenset(keys)
        colours = colours_of(self.palette())
        for holes in self._holes.values():
            holes.wear(colours, wanted)
        for key in wanted ^ self._lit:
            if key in self._items:
                self._items[key].wear(colours, lit=key in wanted)
        self._lit = wanted
        self._show_names(self.scale_now())
        if len(wanted) > REVEALED_MOST:
            return
        box = self._box_of(wanted)
        view = self.mapToScene(self.viewport().rect()).boundingRect()
        if not box.isEmpty() and not view.contains(box):
            self.ensureVisible(box) if box.width() < view.width() else self.fit()

    def go_near(self, keys: Collection[str]) -> None:
        """Show some shapes as large as they can be with what lies around them."""
        box = self._box_of(keys)
        around = max(AROUND_MM, AROUND_SHARE * max(box.width(), box.height()))
        near = box.adjusted(-around, -around, around, around)
        self.fit_to(QRectF() if box.isEmpty() else near.intersected(self._bounds))

    def _box_of(self, keys: Collection[str]) -> QRectF:
        box = QRectF()
        for key in keys:
            if key in self._paths:
                box = box.united(self._paths[key].boundingRect())
        return box

    def show_ghost(self, ghost: Ghost | None) -> None:
        """Draw what fits what, or nothing."""
        self.ghost.show_ghost(ghost)

    def measure(self, wanted: bool) -> None:
        """Have clicks mark points to be measured between, or not."""
        self._is_measuring = wanted

    def shape_at(self, key: str) -> Shape | None:
        """Return a shape by its key."""
        return self._shapes.get(key)

    def words_of(self, key: str) -> str:
        """Say what a shape is taken for; empty where there is none."""
        shape = self._shapes.get(key)
        if shape is None:
            return ""
        holder = self._shapes.get(shape.inside)
        return shape_words(shape, holder.name if holder else "")

    def _speak(self, key: str) -> None:
        announce(self, self.words_of(key))

    # --- what the picture says of itself ------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self._places

    def bounds(self) -> QRectF:
        return self._bounds

    def edge_of(self, key: str) -> QPainterPath:
        path = self._paths.get(key, QPainterPath())
        box, least_mm = path.boundingRect(), 2 * RING_PX / self.scale_now()
        if key not in self._paths or max(box.width(), box.height()) >= least_mm:
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
        shape = self._shapes.get(self.key_at(spot))
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
        for key, item in self._items.items():
            item.wear(colours, lit=key in self._lit)
        for holes in self._holes.values():
            holes.wear(colours, self._lit)
        for name in self._names.values():
            name.wear(colours, self.font())
        self._show_names(self.scale_now())
        self.show_ring()


def _is_round_hole(shape: Shape) -> bool:
    return shape.kind is ShapeKind.HOLE and shape.circle is not None


def _apart(corner: Point, at: QPointF) -> float:
    return hypot(corner[0] - at.x(), corner[1] - at.y())
