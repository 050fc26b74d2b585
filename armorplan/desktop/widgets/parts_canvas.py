"""The drawing of the parts: real outlines in mm, lit by what is chosen."""

from collections.abc import Iterator, Mapping

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainterPath, QPixmapCache, QResizeEvent
from PySide6.QtWidgets import QGraphicsItemGroup, QWidget

from armorplan.app.rows import Diagram, DiagramHole, DiagramJoint, Selection
from armorplan.desktop.name_places import name_place
from armorplan.desktop.part_words import JOINT, PART
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.parts_items import PLAIN_SCALE, Head, Inks, PartItem, give_room
from armorplan.desktop.widgets.parts_overlays import LitItem, LitJoint, NameItem, ScaleBar
from armorplan.desktop.widgets.picture_marks import Stamps
from armorplan.desktop.widgets.picture_view import RING_Z, PictureView

CACHE_KB = 96 * 1024
REACH_PX = 12.0
"""Half of the least target size (WCAG 2.2, success criterion 2.5.8: 24 px)."""
REACH_MOST_MM = 12.0
XRAY_MOST = 40
"""So many lit parts at most show their hidden edges: more would only be a thicket."""
HOLE_WEIGHT = 10_000
LIT_WEIGHT = 10
PLACED_MOST = 60
"""Names of more parts than this stay where the rows put them: seeking would cost a frame."""
LIT_Z = RING_Z - 1
NAMES_Z = RING_Z - 2


