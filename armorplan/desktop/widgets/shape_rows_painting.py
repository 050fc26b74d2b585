"""Paints the rows of a seam laid straight under each other, and by how much holes miss."""

from itertools import pairwise

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from armorplan.desktop.shapes_words import mm_text
from armorplan.desktop.widgets.shape_sheet_painting import (
    PAD_PX,
    Sheet,
    arrow,
    dashed,
    solid,
    width_of,
    write,
    write_line,
)
from armorplan.geometry.pictures import RowSide, RowsPicture

OUT_MM = 0.5
"""From here on a hole gets an arrow; below, punch and leather make it up."""
HOLE_PX = 6.0
LEAST_ARROW_PX = 20.0
EVEN_MM = 0.15
"""Spacings that differ by less are told as one."""
GAP_LINES = 0.3
"""Between two rows, in lines of text."""
BELOW_LINES = 1.7
"""Below the last row, in lines of text: room for arrows and their numbers."""


def rows_height(sheet: Sheet, picture: RowsPicture) -> float:
    """Return the height that the picture needs, in device-independent pixels."""
    rows = picture.rows
    last = BELOW_LINES * sheet.line_px if rows and _is_out(rows[-1]) else 0.0
    between = sum(_below_px(sheet, row) for row in rows[:-1])
    return 2 * PAD_PX + len(rows) * _row_px(sheet) + between + last


def paint_rows(painter: QPainter, sheet: Sheet, picture: RowsPicture, box: QRectF) -> None:
    """Paint the rows into a box: name, holes to scale, spacings; arrows where a hole is out."""
    every = [at for row in picture.rows for at in row.along_mm]
    if not every:
        return
    low, high = min(every), max(every)
    room = box.adjusted(PAD_PX + HOLE_PX, PAD_PX, -PAD_PX - HOLE_PX, -PAD_PX)
    scale = room.width() / max(high - low, 1.0)
    laid = [
        [QPointF(room.left() + (at - low) * scale, y) for at in row.along_mm]
        for row, y in zip(picture.rows, _levels(sheet, picture, box, room), strict=True)
    ]
    _paint_partners(painter, sheet, laid)
    for side, row in zip(picture.rows, laid, strict=True):
        _paint_row(painter, sheet, side, row, (room, picture.missing))
    for side, row in zip(picture.rows, laid, strict=True):
        for at, off in zip(row, side.off_mm, strict=False):
            if abs(off) >= OUT_MM:
                _paint_out(painter, sheet, at, off, (scale, box))
        for at, aside in zip(row, side.aside_mm, strict=False):
            if abs(aside) >= OUT_MM:
                _paint_aside(painter, sheet, at, aside, box)


def _levels(sheet: Sheet, picture: RowsPicture, box: QRectF, room: QRectF) -> list[float]:
    """Return the heights of the rows' holes, with room below those of which one is out."""
    rows = picture.rows
    spare = max(box.height() - rows_height(sheet, picture), 0.0)
    more = min(spare / max(len(rows), 1), 2 * sheet.line_px)
    levels, y = [], room.top() + sheet.line_px * 2 + HOLE_PX
    for row in rows:
        levels.append(y)
        y += _row_px(sheet) + _below_px(sheet, row) + more
    return levels


def _is_out(row: RowSide) -> bool:
    return any(abs(mm) >= OUT_MM for mm in (*row.off_mm, *row.aside_mm))


def _below_px(sheet: Sheet, row: RowSide) -> float:
    """Return the room between a row and the next one."""
    return (GAP_LINES + 1 + (BELOW_LINES if _is_out(row) else 0.0)) * sheet.line_px


def _row_px(sheet: Sheet) -> float:
    """A row is as high as its name, its spacings and its holes."""
    return 2 * sheet.line_px + 2 * HOLE_PX


def _paint_partners(painter: QPainter, sheet: Sheet, laid: list[list[QPointF]]) -> None:
    """Join the holes that one fastener passes; the line with a row's name is left free."""
    painter.setPen(dashed(sheet.colours.line, 1.0))
    for upper, lower in pairwise(laid):
        for one, other in zip(upper, lower, strict=False):
            for start_y, end_y in (
                (one.y(), other.y() - HOLE_PX - 2 * sheet.line_px),
                (other.y() - HOLE_PX - sheet.line_px, other.y()),
            ):
                start, end = ((y - one.y()) / (other.y() - one.y()) for y in (start_y, end_y))
                painter.drawLine(one + (other - one) * start, one + (other - one) * end)


