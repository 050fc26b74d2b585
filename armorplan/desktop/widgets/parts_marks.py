"""What the shapes tell, drawn over the parts: arrows, zones, outlines, axes, and their words."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QStaticText
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.mark_choice import ShownMark
from armorplan.desktop.mark_places import Ground, leader, words_place
from armorplan.desktop.mark_shapes import MarkShape, mark_shape, paint_mark, union
from armorplan.desktop.mark_words import MARK, mark_label
from armorplan.desktop.picture_colours import severity_colour
from armorplan.desktop.picture_keys import Place
from armorplan.kernel.findings import Severity

LABELS_MOST = 150
"""Words of so many marks at most stand in the picture, the chosen and the gravest first."""
PLATE_PX = 4.0
FADED = 0.45
"""What belongs to something else than what is chosen is only this dense."""
WORDS_WEIGHT, LINE_WEIGHT = 3.0, 0.5
_RANK = (Severity.ERROR, Severity.WARNING, Severity.NOTE, None)


@dataclass(slots=True)
class Drawn:
    """A mark that is drawn: its shape at the present zoom, and the box of its words if they show."""

    shown: ShownMark
    shape: MarkShape
    text: QStaticText
    around: QRectF
    """The box around the mark and its words."""
    box: QRectF | None = None
    again: bool = False
    """The other side says the same."""

    def write(self, box: QRectF) -> None:
        """Have the words in this box."""
        self.box = box
        self.around |= box


class MarksItem(QGraphicsItem):
    """Paints many marks as one item, those in view only; sizes are pixels at every zoom."""

    def __init__(self, *, words: bool) -> None:
        super().__init__()
        self.colours: Colours = LIGHT
        self.font = QFont()
        self._words = words
        self._drawn: tuple[Drawn, ...] = ()
        self._box = QRectF()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)

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
        painter.translate(to_view.dx(), to_view.dy())
        in_view = [one for one in self._drawn if one.around.intersects(seen)]
        for one in in_view:
            if one.shape.is_area is not self._words:
                painter.setOpacity(FADED if one.shown.faded else 1.0)
                paint_mark(painter, one.shape, self.colours, chosen=one.shown.chosen)
        painter.setOpacity(1.0)
        if self._words:
            self._paint_words(painter, in_view)

    def _paint_words(self, painter: QPainter, drawn: Iterable[Drawn]) -> None:
        colours = self.colours
        painter.setFont(self.font)
        for one in drawn:
            if one.box is None:
                continue
            tone = QColor(severity_colour(colours, one.shown.mark.severity))
            tone.setAlphaF(FADED if one.shown.faded else 1.0)
            line = leader(one.shape.anchor, one.box)
            if line:
                painter.setPen(QPen(tone, 1.2))
                painter.drawLine(*line)
            plate = QColor(colours.panel)
            plate.setAlpha(240)
            edge = QColor(colours.focus) if one.shown.chosen else tone
            painter.setPen(QPen(edge, 2.4 if one.shown.chosen else 1.2))
            painter.setBrush(plate)
            painter.drawRoundedRect(one.box, PLATE_PX, PLATE_PX)
            painter.setPen(QColor(colours.quiet if one.shown.faded else colours.text))
            painter.drawStaticText(one.box.topLeft() + QPointF(PLATE_PX, 1), one.text)


class PartsMarks:
    """The marks over the parts. Keys are ``mark:ID``, of what the shapes tell of one thing."""

    def __init__(self, scene: QGraphicsScene, *, under_z: float, over_z: float) -> None:
        self._under, self._over = MarksItem(words=False), MarksItem(words=True)
        for item, z in ((self._under, under_z), (self._over, over_z)):
            item.setZValue(z)
            scene.addItem(item)
        self._shown: tuple[ShownMark, ...] = ()
        self._drawn: tuple[Drawn, ...] = ()
        self._font = QFont()
        self._scale = 1.0

    def wear(self, colours: Colours) -> None:
        """Draw in these colours from now on."""
        for item in (self._under, self._over):
            item.colours = colours
            item.update()

    def write_in(self, font: QFont) -> None:
        """Write in this font from now on."""
        self._font = self._over.font = font

    def show(
        self, shown: tuple[ShownMark, ...], scale: float, taken: Iterable[QRectF], room: QRectF
    ) -> None:
        """Draw marks at a zoom, their words off what is taken and within a room (both in mm)."""
        self._shown, self._scale = shown, scale
        drawn = []
        for one in shown:
            shape = mark_shape(one.mark, scale)
            if shape is not None:
                text = QStaticText(mark_label(one.mark))
                drawn.append(Drawn(one, shape, text, shape.bounds()))
        self._drawn = _by_weight(drawn)
        self._place_words(taken, _scaled(room, scale))
        self._under.show_marks(self._drawn, scale)
        self._over.show_marks(self._drawn, scale)

    def _place_words(self, taken: Iterable[QRectF], room: QRectF) -> None:
        ground = Ground()
        ground.take((_scaled(box, self._scale) for box in taken), WORDS_WEIGHT)
        lines = [one.shape for one in self._drawn if not one.shape.is_area]
        ground.take((line.bounds() for line in lines), LINE_WEIGHT)
        metrics = QFontMetricsF(self._font)
        for one in [one for one in self._drawn if one.text.text()][:LABELS_MOST]:
            one.text.prepare(font=self._font)
            size = (one.text.size().width() + 2 * PLATE_PX, metrics.height() + 2)
            near = one.shown.aside or one.again
            box = words_place(one.shape.anchor, size, ground, room, near=near)
            if box is not None:
                one.write(box)
                ground.take((box,), WORDS_WEIGHT)

    # --- what can be reached ----------------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        """Return where each thing the marks belong to lies, in mm: at its words or its mark."""
        found: dict[str, Place] = {}
        for one in self._drawn:
            spot = (one.box.center() if one.box else one.shape.anchor.at) / self._scale
            found.setdefault(MARK + one.shown.measure, (spot.x(), spot.y()))
        return found

    def key_at(self, spot: QPointF) -> str:
        """Return what has its words under a spot of the drawing in mm; empty where nothing has."""
        at = spot * self._scale
        for one in self._drawn:
            if one.box is not None and one.box.contains(at):
                return MARK + one.shown.measure
        return ""

    def edge_of(self, key: str) -> QPainterPath:
        """Return the boxes around the words or the marks of a thing, in mm."""
        path = QPainterPath()
        for one in self._drawn:
            if MARK + one.shown.measure == key:
                path.addRect(_scaled(one.box or one.shape.bounds(), 1 / self._scale))
        return path

    def words(self) -> tuple[str, ...]:
        """Return the words that can be read at the present zoom."""
        return tuple(one.text.text() for one in self._drawn if one.box is not None)

    def corners(self) -> Iterator[Place]:
        """Yield the corners of the words that show, in mm."""
        for one in self._drawn:
            if one.box is not None:
                box = _scaled(one.box, 1 / self._scale)
                for corner in (box.topLeft(), box.topRight(), box.bottomLeft(), box.bottomRight()):
                    yield corner.x(), corner.y()


def _by_weight(drawn: list[Drawn]) -> tuple[Drawn, ...]:
    """Return marks in the order in which they find a place for their words.

    What is chosen comes first, then what is lit, the graver before the rest; what the other side
    has said already comes last.
    """
    said: set[tuple[str, str]] = set()
    for one in drawn:
        words = (one.shown.measure, one.text.text())
        one.again = words in said
        said.add(words)
    return tuple(sorted(drawn, key=_weight))


def _weight(one: Drawn) -> tuple[bool, bool, bool, bool, int]:
    shown, grave = one.shown, _RANK.index(one.shape.severity)
    return (not shown.chosen, shown.faded, shown.aside, one.again, grave)


def _scaled(box: QRectF, scale: float) -> QRectF:
    return QRectF(box.topLeft() * scale, box.size() * scale)
