"""What lies over the parts: names, what joins the layers of a chosen fastener, the scale bar."""

from dataclasses import dataclass
from math import floor, log10

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.rows import DiagramPart
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import Coat, Look
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.parts_items import Head, stamp_head
from armorplan.desktop.widgets.picture_marks import HALO_PX, Stamps

SCALE_BAR_PX = 130
PLATE_PX = 3.0


class NameItem(QGraphicsItem):
    """A part's name, always as large as the window's text, on a plate of the part's colour."""

    def __init__(
        self, part: DiagramPart, words: str, room_mm: float, parent: QGraphicsItem
    ) -> None:
        super().__init__(parent)
        self.part_id = part.id
        self._text = words
        self._coat: Coat | None = None
        self._box = QRectF()
        self._font = QFont()
        self._lead: QPointF | None = None
        self.room_mm = room_mm
        self.setPos(*part.label_at)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def set_font(self, font: QFont) -> None:
        """Draw in this font from now on."""
        self.prepareGeometryChange()
        self._font = font
        box = QFontMetricsF(font).boundingRect(self._text).adjusted(-PLATE_PX, -1, PLATE_PX, 1)
        box.moveCenter(QPointF(0, 0))
        self._box = box

    def lead(self, to: QPointF | None) -> None:
        """Have a line to this point, in pixels off the middle; none where it stands at its part."""
        if to != self._lead:
            self.prepareGeometryChange()
            self._lead = to

    def wear(self, coat: Coat) -> None:
        """Draw in the part's colours."""
        if coat is not self._coat:
            self._coat = coat
            self.update()

    def size_px(self) -> tuple[float, float]:
        """Return how large the name is drawn."""
        return (self._box.width(), self._box.height())

    def fits(self, scale: float) -> bool:
        """Tell whether the part is drawn long enough for its name."""
        return self._box.width() <= self.room_mm * scale

    def boundingRect(self) -> QRectF:
        if self._lead is None:
            return self._box
        return self._box | QRectF(self._lead, QPointF(0, 0)).normalized().adjusted(-1, -1, 1, 1)

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self._coat is None:
            return
        if self._lead is not None:
            painter.setPen(QPen(QColor(self._coat.edge), 1.0))
            painter.drawLine(self._lead, QPointF(0, 0))
        plate = QColor(self._coat.fill)
        plate.setAlpha(215 if self._lead is None else 255)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(plate)
        painter.drawRoundedRect(self._box, PLATE_PX, PLATE_PX)
        painter.setPen(QColor(self._coat.text))
        painter.setFont(self._font)
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self._text)


@dataclass(frozen=True, slots=True, kw_only=True)
class LitJoint:
    """A chosen fastener: its head, and where its other layers' holes lie (centre, diameter)."""

    head: Head
    holes: tuple[tuple[QPointF, float], ...]


class LitItem(QGraphicsItem):
    """Over all parts: hidden edges of lit parts dashed, holes of lit fasteners joined to the head."""

    def __init__(self, stamps: Stamps) -> None:
        super().__init__()
        self.colours: Colours = LIGHT
        self._stamps = stamps
        self._joints: tuple[LitJoint, ...] = ()
        self._edges: tuple[QPainterPath, ...] = ()
        self._box = QRectF()

    def light(self, joints: tuple[LitJoint, ...], edges: tuple[QPainterPath, ...]) -> None:
        """Take what is lit; both empty shows nothing."""
        self.prepareGeometryChange()
        self._joints, self._edges = joints, edges
        box = QRectF()
        for edge in edges:
            box = box.united(edge.boundingRect())
        for joint in joints:
            for centre in (joint.head.centre, *(hole[0] for hole in joint.holes)):
                box = box.united(QRectF(centre.x() - 20, centre.y() - 20, 40, 40))
        self._box = box
        self.setVisible(bool(joints or edges))

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(self._pen(self.colours.focus, 1.6, Qt.PenStyle.DashLine))
        for edge in self._edges:
            painter.drawPath(edge)
        links = [(j.head.centre, hole) for j in self._joints for hole in j.holes]
        halo = self._pen(self.colours.panel, 2 * HALO_PX + 2.0, Qt.PenStyle.SolidLine)
        for pen in (halo, self._pen(self.colours.focus, 2.0, Qt.PenStyle.SolidLine)):
            painter.setPen(pen)
            for centre, (hole, diameter_mm) in links:
                painter.drawLine(centre, hole)
                painter.drawEllipse(hole, diameter_mm / 2 + 1.5, diameter_mm / 2 + 1.5)
        for joint in self._joints:
            stamp_head(painter, joint.head, Look.LIT, self._stamps)

    def _pen(self, colour: str, width: float, style: Qt.PenStyle) -> QPen:
        pen = QPen(QColor(colour), width, style, Qt.PenCapStyle.RoundCap)
        pen.setCosmetic(True)
        return pen


def scale_length_mm(scale: float, most_px: float = SCALE_BAR_PX) -> float:
    """Return the longest of 1, 2, 5, 10, … mm that fits ``most_px`` at so many pixels to the mm."""
    most_mm = most_px / scale
    decade = 10.0 ** floor(log10(most_mm))
    return max(step * decade for step in (1.0, 2.0, 5.0) if step * decade <= most_mm)


class ScaleBar(QWidget):
    """How long so many millimetres are at the present zoom."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("scale_bar")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._scale = 1.0
        self.take_scale(1.0)

    def take_scale(self, scale: float) -> None:
        """Show this many pixels to the mm."""
        self._scale = scale
        self.setAccessibleName(self.tr("Scale bar, {n} mm").format(n=f"{self.length_mm():g}"))
        self.resize(self.sizeHint())
        self.update()

    def length_mm(self) -> float:
        """Return what the bar stands for."""
        return scale_length_mm(self._scale)

    def sizeHint(self) -> QSize:
        return QSize(SCALE_BAR_PX + 16, self.fontMetrics().height() + 16)

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        plate = QColor(colours.panel)
        plate.setAlpha(220)
        width = self.length_mm() * self._scale
        text = self.tr("{n} mm").format(n=f"{self.length_mm():g}")
        wide = max(width, self.fontMetrics().horizontalAdvance(text)) + 16
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(plate)
        painter.drawRoundedRect(QRectF(0, 0, wide, self.height()), 4, 4)
        foot = self.height() - 6.0
        painter.setPen(QPen(QColor(colours.text), 2.0))
        painter.drawLine(QPointF(8, foot), QPointF(8 + width, foot))
        for x in (8.0, 8 + width / 2, 8 + width):
            painter.drawLine(
                QPointF(x, foot - (3 if x in (8.0, 8 + width) else 2)), QPointF(x, foot)
            )
        painter.drawText(QPointF(8, foot - 7), text)
        painter.end()
