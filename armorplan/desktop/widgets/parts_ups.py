"""Arrows on the parts that say which way is up on the wearer, clear of names and heads."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.rows import DiagramPart
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.mark_places import Anchor, Ground, words_place
from armorplan.desktop.up_words import beside_arrow, up_arrow
from armorplan.desktop.widgets.parts_items import PartItem

BOX_PX = 22.0
ARROW_PX = 17.0
PLATE_PX = 4.0
TAKEN_WEIGHT = 12.0
"""So much more than its area counts what an arrow would hide: it had rather not be drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A part that shall have its arrow; one that is chosen may have it beside itself."""

    part: DiagramPart
    outline: QPainterPath
    chosen: bool


def wanted_ups(items: Iterable[PartItem], chosen: Collection[str]) -> list[Wanted]:
    """Return what is to have an arrow: these parts, of which some are chosen."""
    return [Wanted(part=i.part, outline=i.outline, chosen=i.part.id in chosen) for i in items]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Where arrows may stand beside a part: within bounds, off the parts (all in mm)."""

    bounds: QRectF
    parts: tuple[QRectF, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    part: DiagramPart
    box: QRectF
    words: str


class UpsItem(QGraphicsItem):
    """Paints the arrows as one item; sizes are pixels at every zoom."""

    def __init__(self) -> None:
        super().__init__()
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._drawn: tuple[_Drawn, ...] = ()
        self._box = QRectF()

    def wear(self, colours: Colours, font: QFont) -> None:
        """Draw in these colours and this font from now on."""
        self._colours, self._font = colours, font
        self.update()

    def show_ups(
        self, wanted: Iterable[Wanted], scale: float, taken: Iterable[QRectF], room: Room
    ) -> None:
        """Draw the arrows of parts at a zoom, off what is taken (in mm) and within a room."""
        on, beside = Ground(), Ground()
        boxes = [_scaled(box, scale) for box in taken]
        on.take(boxes, TAKEN_WEIGHT)
        beside.take((*boxes, *(_scaled(box, scale) for box in room.parts)), TAKEN_WEIGHT)
        bounds = _scaled(room.bounds, scale)
        drawn = []
        for one in wanted:
            found = self._on(one, scale, on) or self._beside(one, scale, beside, bounds)
            if found is not None:
                on.take((found.box,), TAKEN_WEIGHT)
                beside.take((found.box,), TAKEN_WEIGHT)
                drawn.append(found)
        self.prepareGeometryChange()
        self._drawn = tuple(drawn)
        around = QRectF()
        for each in drawn:
            around |= each.box.adjusted(-2, -2, 2, 2)
        self._box = _scaled(around, 1 / scale)
        self.setVisible(bool(drawn))
        self.update()

    def _on(self, one: Wanted, scale: float, ground: Ground) -> _Drawn | None:
        """Return an arrow on its part, with its words if there is room for them."""
        area = QTransform.fromScale(scale, scale).map(one.outline)
        bounds = area.boundingRect()
        words = beside_arrow(one.part)
        for text, wide in ((words, self._wide(words)), ("", BOX_PX)):
            if wide > bounds.width() or bounds.height() < BOX_PX:
                continue
            anchor = Anchor(bounds.center(), area=area)
            box = words_place(anchor, (wide, BOX_PX), ground, area, near=True)
            if box is not None:
                return _Drawn(part=one.part, box=box, words=text)
        return None

    def _beside(self, one: Wanted, scale: float, ground: Ground, bounds: QRectF) -> _Drawn | None:
        """Return the arrow of a chosen part beside it, where nothing else lies."""
        if not one.chosen:
            return None
        area = QTransform.fromScale(scale, scale).map(one.outline)
        words = beside_arrow(one.part)
        anchor = Anchor(area.boundingRect().center(), area=area)
        size = (self._wide(words), BOX_PX)
        box = words_place(anchor, size, ground, bounds, near=True)
        return None if box is None else _Drawn(part=one.part, box=box, words=words)

    def _wide(self, words: str) -> float:
        return BOX_PX + QFontMetricsF(self._font).horizontalAdvance(words) + PLATE_PX

    def shown(self) -> dict[str, tuple[QRectF, str]]:
        """Return the box in pixels and the words of each arrow that is drawn, by part."""
        return {one.part.id: (one.box, one.words) for one in self._drawn}

    def boxes(self, scale: float) -> list[QRectF]:
        """Return the boxes of the arrows that are drawn, in mm."""
        return [_scaled(one.box, 1 / scale) for one in self._drawn]

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        to_view = painter.worldTransform()
        painter.resetTransform()
        painter.translate(round(to_view.dx()), round(to_view.dy()))
        painter.setFont(self._font)
        plate = QColor(self._colours.panel)
        plate.setAlpha(225)
        for one in self._drawn:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(plate)
            painter.drawRoundedRect(one.box, PLATE_PX, PLATE_PX)
            middle = one.box.topLeft() + QPointF(BOX_PX / 2, one.box.height() / 2)
            tone = QColor(self._colours.text)
            painter.fillPath(up_arrow(middle, ARROW_PX, one.part.up_deg), tone)
            painter.setPen(tone)
            painter.drawText(
                one.box.adjusted(BOX_PX, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, one.words
            )


def _scaled(box: QRectF, scale: float) -> QRectF:
    return QRectF(box.topLeft() * scale, box.size() * scale)
