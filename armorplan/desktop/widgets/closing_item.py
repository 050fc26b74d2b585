"""Reach over the parts: open rows with their gape, how each joint can be set, the way in."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.reach_rows import JointReach, ReachFrame, RowReach, RowState, WayIn
from armorplan.desktop.closing_shapes import MOST_PX, lens
from armorplan.desktop.closing_words import need_words, row_words
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.mark_places import Anchor, Ground, words_place
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.standing_glyphs import paint_standing, standing_colour
from armorplan.geometry.reach.model import Standing

HALO_PX = 3.0
PLATE_PX = 4.0
EDGE_PX = 14.0
SET_SHARE = 0.7
"""The mark of a joint that is set is so much smaller."""
LETTERS_PX = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Where things lie at a zoom.

    Attributes:
        spots: where each joint's head shows, in mm.
        sizes: how large a joint's mark is drawn, in pixels.
        taken: what words should not hide, in mm.
        room: where words may stand, in mm.
    """

    scale: float
    spots: Mapping[str, Place]
    sizes: Callable[[str], float]
    taken: tuple[QRectF, ...]
    room: QRectF


@dataclass(frozen=True, slots=True)
class _Mark:
    at: QPointF
    joint: JointReach
    side_px: float


@dataclass(frozen=True, slots=True)
class _RowLine:
    spots: tuple[QPointF, ...]
    row: RowReach
    barring: bool


@dataclass(frozen=True, slots=True)
class _Label:
    box: QRectF
    words: str
    edge: str


