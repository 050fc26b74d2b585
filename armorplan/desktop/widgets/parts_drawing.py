"""The items of the diagram in their scene: parts, heads, names, and what is lit."""

from collections.abc import Iterable, Iterator, Mapping

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFont, QPainterPath
from PySide6.QtWidgets import QGraphicsScene

from armorplan.app.rows import Diagram, DiagramHole, DiagramJoint, Selection
from armorplan.desktop.colours import Colours
from armorplan.desktop.part_words import JOINT, PART
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.widgets.part_names import PartNames
from armorplan.desktop.widgets.parts_items import Head, Inks, PartItem, give_room
from armorplan.desktop.widgets.parts_overlays import LitItem, LitJoint
from armorplan.desktop.widgets.picture_marks import Stamps

XRAY_MOST = 40
"""So many lit parts at most show their hidden edges: more would only be a thicket."""
HOLE_WEIGHT = 10_000
LIT_WEIGHT = 10
EDGE_PLACES = 12
"""So many places of an outline, or up to twice as many, stand for all of it."""


class PartsDrawing:
    """Draws a ``rows.Diagram`` into a scene. Keys are ``part:ID`` and ``joint:ID``."""

    def __init__(self, scene: QGraphicsScene, top_z: float) -> None:
        self._scene = scene
        self._diagram = Diagram(parts=(), holes=(), joints=())
        self._selection = Selection()
        self._stamps, self._inks = Stamps(), Inks()
        self.items: dict[str, PartItem] = {}
        self.names = PartNames(scene, top_z - 1)
        self._heads: dict[str, Head] = {}
        self._places: dict[str, Place] = {}
        self._lit = LitItem(self._stamps)
        self._lit.setZValue(top_z)
        scene.addItem(self._lit)

    # --- rows -------------------------------------------------------------------------------

    def take(self, diagram: Diagram, font: QFont) -> bool:
        """Take new rows; return whether parts or holes have changed, or only heads."""
        before, self._diagram = self._diagram, diagram
        anew = (before.parts, before.holes) != (diagram.parts, diagram.holes)
        if anew:
            self._rebuild(font)
        self._mount_heads()
        self.light(self._selection)
        return anew

    def _rebuild(self, font: QFont) -> None:
        for item in self.items.values():
            self._scene.removeItem(item)
        holes: dict[str, list[DiagramHole]] = {}
        for hole in self._diagram.holes:
            holes.setdefault(hole.part, []).append(hole)
        self.items = {
            part.id: PartItem(part, tuple(holes.get(part.id, ())), self._stamps, self._inks)
            for part in self._diagram.parts
        }
        for item in self.items.values():
            self._scene.addItem(item)
        self.names.take(self.items, font)

    def _mount_heads(self) -> None:
        on: dict[str, list[Head]] = {}
        self._heads = {}
        for joint in self._diagram.joints:
            found = self._holes_of(joint)
            if found:
                head = Head(joint.id, QPointF(*found[0].centre), joint.head_mm, joint.state)
                self._heads[joint.id] = head
                on.setdefault(found[0].part, []).append(head)
        for part_id, item in self.items.items():
            item.heads = tuple(on.get(part_id, ()))
            give_room(item.heads)
        self._places = {}
        for part in self._diagram.parts:
            self._places[PART + part.id] = part.label_at
            self._places |= {
                JOINT + h.joint: (h.centre.x(), h.centre.y()) for h in self.items[part.id].heads
            }

    def _holes_of(self, joint: DiagramJoint) -> list[DiagramHole]:
        """Return a joint's holes, the one where its head shows first."""
        rank = {part: place for place, part in enumerate(joint.parts)}
        holes = [h for part in joint.parts if part in self.items
                 for h in self.items[part].holes if h.joint == joint.id]  # fmt: skip
        return sorted(holes, key=lambda h: rank[h.part])

    # --- looks ------------------------------------------------------------------------------

    def wear(self, colours: Colours) -> None:
        """Draw in these colours from now on."""
        self._stamps.take(colours)
        self._inks.take(colours)
        self._lit.colours = colours
        self.light(self._selection)

    def light(self, selection: Selection) -> None:
        """Light what is chosen and dim the rest; nothing chosen dims nothing."""
        self._selection = selection
        parts, joints = frozenset(selection.parts), frozenset(selection.joints)
        other = Look.DIM if parts or joints else Look.PLAIN
        for head in self._heads.values():
            head.look = Look.LIT if head.joint in joints else other
        for part_id, item in self.items.items():
            item.wear(Look.LIT if part_id in parts else other)
            self.names.wear(part_id, self._inks.ink(item.part, item.look).coat)
        self._lit.light(self._lit_joints(joints), self._lit_edges(parts))
        self.names.show()

    def _lit_joints(self, joints: frozenset[str]) -> tuple[LitJoint, ...]:
        lit = []
        for joint in self._diagram.joints:
            if joint.id in joints and joint.id in self._heads:
                _, *others = self._holes_of(joint)
                holes = tuple((QPointF(*h.centre), h.diameter_mm) for h in others)
                lit.append(LitJoint(head=self._heads[joint.id], holes=holes))
        return tuple(lit)

    def _lit_edges(self, parts: frozenset[str]) -> tuple[QPainterPath, ...]:
        edges = tuple(self.items[p].outline for p in sorted(parts) if p in self.items)
        return edges if len(edges) <= XRAY_MOST else ()

    def look_of(self, key: str) -> Look:
        """Return how a part or fastener is drawn now."""
        if key.startswith(PART):
            return self.items[key.removeprefix(PART)].look
        return self._heads[key.removeprefix(JOINT)].look

    def room_px(self, joint: str, scale: float) -> float:
        """Return how much room a mark over a fastener has at a zoom: up to the next one."""
        return self._heads[joint].room_mm * scale

    def heads_on(self, parts: Iterable[str]) -> list[Head]:
        """Return the fasteners that show on parts."""
        return [head for part in parts if part in self.items for head in self.items[part].heads]

    def parts_of(self, joints: Iterable[str]) -> frozenset[str]:
        """Return the parts that fasteners go through."""
        wanted = frozenset(joints)
        return frozenset(p for j in self._diagram.joints if j.id in wanted for p in j.parts)

    def mates(self, parts: Iterable[str]) -> frozenset[str]:
        """Return all parts of the pieces, each on its side, that parts belong to."""
        wanted = frozenset(parts)
        pieces = {(p.piece, p.side) for p in self._diagram.parts if p.id in wanted}
        return frozenset(p.id for p in self._diagram.parts if (p.piece, p.side) in pieces)

    def box_of(self, parts: Iterable[str]) -> QRectF:
        """Return the box around parts."""
        box = QRectF()
        for part in parts:
            if part in self.items:
                box |= self.items[part].outline.boundingRect()
        return box

    def heads(self) -> Mapping[str, Place]:
        """Return where the head of each fastener shows."""
        return {joint: (h.centre.x(), h.centre.y()) for joint, h in self._heads.items()}

    def taken(self, parts: Iterable[str], scale: float) -> list[QRectF]:
        """Return what words over the drawing should not hide: names, and what shows on parts."""
        marked = [self.items[part] for part in parts if part in self.items]
        on_parts = [box for item in marked for box in item.taken(scale)]
        return [*self.names.boxes_shown(), *on_parts]

    # --- where things lie -------------------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        """Return where parts and heads lie: every part, followed by the heads that show on it."""
        return self._places

    def bounds(self) -> QRectF:
        """Return the box around all parts."""
        box = QRectF()
        for item in self.items.values():
            box = box.united(item.outline.boundingRect())
        return box

    def edge_of(self, key: str, least_mm: float) -> QPainterPath:
        """Return the outline of a part, or a ring around a head of at least this radius."""
        if key.startswith(PART):
            return self.items[key.removeprefix(PART)].outline
        head = self._heads[key.removeprefix(JOINT)]
        radius = max(head.head_mm / 2, least_mm)
        path = QPainterPath()
        path.addEllipse(head.centre, radius, radius)
        return path

    def weights_of(self, chosen: Selection) -> Iterator[tuple[Place, int]]:
        """Yield places that should stay in sight, and how much it matters.

        The holes of what is chosen matter above all, then its edges, then any part.
        """
        for hole in self._diagram.holes:
            if hole.joint in chosen.joints:
                yield hole.centre, HOLE_WEIGHT
        for part in self._diagram.parts:
            weight = LIT_WEIGHT if part.id in chosen.parts else 1
            # A dozen places tell where a part lies as well as the hundreds of its curves.
            apart = max(1, len(part.outline) // EDGE_PLACES)
            yield from ((corner, weight) for corner in part.outline[::apart])
