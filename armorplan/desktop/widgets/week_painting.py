"""Paints the week: its heading, the names of its lanes, nights behind, the present before it."""

from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from armorplan.app.week_rows import Stretch
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.week_layout import Lane, hours, midnights
from armorplan.desktop.week_words import lane_lines
from armorplan.desktop.widgets.week_air import paint_air
from armorplan.desktop.widgets.week_blocks import paint_blocks, paint_stamp
from armorplan.desktop.widgets.week_feet import paint_feet
from armorplan.desktop.widgets.week_sheet import (
    PAD_PX,
    Frame,
    Sheet,
    has_days,
    label_step,
    paint_heading,
)

NAME_LEFT_PX = 10.0


def paint_chart(painter: QPainter, sheet: Sheet, frame: Frame) -> None:
    """Paint all of it: the days under their heading, beside the names of the lanes."""
    geometry = sheet.geometry
    wide, high = frame.size.width(), frame.size.height()
    painter.fillRect(QRectF(0, 0, wide, high), QColor(sheet.colours.panel))
    deep = max(geometry.height, high - frame.heading_px)
    painter.setClipRect(QRectF(frame.margin_px, frame.heading_px, wide, high))
    painter.translate(frame.offset)
    _paint_ground(painter, sheet, deep)
    paint_feet(painter, sheet)
    paint_blocks(painter, sheet)
    _paint_now(painter, sheet, frame.now[0], deep)
    if frame.ring in geometry.boxes:
        _paint_ring(painter, sheet, frame.ring)
    painter.resetTransform()
    painter.setClipRect(QRectF(frame.margin_px, 0, wide, frame.heading_px))
    painter.translate(frame.offset.x(), 0)
    days_px = frame.heading_px - frame.air_px
    paint_heading(painter, sheet, days_px, frame.now)
    if frame.air_px:
        paint_air(painter, sheet, days_px, frame.air_px)
    painter.resetTransform()
    painter.setClipping(False)
    _paint_names(painter, sheet, frame)


def _paint_names(painter: QPainter, sheet: Sheet, frame: Frame) -> None:
    colours = sheet.colours
    margin, high = frame.margin_px, frame.size.height()
    painter.fillRect(QRectF(0, 0, margin, high), QColor(colours.window))
    painter.setPen(QColor(colours.line))
    painter.drawLine(QPointF(margin - 0.5, 0), QPointF(margin - 0.5, high))
    painter.setFont(sheet.font)
    if frame.air_px:
        painter.setPen(QColor(colours.quiet))
        row = QRectF(10, frame.heading_px - frame.air_px, margin - 10, frame.air_px)
        painter.drawText(row, Qt.AlignmentFlag.AlignVCenter, sheet.air)
    painter.setClipRect(QRectF(0, frame.heading_px, margin, high))
    painter.setPen(QColor(colours.text))
    for lane, top in sheet.lanes():
        # The name of a lane that one has scrolled into stays in sight.
        y = max(frame.offset.y() + top, frame.heading_px + 2)
        lowest = frame.offset.y() + top + _lane_px(sheet, lane) - _name_px(sheet, lane)
        _paint_name(
            painter, sheet, lane, QPointF(margin, min(y, max(lowest, frame.offset.y() + top)))
        )


def _lane_px(sheet: Sheet, lane: Lane) -> float:
    return sheet.geometry.row_tops(lane, 0)[-1] + sheet.geometry.foot_px(lane)


def _name_px(sheet: Sheet, lane: Lane) -> float:
    """Return how tall a lane's name is, with what stands below it."""
    return (1 + len(lane_lines(lane.of, sheet.geometry.zone))) * QFontMetricsF(sheet.font).height()