def _paint_row(
    painter: QPainter,
    sheet: Sheet,
    side: RowSide,
    row: list[QPointF],
    place: tuple[QRectF, tuple[int, ...]],
) -> None:
    """Paint a row with its name and spacings; those that miss in the colour of what is wrong."""
    if not row:
        return
    room, missing = place
    colours, y = sheet.colours, row[0].y()
    name = QRectF(room.left() - HOLE_PX, y - HOLE_PX - 2 * sheet.line_px, room.width(), 0)
    name.setHeight(sheet.line_px)
    gaps = [abs(b - a) for a, b in pairwise(side.along_mm)]
    even = bool(gaps) and max(gaps) - min(gaps) < EVEN_MM
    words = _row_words(side, gaps, even=even)
    ground = QRectF(name)
    ground.setWidth(min(width_of(sheet, words), name.width()) + 4)
    painter.fillRect(ground, QColor(colours.panel))
    write_line(painter, sheet, name, words)
    painter.setPen(solid(colours.edge, 1.6))
    painter.drawLine(row[0], row[-1])
    painter.setBrush(QColor(colours.panel))
    for at in row:
        painter.drawEllipse(at, HOLE_PX, HOLE_PX)
    for n, (gap, (a, b)) in enumerate(zip(gaps, pairwise(row), strict=True)):
        text, wrong = f"{gap:.1f}", n in missing
        if wrong:
            painter.setPen(solid(colours.alarm, 2.4))
            painter.drawLine(a + QPointF(HOLE_PX, 0), b - QPointF(HOLE_PX, 0))
        if (wrong or not even) and width_of(sheet, text) + 8 <= abs(b.x() - a.x()):
            above = QPointF(0, -HOLE_PX - sheet.line_px / 2 + 1)
            colour = colours.alarm if wrong else colours.quiet
            write(painter, sheet, (a + b) / 2 + above, text, colour)


def _row_words(side: RowSide, gaps: list[float], *, even: bool) -> str:
    if not gaps:
        return f"{side.name}: 1 hole"
    if even:
        return f"{side.name}: {len(gaps) + 1} holes, {mm_text(sum(gaps) / len(gaps))} apart"
    whole = mm_text(abs(side.along_mm[-1] - side.along_mm[0]))
    return f"{side.name}: {len(gaps) + 1} holes over {whole}"


def _paint_out(
    painter: QPainter, sheet: Sheet, at: QPointF, off_mm: float, place: tuple[float, QRectF]
) -> None:
    """Point from a hole to where it should lie; a short way is drawn longer, its number is true."""
    scale, box = place
    colour, text = sheet.colours.alarm, mm_text(abs(off_mm))
    painter.setPen(dashed(colour, 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(at - QPointF(off_mm * scale, 0), HOLE_PX, HOLE_PX)
    painter.setPen(solid(colour, 2.4))
    painter.drawEllipse(at, HOLE_PX, HOLE_PX)
    way = -1.0 if off_mm > 0 else 1.0
    lane = at + QPointF(0, HOLE_PX + 8)
    arrow(painter, lane, lane + QPointF(way * max(abs(off_mm) * scale, LEAST_ARROW_PX), 0), colour)
    below = lane + QPointF(way * LEAST_ARROW_PX / 2, sheet.line_px / 2 + 5)
    half = width_of(sheet, text) / 2 + 4
    below.setX(min(max(below.x(), box.left() + half), box.right() - half))
    write(painter, sheet, below, text, colour)


def _paint_aside(
    painter: QPainter, sheet: Sheet, at: QPointF, aside_mm: float, box: QRectF
) -> None:
    """Mark a hole that lies beside its row: an arrow across the row, and by how much."""
    colour, way = sheet.colours.alarm, -1.0 if aside_mm > 0 else 1.0
    text = QCoreApplication.translate("shapes", "{0} beside").format(mm_text(abs(aside_mm)))
    painter.setPen(solid(colour, 2.4))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(at, HOLE_PX, HOLE_PX)
    lane = at + QPointF(HOLE_PX + 8, 0)
    half = QPointF(0, LEAST_ARROW_PX / 2)
    arrow(painter, lane - half * way, lane + half * way, colour)
    below = at + QPointF(0, HOLE_PX + sheet.line_px / 2 + 13)
    width = width_of(sheet, text) / 2 + 4
    below.setX(min(max(below.x(), box.left() + width), box.right() - width))
    write(painter, sheet, below, text, colour)
