"""The names of the parts over the drawing: which can be read at a zoom, and where they stand."""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QGraphicsItemGroup, QGraphicsScene

from armorplan.desktop.name_places import LEADS, Ground, lead_to, name_place
from armorplan.desktop.picture_colours import Coat, Look
from armorplan.desktop.widgets.parts_items import PartItem
from armorplan.desktop.widgets.parts_overlays import NameItem
from armorplan.desktop.widgets.side_heads import SideHeads

PLACED_MOST = 120
"""Names of more parts than this stay where the rows put them: seeking would cost a frame."""
LEAST_SCALE = 0.1
"""Below so many pixels to the mm no name is shown: it would be longer than any part."""
OVER_OTHERS_MOST = 3
"""So many lit parts at most have their names over other parts, where nothing is left."""

Spots = Mapping[str, QPointF]


class PartNames:
    """One name a part, shown where there is room; chosen parts come before the others.

    What is chosen moves no name: it only brings in its own where there was no room for it, and
    takes away those that it then lies on.
    """

    def __init__(self, scene: QGraphicsScene, z: float) -> None:
        self._group = QGraphicsItemGroup()
        self._group.setZValue(z)
        scene.addItem(self._group)
        self._scene = scene
        self._scale = 1.0
        self._room = QRectF()
        self._items: Mapping[str, PartItem] = {}
        self._names: dict[str, NameItem] = {}
        self._bounds: dict[str, QRectF] = {}
        self._placed: tuple[float, QRectF] = (0.0, QRectF())
        self._spots: Spots = {}
        self._lit_spots: tuple[tuple[str, ...], Spots] = ((), {})
        self._off_px = 0.0
        self._hidden = QRectF()
        self.heads = SideHeads(self._group)

    def take(self, items: Mapping[str, PartItem], font: QFont) -> None:
        """Name these parts in this font; they show from the next ``zoom_to`` on."""
        self._scale = 0.0
        for name in self._names.values():
            self._scene.removeItem(name)
        self._items, self._names = items, {}
        self._bounds = {part: item.outline.boundingRect() for part, item in items.items()}
        self.heads.take([item.part for item in items.values()], font)
        for part_id, item in items.items():
            box = item.outline.boundingRect()
            long_mm = max(box.width(), box.height())
            words = self.heads.short_name(item.part)
            self._names[part_id] = NameItem(item.part, words, long_mm, self._group)
        self.write_in(font)

    def write_in(self, font: QFont) -> None:
        """Write in this font."""
        self._placed = (0.0, QRectF())
        self.heads.write_in(font)
        for name in self._names.values():
            name.set_font(font)
        self.show()

    def keep_off(self, marks_px: float) -> None:
        """Seek places off marks of this size over the fasteners from the next ``zoom_to`` on."""
        if marks_px != self._off_px:
            self._off_px = marks_px
            self._placed = (0.0, QRectF())

    def wear(self, part_id: str, coat: Coat) -> None:
        """Write a part's name in its colours."""
        self._names[part_id].wear(coat)

    def zoom_to(self, scale: float, room: QRectF, hidden: QRectF = QRectF()) -> None:
        """Show what can be read at so many pixels to the mm, within a room of the drawing.

        ``hidden`` is what something over the drawing hides of it: nothing is to be read there.
        """
        self._scale, self._room, self._hidden = scale, room, hidden
        self.show()

    def show(self) -> None:
        """Show the names that have a place, those of lit parts before the others."""
        self._group.setVisible(self._scale >= LEAST_SCALE)
        if self._scale < LEAST_SCALE:
            return
        self.heads.zoom_to(self._scale)
        if self._placed != (self._scale, self._room):
            self._placed = (self._scale, self._room)
            self._spots = self._free_spots()
            self._lit_spots = ((), self._spots)
        # Every tick lights anew what is chosen; seeking its names again would cost a frame.
        lit = tuple(part for part, item in self._items.items() if item.look is Look.LIT)
        if self._lit_spots[0] != lit:
            self._lit_spots = (lit, self._with_lit(self._spots, lit))
        spots = self._lit_spots[1]
        for part_id, name in self._names.items():
            name.setVisible(part_id in spots)
            if part_id in spots:
                name.setPos(spots[part_id])
                name.lead(self._lead_px(part_id, spots[part_id]))

    def _lead_px(self, part_id: str, spot: QPointF) -> QPointF | None:
        """Return where the line to a name begins, in pixels off its middle; none at its part."""
        start = lead_to(self._bounds[part_id], self._box(part_id, spot))
        return None if start is None else (start - spot) * self._scale

    def _free_spots(self) -> Spots:
        """Return a place for each name that has one; the longest parts choose first."""
        if len(self._names) > PLACED_MOST:
            fitting = [part for part, name in self._names.items() if name.fits(self._scale)]
            return {part: QPointF(*self._items[part].part.label_at) for part in fitting}
        spots: dict[str, QPointF] = {}
        held: list[QRectF] = []
        for part_id in sorted(self._names, key=lambda part: (-self._names[part].room_mm, part)):
            spot = self._place(part_id, held, self._boxes_but(part_id))
            if spot is not None:
                spots[part_id] = spot
                held.append(self._box(part_id, spot))
        return spots

    def _with_lit(self, free: Spots, lit: tuple[str, ...]) -> Spots:
        """Return the places with those of lit parts: over other parts, where nothing is left."""
        missing = [part for part in lit if part not in free]
        if not missing or len(lit) > PLACED_MOST:
            return free
        spots = {part: free[part] for part in lit if part in free}
        for part_id in missing:
            others = [box for part, box in self._outlines(lit) if part != part_id]
            grounds = [self._boxes_but(part_id), others]
            for parts in grounds if len(lit) <= OVER_OTHERS_MOST else grounds[:1]:
                spot = self._place(part_id, self._boxes(spots), parts)
                if spot is not None:
                    spots[part_id] = spot
                    break
        if len(lit) == 1 and missing[0] not in spots:
            spots[missing[0]] = QPointF(*self._items[missing[0]].part.label_at)
        held = self._boxes(spots)
        for part_id, spot in free.items():
            box = self._box(part_id, spot)
            if part_id not in spots and not any(box.intersects(other) for other in held):
                spots[part_id] = spot
        return spots

    def _place(
        self, part_id: str, names: Iterable[QRectF], parts: Iterable[QRectF]
    ) -> QPointF | None:
        item, name = self._items[part_id], self._names[part_id]
        wide, high = (side / self._scale for side in name.size_px())
        off_x, off_y = wide + high * LEADS[-1], high * (LEADS[-1] + 1)
        reach = self._bounds[part_id].adjusted(-off_x, -off_y, off_x, off_y)
        about = [part for part in parts if part.intersects(reach)]
        said = [
            box for box in (*names, *self.heads.boxes(), self._hidden) if box.intersects(reach)
        ]
        ground = Ground(about, said, self._room)
        wanted = QPointF(*item.part.label_at)
        return name_place(
            item.outline, wanted, (wide, high), item.taken(self._scale, self._off_px), ground
        )

    def _outlines(self, parts: Iterable[str]) -> list[tuple[str, QRectF]]:
        return [(part, self._bounds[part]) for part in parts]

    def _boxes_but(self, part_id: str) -> list[QRectF]:
        return [box for part, box in self._outlines(self._items) if part != part_id]

    def _boxes(self, spots: Spots) -> list[QRectF]:
        return [self._box(part, spot) for part, spot in spots.items()]

    def _box(self, part_id: str, spot: QPointF) -> QRectF:
        box = QRectF(0, 0, *(side / self._scale for side in self._names[part_id].size_px()))
        box.moveCenter(spot)
        return box

    def shown(self) -> tuple[str, ...]:
        """Return the parts whose names can be read at the present zoom."""
        return tuple(part for part, name in self._names.items() if name.isVisible())

    def boxes_shown(self) -> list[QRectF]:
        """Return the boxes of names and of the sides' headings that can be read, in mm."""
        if self._scale < LEAST_SCALE:
            return []
        shown = {part: name.pos() for part, name in self._names.items() if name.isVisible()}
        return [*self._boxes(shown), *self.heads.boxes(), self._hidden]

    def without_place_px(self) -> float:
        """Return how long the longest name is that finds no place of its own; 0 where all do."""
        if self._scale < LEAST_SCALE:
            return 0.0
        missing = (n.size_px()[0] for part, n in self._names.items() if part not in self._spots)
        return max(missing, default=0.0)
