"""Paints the rows of a seam laid straight under each other, and by how much holes miss."""

from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
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
    rows = len(picture.rows)
    gaps = max(rows - 1, 0) * (GAP_LINES + 1) * sheet.line_px
    is_out = any(abs(off) >= OUT_MM for off in picture.off_mm)
    below = BELOW_LINES * sheet.line_px if is_out else 0.0
    return 2 * PAD_PX + rows * _row_px(sheet) + gaps + below


def paint_rows(painter: QPainter, sheet: Sheet, picture: RowsPicture, box: QRectF) -> None:
    """Paint the rows into a box: name, holes to scale, spacings; arrows where a hole is out."""
    places = _places(picture)
    every = [at for row in places for at in row]
    if not every:
        return
    low, high = min(every), max(every)
    room = box.adjusted(PAD_PX + HOLE_PX, PAD_PX, -PAD_PX - HOLE_PX, -PAD_PX)
    scale = room.width() / max(high - low, 1.0)
    spare = max(box.height() - rows_height(sheet, picture), 0.0)
    step = _row_px(sheet) + (GAP_LINES + 1) * sheet.line_px
    step += min(spare / max(len(places), 1), 2 * sheet.line_px)
    laid = [
        [QPointF(room.left() + (at - low) * scale, room.top() + n * step) for at in row]
        for n, row in enumerate(places)
    ]
    laid = [[p + QPointF(0, sheet.line_px * 2 + HOLE_PX) for p in row] for row in laid]
    _paint_partners(painter, sheet, laid)
    for side, row in zip(picture.rows, laid, strict=True):
        _paint_row(painter, sheet, side, row, room)
    for at, off in zip(laid[-1], picture.off_mm, strict=False):
        if abs(off) >= OUT_MM:
            _paint_out(painter, sheet, at, off, (scale, box))


def _row_px(sheet: Sheet) -> float:
    """A row is as high as its name, its spacings and its holes."""
    return 2 * sheet.line_px + 2 * HOLE_PX


def _places(picture: RowsPicture) -> list[list[float]]:
    """Return where holes are drawn; the last row is shifted so that it is out as told."""
    places = [list(row.along_mm) for row in picture.rows]
    offs = picture.off_mm
    if len(places) > 1 and offs and len(places[0]) == len(places[-1]) == len(offs):
        pairs = zip(places[0], places[-1], offs, strict=True)
        shift = sum(off - (last - first) for first, last, off in pairs) / len(offs)
        places[-1] = [at + shift for at in places[-1]]
    return places


def _paint_partners(painter: QPainter, sheet: Sheet, laid: list[list[QPointF]]) -> None:
    """Join the holes that one fastener passes."""
    painter.setPen(dashed(sheet.colours.line, 1.0))
    for upper, lower in pairwise(laid):
        for one, other in zip(upper, lower, strict=False):
            painter.drawLine(one, other)


def _paint_row(
    painter: QPainter, sheet: Sheet, side: RowSide, row: list[QPointF], room: QRectF
) -> None:
    if not row:
        return
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
    for gap, (a, b) in zip(gaps, pairwise(row), strict=True):
        text = f"{gap:.1f}"
        if not even and width_of(sheet, text) + 8 <= abs(b.x() - a.x()):
            above = QPointF(0, -HOLE_PX - sheet.line_px / 2 + 1)
            write(painter, sheet, (a + b) / 2 + above, text, colours.quiet)


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
