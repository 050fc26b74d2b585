"""Marks on the blocks of the week: pauses while closed, the time to begin, and what was promised."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from armorplan.desktop.week_layout import Block
from armorplan.desktop.widgets.week_sheet import Sheet

_THREAD_PX = 5.0
_MOST_WINDOWS = 4
"""The lines of more windows than these lie on each other."""
STITCHES = (3.0, 2.0)
"""A stitch and the gap to the next one, in widths of the thread."""


def paint_rests(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Where its person has closed a block is cut down to a thread that holds both ends together."""
    if len(block.bars) > 1:
        return
    for start_at, end_at in block.bars[0].rests:
        left, right = sheet.geometry.x(start_at), sheet.geometry.x(end_at)
        if right - left < _THREAD_PX:
            continue
        gap = QRectF(left, box.top() - 1.5, right - left, box.height() + 3)
        painter.fillRect(gap, QColor(sheet.colours.night))
        painter.setPen(stitched(sheet.colours.edge, 2.0))
        middle = box.center().y()
        painter.drawLine(QPointF(left, middle), QPointF(right, middle))


def paint_window(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """A line above a block from where it may begin, to a stop where it has to have begun."""
    for bar in block.bars[:_MOST_WINDOWS]:
        if bar.window is None:
            continue
        left, right = (sheet.geometry.x(at) for at in bar.window)
        y = box.top() - 4.5
        painter.setPen(QPen(QColor(sheet.colours.drying), 2.0))
        painter.drawLine(QPointF(left, y), QPointF(max(right, left + 2), y))
        painter.drawLine(QPointF(right, y - 3), QPointF(right, y + 4))
        painter.setBrush(QColor(sheet.colours.panel))
        painter.drawEllipse(QPointF(left, y), 2.5, 2.5)


def paint_promise(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Stitches below a block that has moved, where it lay as promised."""
    lay = block.promised
    if lay is None:
        return
    left, right = (sheet.geometry.x(at) for at in lay)
    right = max(right, left + _THREAD_PX)
    low, high = box.bottom() + 3.5, box.bottom() - 3.0
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(sheet.colours.panel), 4.0))
    painter.drawLine(QPointF(left, low), QPointF(right, low))
    painter.setPen(stitched(sheet.colours.paused, 2.0))
    painter.drawLine(QPointF(left, low), QPointF(right, low))
    painter.setPen(QPen(QColor(sheet.colours.paused), 1.6))
    for x in (left, right):
        painter.drawLine(QPointF(x, high), QPointF(x, low + 2))


def stitched(colour: str, width_px: float) -> QPen:
    """Return a pen that draws stitches."""
    pen = QPen(QColor(colour), width_px)
    pen.setDashPattern(list(STITCHES))
    return pen
