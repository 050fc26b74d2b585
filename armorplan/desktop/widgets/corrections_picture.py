"""Where holes lie and where they should: the hole as it was dashed, as it will be full, with the mm."""

from collections.abc import Mapping, Sequence
from math import hypot

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPainterPath, QResizeEvent
from PySide6.QtWidgets import (
    QGraphicsItem,
    QGraphicsPathItem,
    QStyleOptionGraphicsItem,
    QWidget,
)

from armorplan.app.corrections_model import HoleMove
from armorplan.desktop.colours import LIGHT, Colours
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.desktop.widgets.parts_overlays import ScaleBar
from armorplan.desktop.widgets.picture_view import RING_Z, PictureView
from armorplan.desktop.widgets.picture_words import line_of, paint_words
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern

HEAD_PX = 7.0
WORDS_OFF_PX = QPointF(5, 0)
AROUND_MM = 12.0
"""Shown around the holes that move: enough to see which edge they lie at."""
REACH_PX = 14.0
BAR_OFF_PX = 8
_USUAL_MM = 4.0


class _MovesItem(QGraphicsItem):
    """Over the leather: each hole before and after, an arrow between, and how far it is."""

    def __init__(self) -> None:
        super().__init__()
        self.colours: Colours = LIGHT
        self.font = QFont()
        self._moves: tuple[tuple[HoleMove, float], ...] = ()
        self._box = QRectF()
        self.setZValue(RING_Z - 1)

    def show_moves(self, moves: tuple[tuple[HoleMove, float], ...]) -> None:
        """Draw moves, each with the diameter of its hole in mm."""
        self.prepareGeometryChange()
        self._moves = moves
        self._box = _box_of([move for move, _ in moves]).adjusted(-60, -60, 60, 60)
        self.update()

    def boundingRect(self) -> QRectF:
        return self._box

    def shape(self) -> QPainterPath:
        return QPainterPath()

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        scale = painter.transform().m11() or 1.0
        for move, across in self._moves:
            before, after = QPointF(*move.before), QPointF(*move.after)
            painter.setPen(line_of(self.colours.focus, 3.0))
            painter.setBrush(QColor(self.colours.panel))
            painter.drawEllipse(after, across / 2, across / 2)
            painter.setPen(line_of(self.colours.edge, 1.6, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(before, across / 2, across / 2)
            painter.setPen(line_of(self.colours.focus, 2.4))
            painter.drawPath(_arrow(before, after, HEAD_PX / scale))
            beside = QPointF(max(before.x(), after.x()) + across / 2, after.y())
            look = (self.colours, self.font)
            paint_words(painter, beside, f"{move.mm:.1f} mm", look=look, off_px=WORDS_OFF_PX)


def _arrow(start: QPointF, end: QPointF, head: float) -> QPainterPath:
    """Return an arrow whose head is no longer than the way."""
    path = QPainterPath(start)
    path.lineTo(end)
    way = end - start
    far = hypot(way.x(), way.y())
    if far > 0:
        along = way * (min(head, far) / far)
        aside = QPointF(-along.y(), along.x()) / 2
        for side in (aside, -aside):
            path.moveTo(end)
            path.lineTo(end - along + side)
    return path


def _box_of(moves: Sequence[HoleMove]) -> QRectF:
    corners = [corner for move in moves for corner in (move.before, move.after)]
    if not corners:
        return QRectF()
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


class CorrectionsPicture(PictureView):
    """Keys of the picture are those of the holes that move."""

    most_scale = 60.0

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("corrections_picture")
        self.setAccessibleName(self.tr("Holes before and after"))
        self.setMinimumSize(200, 160)
        self._leather: list[QGraphicsPathItem] = []
        self._moves: dict[str, HoleMove] = {}
        self._drawn = _MovesItem()
        self._scene.addItem(self._drawn)
        self._bar = ScaleBar(self)
        self.zoomed.connect(self._bar.take_scale)
        self.hands.walked.connect(lambda key: announce(self, self.words_of(key)))
        self._restyle()

    def show_moves(self, pattern: Pattern | None, moves: Sequence[HoleMove]) -> None:
        """Draw the parts whose holes move, near those holes; no moves draw nothing."""
        for item in self._leather:
            self._scene.removeItem(item)
        self._leather = []
        self._moves = {move.hole: move for move in moves}
        wanted = {move.part for move in moves}
        parts = [part for part in pattern.parts if part.id in wanted] if pattern else []
        wide = {hole.id: hole.diameter_mm for part in parts for hole in part.holes}
        for part in parts:
            self._add(part)
        self._drawn.show_moves(tuple((m, wide.get(m.hole, _USUAL_MM)) for m in moves))
        self._restyle()
        self.set_room()
        box = _box_of(moves)
        self.fit_to(box.adjusted(-AROUND_MM, -AROUND_MM, AROUND_MM, AROUND_MM) if moves else box)
        self.show_ring()

    def _add(self, part: Part) -> None:
        path = ring_path(part.outline)
        path.setFillRule(Qt.FillRule.OddEvenFill)
        for slot in part.slots:
            path.addPath(ring_path(slot.outline))
        for hole in part.holes:
            if hole.id not in self._moves:
                path.addEllipse(QPointF(*hole.centre), hole.diameter_mm / 2, hole.diameter_mm / 2)
        item = QGraphicsPathItem(path)
        self._leather.append(item)
        self._scene.addItem(item)

    def words_of(self, hole: str) -> str:
        """Say how far a hole moves."""
        move = self._moves.get(hole)
        if move is None:
            return ""
        return self.tr("{hole} in {part} moves {mm:.1f} mm").format(
            hole=move.hole, part=move.part_name, mm=move.mm
        )

    # --- what the picture says of itself ------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return {key: move.after for key, move in self._moves.items()}

    def bounds(self) -> QRectF:
        box = QRectF()
        for item in self._leather:
            box = box.united(item.path().boundingRect())
        return box

    def edge_of(self, key: str) -> QPainterPath:
        path = QPainterPath()
        if key in self._moves:
            path.addEllipse(QPointF(*self._moves[key].after), _USUAL_MM, _USUAL_MM)
        return path

    def key_at(self, spot: QPoint) -> str:
        at, reach_mm = self.mapToScene(spot), REACH_PX / self.scale_now()
        near = {
            hypot(move.after[0] - at.x(), move.after[1] - at.y()): key
            for key, move in self._moves.items()
        }
        best = min(near, default=reach_mm + 1)
        return near[best] if best <= reach_mm else ""

    # --- events -------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._bar.move(BAR_OFF_PX, self.height() - self._bar.height() - BAR_OFF_PX)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._restyle()

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        self._drawn.colours, self._drawn.font = colours, self.font()
        self._drawn.update()
        for item in self._leather:
            item.setPen(line_of(colours.edge, 1.6))
            item.setBrush(QColor(colours.leather))
        self.show_ring()
