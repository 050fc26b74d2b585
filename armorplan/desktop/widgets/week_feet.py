"""The straps at the foot of the lanes: hours taken of a day's, and time to spare before a due date."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from armorplan.app.week_rows import DayLoad
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.week_geometry import STRAP_PX
from armorplan.desktop.week_layout import Lane
from armorplan.desktop.week_words import due_words, load_words, spare_words
from armorplan.desktop.widgets.week_marks import stitched
from armorplan.desktop.widgets.week_sheet import PAD_PX, Sheet

_LEAST_HOLE_PX = 8.0
_HOLE_PX = 2.6


def paint_feet(painter: QPainter, sheet: Sheet) -> None:
    """Paint what stands at the foot of every lane."""
    geometry = sheet.geometry
    for lane, lane_top in sheet.lanes():
        top = geometry.row_tops(lane, lane_top)[-1]
        if lane.of.due_at is not None:
            _paint_due(painter, sheet, lane, (lane_top, top))
        for load in lane.of.loads:
            if load.end_at >= sheet.seen[0] and load.start_at <= sheet.seen[1]:
                _paint_load(painter, sheet, load, top)


def _paint_load(painter: QPainter, sheet: Sheet, load: DayLoad, top: float) -> None:
    """A strap with a hole for every hour there is; the holes of those taken are filled."""
    left, right = sheet.geometry.x(load.start_at), sheet.geometry.x(load.end_at)
    strap = QRectF(left, top, max(right - left, 3.0), STRAP_PX)
    painter.setPen(QPen(QColor(sheet.colours.edge), 1.0))
    painter.setBrush(QColor(sheet.colours.strap))
    painter.drawRoundedRect(strap, STRAP_PX / 2, STRAP_PX / 2)
    holes = max(1, round(load.there_min / 60))
    share = min(1.0, load.taken_min / max(load.there_min, 1))
    if strap.width() / holes >= _LEAST_HOLE_PX:
        _paint_holes(painter, sheet, strap, holes, share)
    else:
        taken = QRectF(
            strap.left() + 1, strap.top() + 3, (strap.width() - 2) * share, STRAP_PX - 6
        )
        painter.fillRect(taken, QColor(sheet.colours.text))
    metrics = QFontMetricsF(sheet.font)
    fits = (w for w in load_words(load) if metrics.horizontalAdvance(w) <= strap.width() + PAD_PX)
    painter.setFont(sheet.font)
    painter.setPen(QColor(sheet.colours.quiet))
    words = QRectF(strap.center().x() - 90, strap.bottom(), 180, metrics.height())
    painter.drawText(words, Qt.AlignmentFlag.AlignCenter, next(fits, ""))


def _paint_holes(painter: QPainter, sheet: Sheet, strap: QRectF, holes: int, share: float) -> None:
    ink, ground = QColor(sheet.colours.text), QColor(sheet.colours.panel)
    pitch = strap.width() / holes
    painter.setPen(QPen(QColor(sheet.colours.edge), 1.0))
    for hole in range(holes):
        # The hole of an hour that is taken in part is filled to that part.
        part = min(1.0, max(0.0, share * holes - hole))
        spot = QPointF(strap.left() + (hole + 0.5) * pitch, strap.center().y())
        painter.setBrush(ground)
        painter.drawEllipse(spot, _HOLE_PX + 0.6, _HOLE_PX + 0.6)
        if part > 0:
            painter.setBrush(ink)
            painter.drawEllipse(spot, (_HOLE_PX + 0.6) * part, (_HOLE_PX + 0.6) * part)


def _paint_due(painter: QPainter, sheet: Sheet, lane: Lane, rows: tuple[float, float]) -> None:
    """A docket on a string where a build is due, and stitches from its end to there."""
    geometry, colours, (top, foot) = sheet.geometry, sheet.colours, rows
    due_at, late = lane.of.due_at, lane.of.late_min
    if due_at is None:
        return
    x = geometry.x(due_at)
    is_late = late is not None and late > 0
    ink = QColor(colours.alarm if is_late else colours.text)
    painter.setPen(QPen(ink, 1.6))
    painter.drawLine(QPointF(x, top - 4), QPointF(x, foot + STRAP_PX))
    if lane.of.finish_at is not None and late is not None:
        _paint_spare(painter, sheet, lane, (geometry.x(lane.of.finish_at), x, foot))
    metrics = QFontMetricsF(sheet.font)
    words = due_words(lane.of, geometry.zone)
    wide = metrics.horizontalAdvance(words) + 2 * PAD_PX + 8
    docket = QRectF(x - wide / 2, foot + STRAP_PX - 2, wide, metrics.height() + 4)
    left, right = geometry.x(sheet.seen[0]), geometry.x(sheet.seen[1])
    if left <= x <= right:
        docket.moveLeft(min(max(docket.left(), left + 2), right - wide - 2))
    painter.setPen(QPen(ink, 1.4))
    painter.setBrush(QColor(colours.panel))
    painter.drawRoundedRect(docket, 4, 4)
    painter.drawEllipse(QPointF(docket.left() + 7, docket.center().y()), 2.2, 2.2)
    painter.setFont(sheet.font)
    painter.drawText(docket.adjusted(8, 0, 0, 0), Qt.AlignmentFlag.AlignCenter, words)


def _paint_spare(
    painter: QPainter, sheet: Sheet, lane: Lane, where: tuple[float, float, float]
) -> None:
    """Stitches over the time to spare; over what is late a band, with its words where they fit."""
    finish, due, foot = where
    colours, late = sheet.colours, lane.of.late_min or 0
    y = foot + STRAP_PX / 2
    if late > 0:
        band = QRectF(due, foot + 1, finish - due, STRAP_PX - 2)
        painter.fillRect(band, QColor(mixed(colours.panel, colours.alarm, 0.35)))
        painter.setPen(QPen(QColor(colours.alarm), 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(band)
    else:
        painter.setPen(stitched(colours.ready, 2.4))
        painter.drawLine(QPointF(finish, y), QPointF(due, y))
    painter.setPen(QPen(QColor(colours.text), 1.6))
    painter.setBrush(QColor(colours.text))
    painter.drawEllipse(QPointF(finish, y), 3.2, 3.2)
    if sheet.compares and lane.of.promised_at is not None:
        painter.setBrush(QColor(colours.panel))
        painter.setPen(QPen(QColor(colours.paused), 1.8))
        painter.drawEllipse(QPointF(sheet.geometry.x(lane.of.promised_at), y), 4.0, 4.0)
    words = spare_words(lane.of)
    metrics = QFontMetricsF(sheet.font)
    low, high = sorted((finish, due))
    if metrics.horizontalAdvance(words) + 4 * PAD_PX <= high - low:
        wide = metrics.horizontalAdvance(words) + PAD_PX
        ground = QRectF((low + high - wide) / 2, y - metrics.height() / 2, wide, metrics.height())
        painter.fillRect(ground, QColor(colours.panel))
        painter.setPen(QColor(colours.alarm if late > 0 else colours.ready))
        painter.setFont(sheet.font)
        painter.drawText(ground, Qt.AlignmentFlag.AlignCenter, words)
