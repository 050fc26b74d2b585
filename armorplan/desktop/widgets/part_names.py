"""The names of the parts over the drawing: which can be read at a zoom, and where they stand."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QGraphicsItemGroup, QGraphicsScene

from armorplan.desktop.name_places import name_place
from armorplan.desktop.picture_colours import Coat, Look
from armorplan.desktop.widgets.parts_items import PLAIN_SCALE, PartItem
from armorplan.desktop.widgets.parts_overlays import NameItem

PLACED_MOST = 60
"""Names of more parts than this stay where the rows put them: seeking would cost a frame."""


class PartNames:
    """One name a part, shown where the part is drawn long enough for it, or is lit."""

    def __init__(self, scene: QGraphicsScene, z: float) -> None:
        self._group = QGraphicsItemGroup()
        self._group.setZValue(z)
        scene.addItem(self._group)
        self._scene = scene
        self._scale = 1.0
        self._items: Mapping[str, PartItem] = {}
        self._names: dict[str, NameItem] = {}
        self._placed: tuple[float, tuple[str, ...]] = (0.0, ())

    def take(self, items: Mapping[str, PartItem], font: QFont) -> None:
        """Name these parts in this font."""
        for name in self._names.values():
            self._scene.removeItem(name)
        self._items, self._names = items, {}
        for part_id, item in items.items():
            box = item.outline.boundingRect()
            self._names[part_id] = NameItem(item.part, max(box.width(), box.height()), self._group)
        self.write_in(font)

    def write_in(self, font: QFont) -> None:
        """Write in this font."""
        self._placed = (0.0, ())
        for name in self._names.values():
            name.set_font(font)
        self.show()

    def wear(self, part_id: str, coat: Coat) -> None:
        """Write a part's name in its colours."""
        self._names[part_id].wear(coat)

    def zoom_to(self, scale: float) -> None:
        """Show what can be read at so many pixels to the mm."""
        self._scale = scale
        self.show()

    def show(self) -> None:
        """Show the names that fit, and those of lit parts, each in its place."""
        self._group.setVisible(self._scale >= PLAIN_SCALE)
        if self._scale < PLAIN_SCALE:
            return
        shown = []
        for part_id, name in self._names.items():
            fits = self._items[part_id].look is Look.LIT or name.fits(self._scale)
            name.setVisible(fits)
            shown += [part_id] if fits else []
        placing = (self._scale, tuple(shown))
        if len(shown) <= PLACED_MOST and placing != self._placed:
            self._placed = placing
            self._place(shown)

    def _place(self, shown: Sequence[str]) -> None:
        """Put names where they cover no mark, no other part and no other name."""
        boxes = {part: item.outline.boundingRect() for part, item in self._items.items()}
        names: list[QRectF] = []
        for part_id in shown:
            item, name = self._items[part_id], self._names[part_id]
            wide, high = (side / self._scale for side in name.size_px())
            wanted = QPointF(*item.part.label_at)
            others = [box for part, box in boxes.items() if part != part_id] + names
            taken = item.taken(self._scale)
            spot = name_place(item.outline, wanted, (wide, high), taken, others)
            name.setPos(spot)
            names.append(QRectF(spot.x() - wide / 2, spot.y() - high / 2, wide, high))

    def shown(self) -> tuple[str, ...]:
        """Return the parts whose names can be read at the present zoom."""
        return tuple(part for part, name in self._names.items() if name.isVisible())
