"""A part of the diagram as drawn: its outline with real holes, and the heads that show on it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.app.rows import BenchState, DiagramHole, DiagramPart
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import Coat, Look, coat, leather
from armorplan.desktop.widgets.picture_marks import HALO_PX, Stamps
from armorplan.pattern.parts import Ring

PLAIN_SCALE = 0.45
"""Below so many pixels to the mm names are hidden and heads are dots."""
MARK_PX = 15
MARK_MOST_MM = 20.0
"""A mark is never drawn larger than this: on a row it would hide its neighbours."""
MARGIN_MM = 18.0
LEAST_DOT_PX = 3.0
LEAST_MARK_PX = 8
FADED = 0.35


@dataclass(slots=True)
class Head:
    """A fastener where its head shows."""

    joint: str
    centre: QPointF
    head_mm: float
    state: BenchState
    look: Look = Look.PLAIN
    room_mm: float = MARK_MOST_MM
    """How far the next head on the same part lies; marks and halos keep within it."""

    def mark_px(self, scale: float) -> int:
        """Return how large the mark is drawn: legible, and off its neighbours."""
        room_px = min(self.room_mm, MARK_MOST_MM) * scale - 2 * HALO_PX
        return max(round(self.head_mm * scale), round(min(MARK_PX, room_px)), LEAST_MARK_PX)


def give_room(heads: Sequence[Head]) -> None:
    """Tell every head how far its nearest neighbour lies."""
    for head in heads:
        away = (
            hypot(head.centre.x() - other.centre.x(), head.centre.y() - other.centre.y())
            for other in heads
            if other is not head
        )
        head.room_mm = min((found for found in away if found > 0), default=MARK_MOST_MM)


def ring_path(ring: Ring) -> QPainterPath:
    """Return a closed path through the corners."""
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in ring]))
    path.closeSubpath()
    return path


def cut_path(
    outline: QPainterPath, part: DiagramPart, holes: tuple[DiagramHole, ...]
) -> QPainterPath:
    """Return a part's outline with its slots and holes cut out; a slot is the hole that slides."""
    path = QPainterPath(outline)
    path.setFillRule(Qt.FillRule.OddEvenFill)
    slots = [ring_path(slot) for slot in part.slots]
    for slot in slots:
        path.addPath(slot)
    for hole in holes:
        if any(slot.contains(QPointF(*hole.centre)) for slot in slots):
            continue
        path.addEllipse(QPointF(*hole.centre), hole.diameter_mm / 2, hole.diameter_mm / 2)
    return path


@dataclass(frozen=True, slots=True)
class Ink:
    """Pens and brush of a part: halo, edge (thin from afar) and fill, with their colours."""

    coat: Coat
    halo: QPen
    edge: QPen
    hair: QPen
    fill: QBrush


class Inks:
    """The pens and brushes of every kind, layer and look, each made once for a theme."""

    def __init__(self) -> None:
        self._colours: Colours = LIGHT
        self._made: dict[tuple[str, int, Look], Ink] = {}
        self._dots: dict[tuple[str, int], QPen] = {}

    def take(self, colours: Colours) -> None:
        """Draw in these colours from now on."""
        if colours is not self._colours:
            self._colours = colours
            self._made.clear()

    def ink(self, part: DiagramPart, look: Look) -> Ink:
        """Return how a part is drawn."""
        key = (part.kind, part.layer, look)
        if key not in self._made:
            worn = coat(self._colours, leather(self._colours, part.kind, part.layer), look)
            halo = _pen(self._colours.panel, worn.edge_px + 2 * HALO_PX)
            edge = _pen(worn.edge, worn.edge_px)
            hair = _pen(worn.edge, 1.0)
            self._made[key] = Ink(worn, halo, edge, hair, QBrush(QColor(worn.fill)))
        return self._made[key]

    def dot(self, head: Head) -> str:
        """Return the colour of a head that is too small for a mark."""
        return self._colours.state(head.state)

    def dot_pen(self, colour: str, across_px: int) -> QPen:
        """Return a pen that draws dots."""
        if (colour, across_px) not in self._dots:
            self._dots[colour, across_px] = _pen(colour, across_px)
        return self._dots[colour, across_px]


def _pen(colour: str, width: float) -> QPen:
    pen = QPen(QColor(colour), width)
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    return pen


