"""What the shapes tell, drawn over the parts: which marks, where their words stand, what is hit."""

from collections.abc import Iterable, Iterator, Mapping

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainterPath, QStaticText, QTransform
from PySide6.QtWidgets import QGraphicsScene

from armorplan.desktop.colours import Colours
from armorplan.desktop.mark_choice import ShownMark
from armorplan.desktop.mark_places import Ground, words_place
from armorplan.desktop.mark_shapes import mark_area, mark_shape
from armorplan.desktop.mark_words import MARK, mark_label
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.widgets.parts_mark_item import PLATE_PX, Drawn, MarksItem
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity

SOUGHT_MOST = 40
"""For the words of so many marks a place is sought far off, too, the gravest first."""
WORDS_MOST_LINES = 15
"""Words longer than so many lines are high are cut off: the list has all of them."""
WORDS_WEIGHT, LINE_WEIGHT = 3.0, 0.5
RING_PX = 4.0
"""So far off the words the ring of what has the keys is drawn."""
_RANK = (Severity.ERROR, Severity.WARNING, Severity.NOTE, None)


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
        self._texts: dict[str, QStaticText] = {}
        self._outlines: Mapping[str, QPainterPath] = {}
        self._areas: dict[Mark, QPainterPath] = {}
        self._scale = 1.0

    def wear(self, colours: Colours, font: QFont) -> None:
        """Draw in these colours and this font from now on."""
        self._font = font
        self._texts.clear()
        for item in (self._under, self._over):
            item.wear(colours, font)

    def _text(self, words: str) -> QStaticText:
        if words not in self._texts:
            metrics = QFontMetricsF(self._font)
            most_px = WORDS_MOST_LINES * metrics.height()
            text = QStaticText(metrics.elidedText(words, Qt.TextElideMode.ElideRight, most_px))
            text.setTextFormat(Qt.TextFormat.PlainText)
            text.prepare(font=self._font)
            self._texts[words] = text
        return self._texts[words]

    def take(self, outlines: Mapping[str, QPainterPath]) -> None:
        """Draw over these parts, whose outlines are in mm, from now on."""
        self._outlines = outlines
        self._areas.clear()

    def _area(self, mark: Mark) -> QPainterPath:
        """Return what a mark covers, in mm: the same at every zoom."""
        if mark not in self._areas:
            self._areas[mark] = mark_area(mark, self._outlines.get(mark.part))
        return self._areas[mark]

    def show(
        self, shown: tuple[ShownMark, ...], scale: float, taken: Iterable[QRectF], room: QRectF
    ) -> None:
        """Draw marks at a zoom, their words off what is taken and within a room (both in mm).

        Where many sound things are drawn their words stand within their part or nowhere; a sound
        bend that is drawn only because everything is has none.
        """
        self._shown, self._scale = shown, scale
        drawn = []
        for one in shown:
            shape = mark_shape(one.mark, scale, self._area(one.mark))
            if shape is not None:
                text = self._text(mark_label(one.mark))
                box = shape.bounds()
                drawn.append(Drawn(one, shape, text, box.toAlignedRect(), box))
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
        for rank, one in enumerate(one for one in self._drawn if one.text.text()):
            size = (one.text.size().width() + 2 * PLATE_PX, metrics.height() + 2)
            near = one.shown.aside or one.again or rank >= SOUGHT_MOST
            bounds = self._outline(one) if one.shown.close else room
            if bounds is None or not _has_room(bounds, size):
                continue
            box = words_place(one.shape.anchor, size, ground, bounds, near=near)
            if box is not None:
                one.write(box)
                ground.take((box,), WORDS_WEIGHT)

    def _outline(self, one: Drawn) -> QPainterPath | None:
        """Return the room for words that stand aside: the part's outline in pixels, if any."""
        outline = self._outlines.get(one.shown.mark.part)
        if outline is None or (one.shown.aside and one.shape.kind is MarkKind.ZONE):
            return None
        return QTransform.fromScale(self._scale, self._scale).map(outline)

    def hide(self) -> None:
        """Show nothing until marks are drawn anew: the zoom has changed."""
        self._under.hide()
        self._over.hide()

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
                box = (one.box or one.shape.bounds()).adjusted(
                    -RING_PX, -RING_PX, RING_PX, RING_PX
                )
                path.addRect(_scaled(box, 1 / self._scale))
        return path

    def words(self) -> tuple[str, ...]:
        """Return the words that can be read at the present zoom."""
        return tuple(one.text.text() for one in self._drawn if one.box is not None)

    def boxes(self) -> list[QRectF]:
        """Return the boxes of the words that can be read, in mm."""
        return [_scaled(one.box, 1 / self._scale) for one in self._drawn if one.box is not None]

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


def _has_room(room: QRectF | QPainterPath, size: tuple[float, float]) -> bool:
    """Tell whether words of a size could lie in a room at all; an empty one is without bounds."""
    box = room if isinstance(room, QRectF) else room.boundingRect()
    return box.isEmpty() or (size[0] <= box.width() and size[1] <= box.height())


def _scaled(box: QRectF, scale: float) -> QRectF:
    return QRectF(box.topLeft() * scale, box.size() * scale)