def _paint_name(painter: QPainter, sheet: Sheet, lane: Lane, at: QPointF) -> None:
    """Paint a lane's name with what stands below it; ``at`` is its upper right corner."""
    geometry, colours = sheet.geometry, sheet.colours
    metrics = QFontMetricsF(sheet.font)
    left, y = NAME_LEFT_PX, at.y() + geometry.row_px(lane) / 2
    lines = lane_lines(lane.of, geometry.zone)
    room = _lane_px(sheet, lane)
    lines = lines[: max(0, int(room / metrics.height()) - 1)]
    if lines:
        y = at.y() + metrics.height() / 2 + 2
    if lane.of.tag:
        spot = QPointF(left, y)
        is_open = lane.of.id == sheet.open_build
        left = paint_stamp(painter, sheet, spot, lane.of.tag, filled=is_open).right() + PAD_PX
    painter.setFont(sheet.font)
    painter.setPen(QColor(colours.text))
    for number, line in enumerate((lane.name, *lines)):
        start = left if number == 0 else NAME_LEFT_PX
        row = QRectF(start, y - metrics.height() / 2, at.x() - start - 4, metrics.height())
        text = metrics.elidedText(line, Qt.TextElideMode.ElideRight, row.width())
        painter.drawText(row, Qt.AlignmentFlag.AlignVCenter, text)
        painter.setPen(QColor(colours.quiet))
        y += metrics.height()


def _paint_ground(painter: QPainter, sheet: Sheet, height: float) -> None:
    """Paint closed hours, midnights and full hours behind everything; smooth edges would only cost time."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    geometry, colours = sheet.geometry, sheet.colours
    _paint_own_hours(painter, sheet)
    for stretch in geometry.week.closed:
        if _is_seen(stretch, sheet):
            left, right = geometry.x(stretch[0]), geometry.x(stretch[1])
            _paint_closed(painter, sheet, QRectF(left, 0, right - left, height))
    faint = QPen(QColor(mixed(colours.line, colours.panel, 0.75)), 1.0)
    painter.setPen(faint)
    for at in hours(*sheet.seen, geometry.zone, label_step(sheet)):
        painter.drawLine(QPointF(geometry.x(at), 0), QPointF(geometry.x(at), height))
    firm = QPen(QColor(colours.line), 1.4)
    for at in midnights(*sheet.seen, geometry.zone):
        is_firm = has_days(sheet) or not at.astimezone(geometry.zone).weekday()
        painter.setPen(firm if is_firm else faint)
        painter.drawLine(QPointF(geometry.x(at), 0), QPointF(geometry.x(at), height))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def _paint_own_hours(painter: QPainter, sheet: Sheet) -> None:
    """Paint where one person or place has closed while others have not."""
    geometry = sheet.geometry
    shade = QColor(mixed(sheet.colours.panel, sheet.colours.night, 0.55))
    for lane, lane_top in sheet.lanes():
        top = lane_top - 4
        low = geometry.row_tops(lane, lane_top)[-1] + geometry.foot_px(lane) + 4
        for stretch in lane.of.closed:
            if _is_seen(stretch, sheet):
                left, right = geometry.x(stretch[0]), geometry.x(stretch[1])
                painter.fillRect(QRectF(left, top, right - left, low - top), shade)


def _is_seen(stretch: Stretch, sheet: Sheet) -> bool:
    return stretch[1] >= sheet.seen[0] and stretch[0] <= sheet.seen[1]


def _paint_closed(painter: QPainter, sheet: Sheet, box: QRectF) -> None:
    painter.fillRect(box, QColor(sheet.colours.night))
    metrics = QFontMetricsF(sheet.font)
    if box.width() < metrics.horizontalAdvance(sheet.closed) + 2 * PAD_PX:
        return
    painter.setFont(sheet.font)
    painter.setPen(QColor(sheet.colours.quiet))
    foot = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom
    painter.drawText(box.adjusted(0, 0, 0, -PAD_PX), foot, sheet.closed)


def _paint_now(painter: QPainter, sheet: Sheet, now_at: datetime, height: float) -> None:
    """Paint the line of the present, with a halo so that it shows over blocks."""
    x = sheet.geometry.x(now_at)
    for colour, width in ((sheet.colours.panel, 6.0), (sheet.colours.text, 2.0)):
        painter.setPen(QPen(QColor(colour), width))
        painter.drawLine(QPointF(x, 0), QPointF(x, height))


def _paint_ring(painter: QPainter, sheet: Sheet, key: str) -> None:
    """Paint the ring around the block that has the keys."""
    box = sheet.geometry.boxes[key].adjusted(-4, -4, 4, 4)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, width in ((sheet.colours.panel, 6.0), (sheet.colours.focus, 2.5)):
        painter.setPen(QPen(QColor(colour), width))
        painter.drawRoundedRect(box, 5, 5)
