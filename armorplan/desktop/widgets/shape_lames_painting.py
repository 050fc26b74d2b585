"""Paints a chain of lames seen from the side, a strip of positions from straight to bent."""

from math import ceil

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from armorplan.desktop.picture_colours import leather
from armorplan.desktop.shapes_words import SOUND, mm_text, number_text, standing_colour
from armorplan.desktop.widgets.shape_mark_painting import paint_standing
from armorplan.desktop.widgets.shape_sheet_painting import PAD_PX, Sheet, solid, width_of
from armorplan.desktop.widgets.stack_painting import spread
from armorplan.geometry.pictures import Bar, LamesPicture, Overlap, Position

LEAST_CELL_PX = 170.0
MOST_CELL_PX = 230.0
LEAST_HIGH_PX = 70.0
"""A position is drawn so high at most and at least, its angle apart."""
EDGE_PX = 6.0
BACK_PX = 5.0
PIVOT_PX = 3.5


def lames_height(sheet: Sheet, picture: LamesPicture, width_px: float) -> float:
    """Return the height that the strip needs at a width, in device-independent pixels."""
    columns = _columns(picture, width_px)
    lines = ceil(len(picture.positions) / columns)
    wide = (width_px - 2 * PAD_PX) / columns - _words_px(sheet) - EDGE_PX
    room = QRectF(0, 0, max(wide, 1.0), MOST_CELL_PX)
    scale = min((_scale(position, room) for position in picture.positions), default=1.0)
    drawn = (_bounds(position).height() for position in picture.positions if _spots(position))
    high = max(max(drawn, default=0.0) * scale, LEAST_HIGH_PX)
    drawn_px = 2 * PAD_PX + lines * (high + sheet.line_px + 16)
    return max(drawn_px, lames_least(sheet, picture, width_px))


def lames_least(sheet: Sheet, picture: LamesPicture, width_px: float) -> float:
    """Return the height at which the words of every position just have room."""
    lines = ceil(len(picture.positions) / _columns(picture, width_px))
    words = max((len(position.overlaps) for position in picture.positions), default=0)
    high = max((words + 0.5) * sheet.line_px, LEAST_HIGH_PX)
    return 2 * PAD_PX + lines * (high + sheet.line_px + 16)


def paint_lames(painter: QPainter, sheet: Sheet, picture: LamesPicture, box: QRectF) -> None:
    """Paint the positions side by side, all to one scale; in lines where the box is narrow."""
    if not picture.positions:
        return
    room = box.adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
    columns = _columns(picture, box.width())
    lines = ceil(len(picture.positions) / columns)
    cell = QRectF(0, 0, room.width() / columns, room.height() / lines)
    drawing = cell.adjusted(EDGE_PX, sheet.line_px + 4, -_words_px(sheet), -8)
    scale = min(_scale(position, drawing) for position in picture.positions)
    for at, position in enumerate(picture.positions):
        corner = room.topLeft() + QPointF(
            at % columns * cell.width(), at // columns * cell.height()
        )
        _paint_position(painter, sheet, position, (cell.translated(corner), scale))


