"""What pictures share: the ring of what has the keys, and state marks with a halo."""

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.rows import BenchState
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.picture_colours import Look, mixed

HALO_PX = 3
"""A mark on leather is told apart only with so much panel colour around it."""
RING_PX = 3.0
RING_OUT_PX = 5.0
ROOMY_PX = 24
"""From this size on a mark stands inside its head; below, it fills it."""


def stamp(size: QSize, ratio: float, draw: Callable[[QPainter], None]) -> QPixmap:
    """Return what is drawn as a pixmap of a size in device-independent pixels."""
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    draw(painter)
    painter.end()
    return pixmap


class FocusRing(QGraphicsItem):
    """A double line around what has the keys: the focus colour, with a halo on either side."""

    def __init__(self) -> None:
        super().__init__()
        self.colours: Colours = LIGHT
        self._path = QPainterPath()
        self._box = QRectF()

    def setPath(self, path: QPainterPath) -> None:
        """Put the ring around a path in scene coordinates; an empty one hides it."""
        self.prepareGeometryChange()
        self._path = path
        box = path.boundingRect()
        self._box = box.adjusted(-box.width(), -box.height(), box.width(), box.height())
        self.setVisible(not path.isEmpty())

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        halo, ring = self.colours.panel, self.colours.focus
        for colour, width in ((halo, 2 * RING_PX + RING_OUT_PX), (ring, RING_PX + 1)):
            pen = QPen(QColor(colour), width)
            pen.setCosmetic(True)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
            painter.setPen(pen)
            painter.drawPath(self._path)
        inner = QPen(QColor(halo), 1.2, Qt.PenStyle.DashLine)
        inner.setCosmetic(True)
        painter.setPen(inner)
        painter.drawPath(self._path)


class Stamps:
    """Fasteners' heads drawn once for each state, look and size, then stamped."""

    def __init__(self) -> None:
        self._made: dict[tuple[BenchState, Look, int, int, float], QPixmap] = {}
        self._colours = LIGHT

    def take(self, colours: Colours) -> None:
        """Draw in these colours from now on."""
        if colours is not self._colours:
            self._colours = colours
            self._made.clear()

    def stamp(
        self, state: BenchState, look: Look, *, mark_px: int, head_px: int, ratio: float
    ) -> QPixmap:
        """Return a mark of ``mark_px`` in a head of ``head_px``, in device-independent pixels."""
        key = (state, look, mark_px, head_px, ratio)
        if key not in self._made:
            self._made[key] = self._draw(state, look, mark_px, head_px, ratio)
        return self._made[key]

    def _draw(
        self, state: BenchState, look: Look, mark_px: int, head_px: int, ratio: float
    ) -> QPixmap:
        reach = max(mark_px, head_px) + 2 * (HALO_PX + 1)
        if look is Look.LIT:
            reach += 6
        centre, sizes = QPointF(reach / 2, reach / 2), (mark_px, head_px)
        return stamp(
            QSize(reach, reach),
            ratio,
            lambda painter: self._paint(painter, centre, state, look, sizes),
        )

    def _paint(
        self,
        painter: QPainter,
        centre: QPointF,
        state: BenchState,
        look: Look,
        sizes: tuple[int, int],
    ) -> None:
        colours, (mark_px, head_px) = self._colours, sizes
        dim = look is Look.DIM
        across = max(mark_px, head_px)
        colour = colours.state(state)
        colour = mixed(colour, colours.panel, 0.5) if dim else colour
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.panel))
        painter.drawEllipse(centre, across / 2 + HALO_PX, across / 2 + HALO_PX)
        if look is Look.LIT:
            painter.setPen(QPen(QColor(colours.focus), 3.0))
            painter.drawEllipse(centre, across / 2 + HALO_PX + 1, across / 2 + HALO_PX + 1)
        if head_px >= mark_px:
            edge = mixed(colours.edge, colours.panel, 0.55) if dim else colours.edge
            painter.setPen(QPen(QColor(edge), 1.4))
            painter.setBrush(QColor(mixed(colours.bar, colours.panel, 0.4 if dim else 0.0)))
            painter.drawEllipse(centre, head_px / 2, head_px / 2)
        side = mark_px * (0.62 if head_px >= ROOMY_PX else 0.86)
        box = QRectF(0, 0, side, side)
        box.moveCenter(centre)
        paint_state(painter, box, state, colour)
