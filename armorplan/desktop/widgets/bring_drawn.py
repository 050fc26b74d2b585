"""What is drawn of a drawing that is brought in: its shapes, with names on the parts."""

from collections.abc import Collection, Mapping

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QFont, QPainterPath
from PySide6.QtWidgets import QGraphicsScene

from armorplan.desktop.bring_view import BringView
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.widgets.bring_items import HolesItem, NamePlate, ShapeItem
from armorplan.desktop.widgets.picture_view import RING_Z
from armorplan.geometry.brought.model import Shape, ShapeKind

NAME_SHARES = (0.0, -0.4, 0.4, -0.75, 0.75)
"""Where a name may stand in its part: shares of the way from the middle to the top and bottom."""
NAMED_MOST = 12
"""The names of so few parts that are asked about are written however small they are."""


class DrawnShapes:
    """Keeps the items of a scene; what is drawn the same way from view to view stays as it is."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._colours, self._font = LIGHT, QFont()
        self.items: dict[str, ShapeItem] = {}
        self.holes: dict[str, HolesItem] = {}
        self.names: dict[str, NamePlate] = {}
        self.shapes: Mapping[str, Shape] = {}
        self.paths: Mapping[str, QPainterPath] = {}
        self.lit: frozenset[str] = frozenset()
        self._taken: dict[str, list[QRectF]] = {}
        self._held: dict[str, list[Shape]] = {}

    def show_view(self, view: BringView) -> None:
        """Draw the shapes of a view."""
        shapes = {shape.key: shape for shape in view.found.shapes}
        self._draw_holes(view.found.shapes)
        for key in [k for k in self.items if shapes.get(k) != self.shapes[k]]:
            self._drop(key)
        for key, shape in shapes.items():
            if key not in self.items and not _is_round_hole(shape):
                self.items[key] = item = ShapeItem(shape, view.paths[key])
                item.wear(self._colours, lit=key in self.lit)
                self._scene.addItem(item)
            if shape.kind is ShapeKind.PART and shape.name and key not in self.names:
                self._add_name(shape)
        self.shapes, self.paths = shapes, view.paths
        self._take_cuts(view)

    def _draw_holes(self, shapes: tuple[Shape, ...]) -> None:
        """Draw the round holes, those of a part together."""
        within: dict[str, list[Shape]] = {}
        for shape in shapes:
            if _is_round_hole(shape):
                within.setdefault(shape.inside, []).append(shape)
        for part in [p for p in self.holes if within.get(p) != self._held.get(p)]:
            self._scene.removeItem(self.holes.pop(part))
        for part, holes in within.items():
            if part not in self.holes:
                self.holes[part] = HolesItem(holes)
                self.holes[part].wear(self._colours, self.lit)
                self._scene.addItem(self.holes[part])
        self._held = within

    def _take_cuts(self, view: BringView) -> None:
        """Remember what is cut into each part: names keep off it."""
        self._taken = {}
        for shape in view.found.shapes:
            if shape.kind in (ShapeKind.HOLE, ShapeKind.SLOT):
                box = view.paths[shape.key].boundingRect()
                self._taken.setdefault(shape.inside, []).append(box)

    def _drop(self, key: str) -> None:
        self._scene.removeItem(self.items.pop(key))
        if key in self.names:
            self._scene.removeItem(self.names.pop(key))

    def _add_name(self, shape: Shape) -> None:
        name = NamePlate(shape.name)
        name.setZValue(RING_Z - 2)
        name.wear(self._colours, self._font)
        self._scene.addItem(name)
        self.names[shape.key] = name

    def call(self, names: Mapping[str, str]) -> None:
        """Write these names on parts, on others their own."""
        for key, plate in self.names.items():
            plate.setText(names.get(key, self.shapes[key].name))

    # --- names --------------------------------------------------------------------------------

    def place_names(self, scale: float) -> None:
        """Write names on the parts, clear of what is cut into them; of parts asked about, else below."""
        asked = self.lit & self.names.keys()
        for key, name in self.names.items():
            box, size = self.paths[key].boundingRect(), name.boundingRect().size() / scale
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

    # --- looks --------------------------------------------------------------------------------

    def light(self, wanted: frozenset[str]) -> None:
        """Light some of the shapes, and no others."""
        for holes in self.holes.values():
            holes.wear(self._colours, wanted)
        for key in wanted ^ self.lit:
            if key in self.items:
                self.items[key].wear(self._colours, lit=key in wanted)
        self.lit = wanted

    def wear(self, colours: Colours, font: QFont) -> None:
        """Be drawn in these colours, names in this font."""
        self._colours, self._font = colours, font
        for key, item in self.items.items():
            item.wear(colours, lit=key in self.lit)
        for holes in self.holes.values():
            holes.wear(colours, self.lit)
        for name in self.names.values():
            name.wear(colours, font)

    def box_of(self, keys: Collection[str]) -> QRectF:
        """Return the box around some shapes, in mm; an empty one around none."""
        box = QRectF()
        for key in keys:
            if key in self.paths:
                box = box.united(self.paths[key].boundingRect())
        return box


def _is_round_hole(shape: Shape) -> bool:
    return shape.kind is ShapeKind.HOLE and shape.circle is not None