class PartItem(QGraphicsPathItem):
    """One part with the heads that show on it.

    What is dimmed only fades: its cached drawing stays good, so that lighting one part of a
    thousand does not paint the others anew.
    """

    def __init__(
        self, part: DiagramPart, holes: tuple[DiagramHole, ...], stamps: Stamps, inks: Inks
    ) -> None:
        super().__init__()
        self.part = part
        self.holes = holes
        self.heads: tuple[Head, ...] = ()
        self.look = Look.PLAIN
        self.outline = ring_path(part.outline)
        self._cut = cut_path(self.outline, part, holes)
        self._stamps, self._inks = stamps, inks
        self._ink = inks.ink(part, Look.PLAIN)
        self._drawn: tuple[object, ...] = ()
        # The bounding box is the path's, so a margin for heads and thick edges is part of it.
        box = self.outline.boundingRect().adjusted(-MARGIN_MM, -MARGIN_MM, MARGIN_MM, MARGIN_MM)
        margin = QPainterPath()
        margin.addRect(box)
        self.setPath(margin)
        self.setPen(QPen(Qt.PenStyle.NoPen))
        self.setZValue(part.layer)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def wear(self, look: Look) -> None:
        """Take a look; heads on a part that is not lit have no look of their own."""
        self.look = look
        lit = look is Look.LIT
        self._ink = self._inks.ink(self.part, Look.LIT if lit else Look.PLAIN)
        heads = tuple((h.state, h.look if lit else Look.PLAIN) for h in self.heads)
        drawn = (self._ink, heads)
        if drawn != self._drawn:
            self._drawn = drawn
            self.update()
        self.setOpacity(FADED if look is Look.DIM else 1.0)

    def shape(self) -> QPainterPath:
        return self.outline

    def taken(self, scale: float, least_px: float = 0.0) -> list[QRectF]:
        """Return what a name should not cover at a scale: marks, holes and slots, in mm.

        Marks are taken to be as large as ``least_px`` pixels at least, as far as they have room.
        """
        halo_mm = 2 * HALO_PX / scale
        least_mm = least_px / scale
        spots = [
            (h.centre, max(h.mark_px(scale) / scale + halo_mm, min(least_mm, h.room_mm)))
            for h in self.heads
        ]
        spots += [(QPointF(*h.centre), h.diameter_mm) for h in self.holes]
        boxes = [
            QRectF(at.x() - across / 2, at.y() - across / 2, across, across)
            for at, across in spots
        ]
        return boxes + [ring_path(slot).boundingRect() for slot in self.part.slots]

    def joint_near(self, spot: QPointF, reach_mm: float) -> str | None:
        """Return the nearest joint whose head or hole in this part lies within reach."""
        found = [(h.centre.x(), h.centre.y(), h.head_mm, h.joint) for h in self.heads]
        found += [(*h.centre, h.diameter_mm, h.joint) for h in self.holes if h.joint]
        near = [
            (away, joint)
            for x, y, across_mm, joint in found
            if (away := hypot(x - spot.x(), y - spot.y())) <= max(reach_mm, across_mm / 2)
        ]
        return min(near)[1] if near else None

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self.look is Look.LIT:
            painter.strokePath(self.outline, self._ink.halo)
        painter.setBrush(self._ink.fill)
        scale = painter.worldTransform().m11()
        if scale < PLAIN_SCALE:
            self._paint_far(painter, scale)
            return
        painter.setPen(self._ink.hair)
        painter.drawPath(self._cut)
        painter.strokePath(self.outline, self._ink.edge)
        for head in self.heads:
            look = head.look if self.look is Look.LIT else Look.PLAIN
            stamp_head(painter, head, look, self._stamps)

    def _paint_far(self, painter: QPainter, scale: float) -> None:
        """From afar holes are smaller than a pixel, and a thin edge is drawn much faster."""
        painter.setPen(self._ink.edge if self.look is Look.LIT else self._ink.hair)
        painter.drawPath(self.outline)
        dots: dict[str, list[QPointF]] = {}
        for head in self.heads:
            dots.setdefault(self._inks.dot(head), []).append(head.centre)
        for colour, centres in dots.items():
            across = round(max(self.heads[0].head_mm * scale, LEAST_DOT_PX))
            painter.setPen(self._inks.dot_pen(colour, across))
            painter.drawPoints(QPolygonF(centres))


def stamp_head(painter: QPainter, head: Head, look: Look, stamps: Stamps) -> None:
    """Stamp a head where it lies: to scale, with a mark of a size that stays legible."""
    scale = painter.worldTransform().m11()
    head_px = round(head.head_mm * scale)
    mark_px = head.mark_px(scale)
    ratio = painter.device().devicePixelRatio()
    stamp = stamps.stamp(head.state, look, mark_px=mark_px, head_px=head_px, ratio=ratio)
    spot = painter.worldTransform().map(head.centre)
    side = stamp.deviceIndependentSize()
    painter.save()
    painter.resetTransform()
    painter.drawPixmap(spot - QPointF(side.width() / 2, side.height() / 2), stamp)
    painter.restore()