class PartsCanvas(PictureView):
    """Shows a ``rows.Diagram``. Keys of the picture are ``part:ID`` and ``joint:ID``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        QPixmapCache.setCacheLimit(max(QPixmapCache.cacheLimit(), CACHE_KB))
        self._diagram = Diagram(parts=(), holes=(), joints=())
        self._selection = Selection()
        self._items: dict[str, PartItem] = {}
        self._names: dict[str, NameItem] = {}
        self._heads: dict[str, Head] = {}
        self._places: dict[str, Place] = {}
        self._placed: tuple[float, tuple[str, ...]] = (0.0, ())
        self._stamps, self._inks = Stamps(), Inks()
        self._name_group = QGraphicsItemGroup()
        self._lit = LitItem(self._stamps)
        for item, z in ((self._name_group, NAMES_Z), (self._lit, LIT_Z)):
            item.setZValue(z)
            self._scene.addItem(item)
        self._bar = ScaleBar(self)
        self.foot_px = self._bar.height()
        self.zoomed.connect(self._show_scale)
        self._restyle()

    # --- rows -------------------------------------------------------------------------------

    def show_diagram(self, diagram: Diagram) -> None:
        """Take new rows; the same parts and holes keep their drawing, only heads change."""
        before, self._diagram = self._diagram, diagram
        if (before.parts, before.holes) != (diagram.parts, diagram.holes):
            self._rebuild()
        self._mount_heads()
        self.light(self._selection)

    def _rebuild(self) -> None:
        for item in (*self._items.values(), *self._names.values()):
            self._scene.removeItem(item)
        holes: dict[str, list[DiagramHole]] = {}
        for hole in self._diagram.holes:
            holes.setdefault(hole.part, []).append(hole)
        self._items = {
            part.id: PartItem(part, tuple(holes.get(part.id, ())), self._stamps, self._inks)
            for part in self._diagram.parts
        }
        self._names = {}
        self._placed = (0.0, ())
        for item in self._items.values():
            self._scene.addItem(item)
            box = item.outline.boundingRect()
            name = NameItem(item.part, max(box.width(), box.height()), self._name_group)
            name.set_font(self.font())
            self._names[item.part.id] = name
        self.set_room()

    def _mount_heads(self) -> None:
        on: dict[str, list[Head]] = {}
        self._heads = {}
        for joint in self._diagram.joints:
            found = self._holes_of(joint)
            if found:
                head = Head(joint.id, QPointF(*found[0].centre), joint.head_mm, joint.state)
                self._heads[joint.id] = head
                on.setdefault(found[0].part, []).append(head)
        for part_id, item in self._items.items():
            item.heads = tuple(on.get(part_id, ()))
            give_room(item.heads)
        self._places = {}
        for part in self._diagram.parts:
            self._places[PART + part.id] = part.label_at
            self._places |= {
                JOINT + h.joint: (h.centre.x(), h.centre.y()) for h in self._items[part.id].heads
            }

    def _holes_of(self, joint: DiagramJoint) -> list[DiagramHole]:
        """Return a joint's holes, the one where its head shows first."""
        rank = {part: place for place, part in enumerate(joint.parts)}
        holes = [h for part in joint.parts if part in self._items
                 for h in self._items[part].holes if h.joint == joint.id]  # fmt: skip
        return sorted(holes, key=lambda h: rank[h.part])

    # --- looks ------------------------------------------------------------------------------

    def light(self, selection: Selection) -> None:
        """Light what is chosen and dim the rest; nothing chosen dims nothing."""
        self._selection = selection
        parts, joints = frozenset(selection.parts), frozenset(selection.joints)
        some = bool(parts or joints)
        other = Look.DIM if some else Look.PLAIN
        for head in self._heads.values():
            head.look = Look.LIT if head.joint in joints else other
        for part_id, item in self._items.items():
            item.wear(Look.LIT if part_id in parts else other)
            self._names[part_id].wear(self._inks.ink(item.part, item.look).coat)
        self._lit.light(self._lit_joints(joints), self._lit_edges(parts))
        self._show_names()
        self.show_ring()

    def _lit_joints(self, joints: frozenset[str]) -> tuple[LitJoint, ...]:
        lit = []
        for joint in self._diagram.joints:
            if joint.id in joints and joint.id in self._heads:
                _, *others = self._holes_of(joint)
                holes = tuple((QPointF(*h.centre), h.diameter_mm) for h in others)
                lit.append(LitJoint(head=self._heads[joint.id], holes=holes))
        return tuple(lit)

    def _lit_edges(self, parts: frozenset[str]) -> tuple[QPainterPath, ...]:
        edges = tuple(self._items[p].outline for p in sorted(parts) if p in self._items)
        return edges if len(edges) <= XRAY_MOST else ()

    def weights_of(self, chosen: Selection) -> Iterator[tuple[Place, int]]:
        """Yield places that should stay in sight, and how much it matters.

        The holes of what is chosen matter above all, then its edges, then any part.
        """
        for hole in self._diagram.holes:
            if hole.joint in chosen.joints:
                yield hole.centre, HOLE_WEIGHT
        for part in self._diagram.parts:
            weight = LIT_WEIGHT if part.id in chosen.parts else 1
            yield from ((corner, weight) for corner in part.outline)

    def look_of(self, key: str) -> Look:
        """Return how a part or fastener is drawn now."""
        if key.startswith(PART):
            return self._items[key.removeprefix(PART)].look
        return self._heads[key.removeprefix(JOINT)].look

    def _show_scale(self, scale: float) -> None:
        self._bar.take_scale(scale)
        self._show_names()

    def _show_names(self) -> None:
        scale = self.scale_now()
        self._name_group.setVisible(scale >= PLAIN_SCALE)
        if scale < PLAIN_SCALE:
            return
        shown = []
        for part_id, name in self._names.items():
            fits = self._items[part_id].look is Look.LIT or name.fits(scale)
            name.setVisible(fits)
            shown += [part_id] if fits else []
        placing = (scale, tuple(shown))
        if len(shown) <= PLACED_MOST and placing != self._placed:
            self._placed = placing
            self._place_names(shown, scale)

    def _place_names(self, shown: list[str], scale: float) -> None:
        """Put names where they cover no mark, no other part and no other name."""
        boxes = {part: item.outline.boundingRect() for part, item in self._items.items()}
        names: list[QRectF] = []
        for part_id in shown:
            item, name = self._items[part_id], self._names[part_id]
            wide, high = name.size_px()
            wanted, size_mm = QPointF(*item.part.label_at), (wide / scale, high / scale)
            others = [box for part, box in boxes.items() if part != part_id] + names
            name.setPos(name_place(item.outline, wanted, size_mm, item.taken(scale), others))
            names.append(QRectF(name.pos().x() - size_mm[0] / 2, name.pos().y() - size_mm[1] / 2,
                                *size_mm))  # fmt: skip

    def names_shown(self) -> tuple[str, ...]:
        """Return the parts whose names can be read at the present zoom."""
        return tuple(part for part, name in self._names.items() if name.isVisible())

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self._stamps.take(colours)
        self._inks.take(colours)
        self._lit.colours = colours
        self.setBackgroundBrush(QColor(colours.panel))
        self.light(self._selection)

    # --- what the picture says of itself ----------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self._places

    def bounds(self) -> QRectF:
        box = QRectF()
        for item in self._items.values():
            box = box.united(item.outline.boundingRect())
        return box

    def edge_of(self, key: str) -> QPainterPath:
        if key.startswith(PART):
            return self._items[key.removeprefix(PART)].outline
        head = self._heads[key.removeprefix(JOINT)]
        radius = max(head.head_mm / 2, REACH_PX / self.scale_now())
        path = QPainterPath()
        path.addEllipse(head.centre, radius, radius)
        return path

    def key_at(self, spot: QPoint) -> str:
        at = self.mapToScene(spot)
        reach_mm = min(REACH_PX / self.scale_now(), REACH_MOST_MM)
        for item in self._scene.items(at, Qt.ItemSelectionMode.IntersectsItemShape):
            if isinstance(item, PartItem):
                joint = item.joint_near(at, reach_mm)
                return JOINT + joint if joint else PART + item.part.id
        return ""

    # --- events -----------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._bar.move(8, self.height() - self._bar.height() - 8)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            for name in self._names.values():
                name.set_font(self.font())
            self._placed = (0.0, ())
            self._show_names()
        elif event.type() == QEvent.Type.PaletteChange:
            self._restyle()
