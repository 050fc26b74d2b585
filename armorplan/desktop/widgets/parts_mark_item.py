"""The item that paints the marks over the parts: arrows, zones, outlines, axes, and their words."""

from dataclasses import dataclass, field

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath, QPen, QPixmap, QStaticText
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.mark_choice import ShownMark
from armorplan.desktop.mark_places import leader
from armorplan.desktop.mark_shapes import MarkShape, paint_mark, union
from armorplan.desktop.picture_colours import severity_colour
from armorplan.desktop.widgets.picture_marks import stamp

STAMP_MOST_PX2 = 40_000
"""A mark whose box is larger than this is painted anew each time, not kept as a pixmap."""
PLATE_PX = 4.0
FADED = 0.45
"""What belongs to something else than what is chosen is only this dense."""


@dataclass(slots=True)
class Drawn:
    """A mark that is drawn: its shape at the present zoom, and the box of its words if they show."""

    shown: ShownMark
    shape: MarkShape
    text: QStaticText
    bounds: QRect
    """The box around the mark."""
    around: QRectF
    """The box around the mark and its words."""
    box: QRectF | None = None
    lead: tuple[QPointF, QPointF] | None = None
    again: bool = False
    """The other side says the same."""
    stamps: dict[float, QPixmap] = field(default_factory=dict)
    """It as painted, by pixels of the device to the pixel."""

    def write(self, box: QRectF) -> None:
        """Have the words in this box."""
        self.box = box
        self.around |= box
        self.lead = leader(self.shape.anchor, box)


class MarksItem(QGraphicsItem):
    """Paints many marks as one item, those in view only; sizes are pixels at every zoom.

    Small marks and all words are painted once and then stamped, so that a frame stays short.
    """

    def __init__(self, *, words: bool) -> None:
        super().__init__()
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._words = words
        self._drawn: tuple[Drawn, ...] = ()
        self._box = QRectF()
        self._plates: dict[tuple[object, ...], QPixmap] = {}
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)

    def wear(self, colours: Colours, font: QFont) -> None:
        """Draw in these colours and this font from now on."""
        self._colours, self._font = colours, font
        self._plates.clear()
        for one in self._drawn:
            one.stamps.clear()
        self.update()

    def show_marks(self, drawn: tuple[Drawn, ...], scale: float) -> None:
        """Draw these marks at so many pixels to the mm."""
        self.prepareGeometryChange()
        self._drawn = drawn
        around = union([one.around for one in drawn])
        self._box = QRectF(around.topLeft() / scale, around.size() / scale)
        self.setVisible(bool(drawn))
        self.update()

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        to_view = painter.worldTransform()
        scale = to_view.m11()
        exposed: QRectF = option.exposedRect
        seen = QRectF(exposed.topLeft() * scale, exposed.size() * scale)
        painter.resetTransform()
        painter.translate(round(to_view.dx()), round(to_view.dy()))
        in_view = [one for one in self._drawn if one.around.intersects(seen)]
        ratio = painter.device().devicePixelRatio()
        for one in in_view:
            self._paint_mark(painter, one, ratio)
        for one in in_view if self._words else ():
            self._paint_words(painter, one, ratio)

    def _paint_mark(self, painter: QPainter, one: Drawn, ratio: float) -> None:
        lies_under = one.shape.is_area or one.shown.aside
        if lies_under is self._words:
            return
        box = one.bounds
        if box.width() * box.height() > STAMP_MOST_PX2:
            self._draw_mark(painter, one)
            return
        if ratio not in one.stamps:
            one.stamps[ratio] = stamp(
                box.size(), ratio, lambda at: self._draw_mark(at, one, QPointF(box.topLeft()))
            )
        painter.drawPixmap(box.topLeft(), one.stamps[ratio])

    def _draw_mark(self, painter: QPainter, one: Drawn, origin: QPointF | None = None) -> None:
        painter.save()
        painter.translate(-(origin or QPointF()))
        painter.setOpacity(FADED if one.shown.faded else 1.0)
        chosen, aside = one.shown.chosen, one.shown.aside
        paint_mark(painter, one.shape, self._colours, chosen=chosen, aside=aside)
        painter.restore()

    def _paint_words(self, painter: QPainter, one: Drawn, ratio: float) -> None:
        if one.box is None:
            return
        if one.lead:
            painter.setPen(QPen(self._tone(one), 1.2))
            painter.drawLine(*one.lead)
        shown = one.shown
        looks = (shown.chosen, shown.faded, shown.aside)
        key = (one.text.text(), shown.mark.severity, looks, ratio)
        if key not in self._plates:
            size = one.box.adjusted(-2, -2, 2, 2).toAlignedRect().size()
            self._plates[key] = stamp(size, ratio, lambda at: self._draw_plate(at, one))
        spot = one.box.topLeft().toPoint() - QPoint(2, 2)
        painter.drawPixmap(spot, self._plates[key])

    def _tone(self, one: Drawn) -> QColor:
        tone = QColor(severity_colour(self._colours, one.shown.mark.severity))
        tone.setAlphaF(FADED if one.shown.faded else 1.0)
        return tone

    def _draw_plate(self, painter: QPainter, one: Drawn) -> None:
        """Draw words on their plate, two pixels off the corner."""
        colours, shown = self._colours, one.shown
        plate = QColor(colours.panel)
        plate.setAlpha(200 if shown.aside else 240)
        edge = QColor(colours.focus) if shown.chosen else self._tone(one)
        box = QRectF(QPointF(2, 2), one.box.size() if one.box else one.text.size())
        pen = QPen(edge, 2.4 if shown.chosen else 1.2)
        painter.setPen(QPen(Qt.PenStyle.NoPen) if shown.aside else pen)
        painter.setBrush(plate)
        painter.drawRoundedRect(box, PLATE_PX, PLATE_PX)
        painter.setFont(self._font)
        painter.setPen(QColor(colours.quiet if shown.faded else colours.text))
        painter.drawStaticText(box.topLeft() + QPointF(PLATE_PX, 1), one.text)
