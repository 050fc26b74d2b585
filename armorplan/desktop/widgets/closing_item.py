"""Reach over the parts: open rows with their gape, how each joint can be set, the way in."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath, QPen, QPixmap
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.reach_rows import ReachFrame, RowState, WayIn
from armorplan.desktop.closing_scene import (
    HALO_PX,
    OPENING_PX,
    Drawn,
    JointLook,
    JointMark,
    Label,
    LabelKind,
    RowLine,
    Scene,
    joint_marks,
    labels,
    row_lines,
)
from armorplan.desktop.closing_shapes import lens, widest_px
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.standing_glyphs import paint_in_time, paint_standing, standing_colour
from armorplan.desktop.standing_shades import shade_colour
from armorplan.desktop.widgets.picture_marks import stamp
from armorplan.geometry.reach.model import Standing

PLATE_PX = 4.0
EDGE_PX = 14.0
COMING_PX = 11.0
"""Radius of the ring around what comes next."""
FAINT = 0.25
"""So much of the ground is mixed into the mark of a joint that is set."""
SET_SHARE = 0.7
"""The mark of a joint that is set is so much smaller."""


class ClosingItem(QGraphicsItem):
    """Paints a ``ReachFrame`` and a ``WayIn`` as one item; sizes are pixels at every zoom."""

    def __init__(self) -> None:
        super().__init__()
        self._colours: Colours = LIGHT
        self._font = QFont()
        self._marks: tuple[JointMark, ...] = ()
        self._rows: tuple[RowLine, ...] = ()
        self._legs: tuple[tuple[QPointF, QPointF], ...] = ()
        self._labels: tuple[Label, ...] = ()
        self._stamps: dict[tuple[JointLook, int, float], QPixmap] = {}
        self._is_long = False
        self._coming: tuple[QPointF, ...] = ()
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
        barring = frozenset(row for bar in (way.barred_by if way else ()) for row in bar.rows)
        self.prepareGeometryChange()
        self._marks = tuple(joint_marks(frame, spots, scene.room_px))
        standing = way.reach.standing if way else None
        self._is_long = standing is not None and standing >= Standing.END
        self._coming = tuple(spots[joint] for joint in frame.coming if joint in spots)
        self._rows = tuple(row_lines(frame, spots, barring))
        self._legs = tuple(
            (QPointF(*a) * scene.scale, QPointF(*b) * scene.scale)
            for a, b in (way.legs if way else ())
        )
        reach = Drawn(marks=self._marks, rows=self._rows, legs=self._legs)
        self._labels = tuple(labels(reach, way, scene, self._font))
        self._box = self._around(scene.scale)
        self.show()
        self.update()

    def _around(self, scale: float) -> QRectF:
        box = QRectF()
        points = (
            *(mark.at for mark in self._marks),
            *self._coming,
            *(spot for leg in self._legs for spot in leg),
        )
        for spot in points:
            box |= QRectF(spot.x() - EDGE_PX, spot.y() - EDGE_PX, 2 * EDGE_PX, 2 * EDGE_PX)
        for label in self._labels:
            box |= label.box.adjusted(-2, -2, 2, 2)
        return QRectF(box.topLeft() / scale, box.size() / scale)

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
        self._paint_way(painter)
        ratio = painter.device().devicePixelRatio()
        for mark in self._marks:
            self._paint_joint(painter, mark, ratio)
        self._paint_coming(painter)
        painter.setFont(self._font)
        for label in self._labels:
            self._paint_label(painter, label)

    def _paint_row(self, painter: QPainter, line: RowLine) -> None:
        """Paint the gap where it is open, a thick line where it is closed."""
        colours = self._colours
        edge = QColor(colours.alarm if line.barring else colours.edge)
        if line.barring:
            wide = 2 * widest_px(line.spots)
            painter.setPen(_pen(colours.panel, wide + 10))
            painter.drawPolyline(list(line.spots))
            painter.setPen(_pen(mixed(colours.alarm, colours.panel, 0.45), wide + 4))
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

    def _paint_joint(self, painter: QPainter, mark: JointMark, ratio: float) -> None:
        standing = mark.joint.standing
        if standing is None:
            return
        side = round(mark.side_px * (SET_SHARE if mark.joint.is_set else 1.0))
        key = (mark.look, side, ratio)
        if key not in self._stamps:
            self._stamps[key] = stamp(
                QSize(_whole_px(side), _whole_px(side)),
                ratio,
                lambda on: self._paint_mark(on, mark.look, standing, side),
            )
        made = self._stamps[key]
        size = made.deviceIndependentSize()
        painter.drawPixmap(mark.at - QPointF(size.width() / 2, size.height() / 2), made)

    def _paint_mark(
        self, painter: QPainter, look: JointLook, standing: Standing, side: int
    ) -> None:
        colours, whole = self._colours, _whole_px(side)
        is_bare = look.bare and not look.worse
        colour = standing_colour(colours, standing)
        if look.is_set:
            colour = mixed(colour, colours.panel, FAINT)
        middle = QPointF(whole / 2, whole / 2)
        ring = QPen(QColor(colour), 2.2 if look.worse else 1.2)
        has_ring = look.worse or not (look.is_set or is_bare)
        painter.setPen(ring if has_ring else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(shade_colour(colours, look.shade)))
        plate_px = side / 2 + (0.5 if is_bare else HALO_PX)
        painter.drawEllipse(middle, plate_px, plate_px)
        box = QRectF(0, 0, side, side)
        box.moveCenter(middle)
        if look.is_set and standing is Standing.CANNOT:
            paint_in_time(painter, box, colours)
        else:
            paint_standing(painter, box, standing, QColor(colour))

    def _paint_coming(self, painter: QPainter) -> None:
        """Paint a broken ring around what the next step sets."""
        painter.setBrush(Qt.BrushStyle.NoBrush)
        focus = QPen(QColor(self._colours.focus), 2.4)
        focus.setDashPattern([2.0, 1.2])
        for pen in (QPen(QColor(self._colours.panel), 5.0), focus):
            painter.setPen(pen)
            for spot in self._coming:
                painter.drawEllipse(spot, COMING_PX, COMING_PX)

    def _paint_way(self, painter: QPainter) -> None:
        """Paint the way in from its opening, which has a ring; broken where it may be too long."""
        colours = self._colours
        halo, line = _pen(colours.panel, 7.0), _pen(colours.focus, 3.0)
        if self._is_long:
            line.setDashPattern([2.5, 2.0])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in (halo, line):
            painter.setPen(pen)
            for start, end in self._legs:
                painter.drawLine(start, end)
            if self._legs:
                painter.drawEllipse(self._legs[0][0], OPENING_PX, OPENING_PX)

    def _edge(self, kind: LabelKind) -> str:
        colours = self._colours
        return {
            LabelKind.WAY: colours.focus,
            LabelKind.ROW: colours.line,
            LabelKind.BARRING: colours.alarm,
            LabelKind.DEPTH: "",
        }[kind]

    def _paint_label(self, painter: QPainter, label: Label) -> None:
        plate = QColor(self._colours.panel)
        plate.setAlpha(235)
        edge = self._edge(label.kind)
        painter.setPen(QPen(QColor(edge), 1.2) if edge else Qt.PenStyle.NoPen)
        painter.setBrush(plate)
        painter.drawRoundedRect(label.box, PLATE_PX, PLATE_PX)
        painter.setPen(QColor(self._colours.text))
        painter.drawText(label.box, Qt.AlignmentFlag.AlignCenter, label.words)


def _whole_px(side: int) -> int:
    """Return how large a mark of a side is with its halo."""
    return side + 2 * round(HALO_PX + 2)


def _pen(colour: str, width: float) -> QPen:
    caps, joins = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    return QPen(QColor(colour), width, Qt.PenStyle.SolidLine, caps, joins)