def _columns(picture: LamesPicture, width_px: float) -> int:
    fitting = int((width_px - 2 * PAD_PX) // LEAST_CELL_PX)
    count = max(len(picture.positions), 1)
    columns = max(1, min(count, fitting))
    return ceil(count / ceil(count / columns))  # lines of like length


def _words_px(sheet: Sheet) -> float:
    return width_of(sheet, "gap 88.8 mm") + sheet.line_px + 10


def _spots(position: Position) -> list[QPointF]:
    return [QPointF(*spot) for bar in position.bars for spot in (*bar.back, *bar.pivots)]


def _bounds(position: Position) -> QRectF:
    spots = _spots(position)
    xs, ys = [p.x() for p in spots], [p.y() for p in spots]
    return QRectF(QPointF(min(xs), min(ys)), QPointF(max(xs), max(ys)))


def _scale(position: Position, room: QRectF) -> float:
    if not _spots(position):
        return 1.0
    bounds = _bounds(position)
    return max(
        min(room.width() / max(bounds.width(), 1.0), room.height() / max(bounds.height(), 1.0)),
        0.05,
    )


def _paint_position(
    painter: QPainter, sheet: Sheet, position: Position, place: tuple[QRectF, float]
) -> None:
    cell, scale = place
    painter.setFont(sheet.font)
    painter.setPen(QColor(sheet.colours.text))
    head = QRectF(cell.left() + 6, cell.top(), cell.width(), sheet.line_px)
    painter.drawText(head, f"{number_text(position.angle_deg)}°")
    painter.setPen(QPen(QColor(sheet.colours.line), 1.0))
    painter.drawLine(cell.topLeft(), cell.bottomLeft())
    if not _spots(position):
        return
    bounds = _bounds(position)
    words = _words_px(sheet)
    room = cell.adjusted(EDGE_PX, sheet.line_px + 4, -words, -8)
    move = room.center() - bounds.center() * scale
    ends: dict[str, tuple[QPointF, QPointF]] = {}
    for at, bar in enumerate(position.bars):
        _paint_bar(painter, sheet, bar, (move, scale), len(position.bars) - at)
        ends[bar.part] = (
            move + QPointF(*bar.back[0]) * scale,
            move + QPointF(*bar.back[-1]) * scale,
        )
    _paint_overlaps(
        painter,
        sheet,
        position.overlaps,
        ends,
        QRectF(room.right() + 6, cell.top() + sheet.line_px + 4, words - 8, room.height()),
    )


def _paint_bar(
    painter: QPainter, sheet: Sheet, bar: Bar, place: tuple[QPointF, float], layer: int
) -> None:
    """A lame from the side: a heavy bar at the back, and thin lines from it to its pivots."""
    move, scale = place
    back = [move + QPointF(*spot) * scale for spot in bar.back]
    pivots = [move + QPointF(*spot) * scale for spot in bar.pivots]
    fill = QColor(leather(sheet.colours, "lame", layer))
    fill.setAlpha(120)
    painter.setPen(solid(sheet.colours.line, 1.0))
    painter.setBrush(fill)
    painter.drawPolygon(QPolygonF([*back, *reversed(pivots)]))
    painter.setPen(solid(sheet.colours.edge, BACK_PX))
    painter.drawPolyline(QPolygonF(back))
    painter.setPen(solid(sheet.colours.edge, 1.4))
    painter.setBrush(QColor(sheet.colours.panel))
    for pivot in pivots:
        painter.drawEllipse(pivot, PIVOT_PX, PIVOT_PX)


def _paint_overlaps(
    painter: QPainter,
    sheet: Sheet,
    overlaps: tuple[Overlap, ...],
    ends: dict[str, tuple[QPointF, QPointF]],
    column: QRectF,
) -> None:
    """Write each overlap in a column beside the drawing, with a line to where it is."""
    order = {part: at for at, part in enumerate(ends)}
    ranked = sorted(overlaps, key=lambda one: _rank(one, order))
    spots = [_middle(overlap, ends) for overlap in ranked]
    middles = spread([spot.y() for spot in spots], sheet.line_px, column)
    for overlap, at, middle in zip(ranked, spots, middles, strict=True):
        y = middle - sheet.line_px / 2
        severity = overlap.severity.value if overlap.severity else SOUND
        colour = standing_colour(severity, sheet.colours)
        lead = sheet.colours.quiet if severity == SOUND else colour
        painter.setPen(QPen(QColor(lead), 1.0 if severity == SOUND else 1.6))
        painter.drawLine(at, QPointF(column.left() - 2, y + sheet.line_px / 2))
        side = sheet.line_px * 0.75
        mark = QRectF(column.left(), y + (sheet.line_px - side) / 2, side, side)
        paint_standing(painter, mark, severity, colour)
        painter.setPen(QColor(sheet.colours.text))
        words = QPointF(mark.right() + 4, y + sheet.metrics.ascent())
        painter.drawText(words, _overlap_words(overlap))


def _rank(overlap: Overlap, order: dict[str, int]) -> int:
    """Return a pair's place along the limb: words in that order have leads that do not cross."""
    return min(order.get(overlap.outer, len(order)), order.get(overlap.inner, len(order)))


def _middle(overlap: Overlap, ends: dict[str, tuple[QPointF, QPointF]]) -> QPointF:
    """Return the middle between the nearest edges of two neighbours at the back."""
    if overlap.outer not in ends or overlap.inner not in ends:
        return QPointF()
    pairs = ((a, b) for a in ends[overlap.outer] for b in ends[overlap.inner])
    one, other = min(pairs, key=lambda pair: (pair[0] - pair[1]).manhattanLength())
    return (one + other) / 2


def _overlap_words(overlap: Overlap) -> str:
    if overlap.overlap_mm < 0:
        return f"gap {mm_text(-overlap.overlap_mm)}"
    return mm_text(overlap.overlap_mm)