class ClosingItem(QGraphicsItem):
    """Paints a ``ReachFrame`` and a ``WayIn`` as one item; sizes are pixels at every zoom."""

    def __init__(self) -> None:
        super().__init__()
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._marks: tuple[_Mark, ...] = ()
        self._rows: tuple[_RowLine, ...] = ()
        self._legs: tuple[tuple[QPointF, QPointF], ...] = ()
        self._labels: tuple[_Label, ...] = ()
        self._stamps: dict[tuple[Standing, bool, bool, int, float], QPixmap] = {}
        self._box = QRectF()
        self.hide()

    def wear(self, colours: Colours, font: QFont) -> None:
        """Draw in these colours and this font from now on."""
        self._colours, self._font = colours, font
        self._stamps.clear()
        self.update()

    def show_reach(self, frame: ReachFrame, way: WayIn | None, scene: Scene) -> None:
        """Draw a place in the order at a zoom."""
        spots = {joint: QPointF(*at) * scene.scale for joint, at in scene.spots.items()}
        barring = frozenset(row for rows in (way.barred_by if way else ()) for row in rows)
        self.prepareGeometryChange()
        self._marks = tuple(_marks(frame, spots, scene.sizes))
        self._rows = tuple(
            _RowLine(tuple(spots[j] for j in row.joints if j in spots), row, row.id in barring)
            for row in frame.rows
            if all(joint in spots for joint in row.joints)
        )
        self._legs = tuple(
            (QPointF(*a) * scene.scale, QPointF(*b) * scene.scale)
            for a, b in (way.legs if way else ())
        )
        self._labels = tuple(self._find_labels(way, scene))
        self._box = self._around(scene.scale)
        self.show()
        self.update()

    def _around(self, scale: float) -> QRectF:
        box = QRectF()
        points = (
            *(mark.at for mark in self._marks),
            *(spot for leg in self._legs for spot in leg),
        )
        for spot in points:
            box |= QRectF(spot.x() - EDGE_PX, spot.y() - EDGE_PX, 2 * EDGE_PX, 2 * EDGE_PX)
        for label in self._labels:
            box |= label.box.adjusted(-2, -2, 2, 2)
        return QRectF(box.topLeft() / scale, box.size() / scale)

    # --- words --------------------------------------------------------------------------------

    def _find_labels(self, way: WayIn | None, scene: Scene) -> Iterator[_Label]:
        """Yield the words of the way in, then those of the rows, where each finds a place."""
        ground = Ground()
        ground.take((_scaled(box, scene.scale) for box in scene.taken), 3.0)
        ground.take(
            QRectF(m.at.x() - m.side_px / 2, m.at.y() - m.side_px / 2, m.side_px, m.side_px)
            for m in self._marks
        )
        room = _scaled(scene.room, scene.scale)
        metrics = QFontMetricsF(self._font)
        for words, anchor, edge in self._wanted(way):
            size = (metrics.horizontalAdvance(words) + 2 * LETTERS_PX, metrics.height() + 2)
            box = words_place(anchor, size, ground, room)
            if box is not None:
                ground.take((box,), 3.0)
                yield _Label(box, words, edge)

    def _wanted(self, way: WayIn | None) -> Iterator[tuple[str, Anchor, str]]:
        margin = way.reach.margin if way else None
        if self._legs and margin is not None:
            start, end = max(self._legs, key=lambda leg: (leg[1] - leg[0]).manhattanLength())
            yield need_words(margin), _anchor(start, end), self._colours.focus
        for line in sorted(self._rows, key=lambda line: not line.barring):
            words = row_words(line.row)
            if words and line.spots:
                at = _widest(line.row)
                ahead = line.spots[min(at + 1, len(line.spots) - 1)]
                edge = self._colours.alarm if line.barring else self._colours.line
                yield words, _anchor(line.spots[at], ahead, at=line.spots[at]), edge

    def words(self) -> tuple[str, ...]:
        """Return the words that can be read at the present zoom."""
        return tuple(label.words for label in self._labels)

    # --- painting -----------------------------------------------------------------------------

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
        for line in self._rows:
            self._paint_row(painter, line)
        ratio = painter.device().devicePixelRatio()
        for mark in self._marks:
            self._paint_joint(painter, mark, ratio)
        self._paint_way(painter)
        painter.setFont(self._font)
        for label in self._labels:
            self._paint_label(painter, label)

    def _paint_row(self, painter: QPainter, line: _RowLine) -> None:
        """Paint the gap where it is open, a thick line where it is closed."""
        colours = self._colours
        edge = QColor(colours.alarm if line.barring else colours.edge)
        if line.barring:
            painter.setPen(_pen(colours.panel, 2 * MOST_PX + 10))
            painter.drawPolyline(list(line.spots))
            painter.setPen(_pen(mixed(colours.alarm, colours.panel, 0.45), 2 * MOST_PX + 4))
            painter.drawPolyline(list(line.spots))
        if line.row.state is not RowState.OPEN:
            painter.setPen(QPen(edge, 3.0))
            for at in range(len(line.spots) - 1):
                if line.row.is_set[at] and line.row.is_set[at + 1]:
                    painter.drawLine(line.spots[at], line.spots[at + 1])
        if line.row.state is RowState.SHUT:
            return
        painter.setBrush(QColor(colours.panel))
        is_wide = line.row.state is RowState.OPEN
        style = Qt.PenStyle.DashLine if is_wide else Qt.PenStyle.SolidLine
        painter.setPen(QPen(edge, 1.4, style))
        painter.drawPath(lens(line.spots, line.row.gapes_mm))

    def _paint_joint(self, painter: QPainter, mark: _Mark, ratio: float) -> None:
        standing = mark.joint.standing
        if standing is None:
            return
        side = round(mark.side_px * (SET_SHARE if mark.joint.is_set else 1.0))
        key = (standing, mark.joint.is_set, mark.joint.worse, side, ratio)
        if key not in self._stamps:
            self._stamps[key] = self._stamp(mark.joint, standing, side, ratio)
        stamp = self._stamps[key]
        size = stamp.deviceIndependentSize()
        painter.drawPixmap(mark.at - QPointF(size.width() / 2, size.height() / 2), stamp)

    def _stamp(self, joint: JointReach, standing: Standing, side: int, ratio: float) -> QPixmap:
        colours = self._colours
        whole = side + 2 * (HALO_PX + 2)
        pixmap = QPixmap(round(whole * ratio), round(whole * ratio))
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colour = standing_colour(colours, standing)
        if joint.is_set and not joint.worse:
            colour = mixed(colour, colours.panel, 0.4)
        middle = QPointF(whole / 2, whole / 2)
        ring = QPen(QColor(colour), 2.2 if joint.worse else 1.2)
        painter.setPen(ring if joint.worse or not joint.is_set else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.panel))
        painter.drawEllipse(middle, side / 2 + HALO_PX, side / 2 + HALO_PX)
        box = QRectF(0, 0, side, side)
        box.moveCenter(middle)
        paint_standing(painter, box, standing, QColor(colour))
        painter.end()
        return pixmap

    def _paint_way(self, painter: QPainter) -> None:
        """Paint the way in from its opening, which has a ring, to the joint, with an arrow."""
        colours = self._colours
        for colour, width in ((colours.panel, 7.0), (colours.focus, 3.0)):
            painter.setPen(_pen(colour, width))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for start, end in self._legs:
                painter.drawLine(start, end)
            if self._legs:
                painter.drawEllipse(self._legs[0][0], 6.0, 6.0)

    def _paint_label(self, painter: QPainter, label: _Label) -> None:
        plate = QColor(self._colours.panel)
        plate.setAlpha(235)
        painter.setPen(QPen(QColor(label.edge), 1.2))
        painter.setBrush(plate)
        painter.drawRoundedRect(label.box, PLATE_PX, PLATE_PX)
        painter.setPen(QColor(self._colours.text))
        painter.drawText(label.box, Qt.AlignmentFlag.AlignCenter, label.words)


def _marks(
    frame: ReachFrame, spots: Mapping[str, QPointF], sizes: Callable[[str], float]
) -> Iterator[_Mark]:
    """Yield the marks of joints, those that are set under the others."""
    for joint in sorted(frame.joints, key=lambda one: not one.is_set):
        if joint.id in spots and joint.margin is not None:
            yield _Mark(spots[joint.id], joint, sizes(joint.id))


def _widest(row: RowReach) -> int:
    """Return the place of a row's widest gape; its middle while it is wide open."""
    if row.state is RowState.OPEN:
        return len(row.joints) // 2
    gapes = [gape or 0.0 for gape in row.gapes_mm]
    return gapes.index(max(gapes))


def _anchor(start: QPointF, end: QPointF, at: QPointF | None = None) -> Anchor:
    way = end - start
    long = (way.x() ** 2 + way.y() ** 2) ** 0.5 or 1.0
    return Anchor((start + end) / 2 if at is None else at, (way.x() / long, way.y() / long))


def _pen(colour: str, width: float) -> QPen:
    caps, joins = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    return QPen(QColor(colour), width, Qt.PenStyle.SolidLine, caps, joins)


def _scaled(box: QRectF, scale: float) -> QRectF:
    return QRectF(box.topLeft() * scale, box.size() * scale)
