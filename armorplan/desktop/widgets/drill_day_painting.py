"""Paints the lanes of a day: closed hours and deadline behind, bars, and the windows of waits."""

from PySide6.QtCore import QLineF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.drill_day_layout import DayScale, Window
from armorplan.desktop.drill_marks import Mark, mark_colour
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.widgets.week_marks import stitched

ROUND_PX = 4.0
BAR_IN_PX = 4.0
DUE_PX = 2.2
APART_SHARE = 1.25
"""Hours are written so many of their width apart."""
Look = tuple[QFont, Colours]


def paint_ground(painter: QPainter, box: QRectF, scale: DayScale, colours: Colours) -> None:
    """Paint a lane without anything on it: closed hours, full hours, and by when all has to be done."""
    painter.fillRect(box, QColor(colours.panel))
    for start, end in scale.span.closed:
        left, right = scale.x(start), scale.x(end)
        painter.fillRect(
            QRectF(left, box.top(), right - left, box.height()), QColor(colours.night)
        )
    painter.setPen(QPen(QColor(mixed(colours.line, colours.panel, 0.7)), 1.0))
    for minute in scale.span.full_hours():
        painter.drawLine(_upright(box, scale.x(minute)))
    painter.setPen(QPen(QColor(colours.alarm), DUE_PX, Qt.PenStyle.DashLine))
    painter.drawLine(_upright(box, scale.x(scale.span.due_min)))


def _upright(box: QRectF, x: float) -> QLineF:
    return QLineF(x, box.top(), x, box.bottom())


def bar_box(box: QRectF, scale: DayScale, start_min: int, minutes: int) -> QRectF:
    """Return where a bar lies in its lane; never too narrow to be taken hold of."""
    left, right = scale.x(start_min), scale.x(start_min + minutes)
    return QRectF(
        left, box.top() + BAR_IN_PX, max(right - left, 10.0), box.height() - 2 * BAR_IN_PX
    )


def paint_bar(
    painter: QPainter, bar: QRectF, letter: str, *, look: Look, is_set: bool, mark: Mark | None
) -> None:
    """Paint a bar with its letter; dashed where nobody has said yet when it begins."""
    font, colours = look
    edge = QColor(mark_colour(colours, mark) if mark else colours.edge)
    is_amiss = mark in (Mark.BREAK, Mark.MOVED)
    pen = QPen(edge, 3.0 if is_amiss else 1.6)
    if not is_set:
        pen = stitched(colours.edge, 1.6)
    painter.setPen(pen)
    painter.setBrush(QColor(colours.leather) if is_set else Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(bar, ROUND_PX, ROUND_PX)
    if is_amiss:
        hatch = QColor(edge)
        hatch.setAlpha(110)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(hatch, Qt.BrushStyle.BDiagPattern))
        painter.drawRoundedRect(bar, ROUND_PX, ROUND_PX)
    painter.setFont(font)
    painter.setPen(QColor(colours.text))
    wide = QFontMetricsF(font).horizontalAdvance(letter) + 2
    if wide <= bar.width():
        painter.drawText(bar, Qt.AlignmentFlag.AlignCenter, letter)
    else:
        beside = QRectF(bar.right() + 2, bar.top(), wide, bar.height())
        painter.drawText(beside, Qt.AlignmentFlag.AlignCenter, letter)


def paint_window(
    painter: QPainter, box: QRectF, scale: DayScale, window: Window, colours: Colours
) -> None:
    """Paint a wait: hatched while it lasts, then open up to the edge at which it is too late."""
    colour = QColor(colours.drying)
    top, high = box.top() + 2 * BAR_IN_PX, box.height() - 4 * BAR_IN_PX
    start, ready = scale.x(window.start_min), scale.x(window.ready_min)
    painter.setPen(QPen(colour, 1.4))
    painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
    painter.drawRect(QRectF(start, top, ready - start, high))
    if window.latest_min is None:
        return
    latest = scale.x(window.latest_min)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colour, 1.4, Qt.PenStyle.DotLine))
    painter.drawRect(QRectF(ready, top, latest - ready, high))
    painter.setPen(QPen(colour, 3.0))
    painter.drawLine(_upright(box.adjusted(0, BAR_IN_PX, 0, -BAR_IN_PX), latest))


def paint_hours(painter: QPainter, box: QRectF, scale: DayScale, *, look: Look) -> None:
    """Write the hours of the day."""
    font, colours = look
    metrics = QFontMetricsF(font)
    wide = metrics.horizontalAdvance("00:00")
    painter.setFont(font)
    painter.setPen(QColor(colours.quiet))
    edge = box.left()
    for minute in scale.written_hours(wide * APART_SHARE):
        x = min(max(scale.x(minute), box.left() + wide / 2), box.right() - wide / 2)
        if x - wide / 2 < edge:
            continue
        edge = x + wide / 2 + (APART_SHARE - 1) * wide
        room = QRectF(x - wide / 2 - 2, box.top(), wide + 4, box.height())
        painter.drawText(room, Qt.AlignmentFlag.AlignCenter, scale.span.clock(minute))
