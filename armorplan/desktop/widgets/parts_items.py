"""A part of the diagram as drawn: its outline with real holes, and the heads that show on it."""

from dataclasses import dataclass
from math import hypot

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.app.rows import BenchState, DiagramHole, DiagramPart
from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import Look, coat, leather
from armorplan.desktop.widgets.picture_marks import Stamps
from armorplan.pattern.parts import Ring

PLAIN_SCALE = 0.45
"""Below so many pixels to the mm names are hidden and heads are dots."""
MARK_PX = 15
MARK_MOST_MM = 20.0
"""A mark is never drawn larger than this: on a row it would hide its neighbours."""
MARGIN_MM = 18.0


@dataclass(slots=True)
class Head:
    """A fastener where its head shows."""

    joint: str
    centre: QPointF
    head_mm: float
    state: BenchState
    look: Look = Look.PLAIN


def ring_path(ring: Ring) -> QPainterPath:
    """Return a closed path through the corners."""
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in ring]))
    path.closeSubpath()
    return path


def cut_path(part: DiagramPart, holes: tuple[DiagramHole, ...]) -> QPainterPath:
    """Return a part's outline with its slots and holes cut out."""
    path = ring_path(part.outline)
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for slot in part.slots:
        path.addPath(ring_path(slot))
    for hole in holes:
        path.addEllipse(QPointF(*hole.centre), hole.diameter_mm / 2, hole.diameter_mm / 2)
    return path


class PartItem(QGraphicsPathItem):
    """One part. ``look`` and the heads' looks are set from outside, then ``restyle`` is called."""

    def __init__(self, part: DiagramPart, holes: tuple[DiagramHole, ...], stamps: Stamps) -> None:
        # The bounding box is the path's, so a margin for heads and thick edges is part of it.
        super().__init__()
        self.part = part
        self.holes = holes
        self.heads: tuple[Head, ...] = ()
        self.look = Look.PLAIN
        self.outline = ring_path(part.outline)
        self._cut = cut_path(part, holes)
        self._stamps = stamps
        self._pens = (QPen(), QPen())
        self._fill = QBrush()
        box = self.outline.boundingRect().adjusted(-MARGIN_MM, -MARGIN_MM, MARGIN_MM, MARGIN_MM)
        margin = QPainterPath()
        margin.addRect(box)
        self.setPath(margin)
        self.setPen(QPen(Qt.PenStyle.NoPen))
        self.setZValue(part.layer)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def restyle(self, colours: Colours) -> None:
        """Draw anew in these colours and the present looks."""
        wear = coat(colours, leather(colours, self.part.kind, self.part.layer), self.look)
        halo = QPen(QColor(colours.panel), wear.edge_px + 6 if self.look is Look.LIT else 0.0)
        edge = QPen(QColor(wear.edge), wear.edge_px)
        for pen in (halo, edge):
            pen.setCosmetic(True)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        self._pens = (halo, edge)
        self._fill = QBrush(QColor(wear.fill))
        self.setOpacity(0.7 if self.look is Look.DIM else 1.0)
        self.update()

    def shape(self) -> QPainterPath:
        return self.outline

    def joint_near(self, spot: QPointF, reach_mm: float) -> str | None:
        """Return the nearest joint whose head or hole in this part lies within reach."""
        found = [
            (hypot(head.centre.x() - spot.x(), head.centre.y() - spot.y()), head.joint)
            for head in self.heads
            if hypot(head.centre.x() - spot.x(), head.centre.y() - spot.y())
            <= max(reach_mm, head.head_mm / 2)
        ]
        found += [
            (hypot(hole.centre[0] - spot.x(), hole.centre[1] - spot.y()), hole.joint)
            for hole in self.holes
            if hole.joint
            and hypot(hole.centre[0] - spot.x(), hole.centre[1] - spot.y())
            <= max(reach_mm, hole.diameter_mm / 2)
        ]
        return min(found)[1] if found else None

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self.look is Look.LIT:
            painter.strokePath(self._cut, self._pens[0])
        painter.setPen(self._pens[1])
        painter.setBrush(self._fill)
        painter.drawPath(self._cut)
        for head in self.heads:
            stamp_head(painter, head, self._stamps)


def stamp_head(painter: QPainter, head: Head, stamps: Stamps) -> None:
    """Stamp a head where it lies: to scale, with a mark of a size that stays legible."""
    scale = abs(painter.worldTransform().m11()) or abs(painter.worldTransform().m12())
    head_px = round(head.head_mm * scale)
    mark_px = max(head_px, round(min(MARK_PX, MARK_MOST_MM * scale)))
    if scale < PLAIN_SCALE:
        mark_px = head_px = max(head_px, 3)
    ratio = painter.device().devicePixelRatio()
    stamp = stamps.stamp(head.state, head.look, mark_px=mark_px, head_px=head_px, ratio=ratio)
    spot = painter.worldTransform().map(head.centre)
    side = stamp.deviceIndependentSize()
    painter.save()
    painter.resetTransform()
    painter.drawPixmap(spot - QPointF(side.width() / 2, side.height() / 2), stamp)
    painter.restore()
