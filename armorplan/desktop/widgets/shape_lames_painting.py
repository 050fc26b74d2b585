"""Paints a chain of lames from the side: bent to the end, large, and on the way there, small."""

from collections.abc import Sequence
from math import ceil

from PySide6.QtCore import QCoreApplication, QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from armorplan.desktop.shapes_words import SOUND, number_text, standing_colour
from armorplan.desktop.widgets.shape_lame_drawing import (
    bounds_of,
    laid,
    overlap_mm,
    paint_plates,
    paint_words,
    scale_of,
    standing_of,
)
from armorplan.desktop.widgets.shape_mark_painting import paint_standing
from armorplan.desktop.widgets.shape_sheet_painting import (
    PAD_PX,
    Sheet,
    width_of,
    write_line,
)
from armorplan.geometry.pictures import LamesPicture, Overlap, Position
from armorplan.kernel.findings import Severity

MOST_LARGE_PX, LEAST_LARGE_PX = 260.0, 84.0
"""The end of the bend is drawn so high at most and at least, its words apart."""
SMALL_PX, LEAST_SMALL_PX = 76.0, 48.0
LARGE_SHARE = 0.66
BESIDE = 2.1
"""From so many times its height on a picture has the small positions beside the large one."""
EDGE_PX = 8.0
GAP_PX = 6.0


def lames_height(sheet: Sheet, picture: LamesPicture, width_px: float) -> float:
    """Return the height that the picture needs at a width, in device-independent pixels."""
    if not picture.positions:
        return 0.0
    wide = width_px - 2 * PAD_PX
    end = picture.positions[-1]
    room = QRectF(0, 0, max(_drawing_px(sheet, end, wide), 1.0), MOST_LARGE_PX)
    drawn = bounds_of(end).height() * scale_of(end, room)
    high = max(drawn + EDGE_PX, _least_drawing_px(sheet, end, wide))
    return 2 * PAD_PX + high + _words_px(sheet, picture, wide) + _smalls_px(sheet, picture, wide)


def lames_least(sheet: Sheet, picture: LamesPicture, width_px: float) -> float:
    """Return the height at which the end of the bend can just be read."""
    if not picture.positions:
        return 0.0
    wide = width_px - 2 * PAD_PX
    if _has_room_beside(sheet, picture, wide):
        return 2 * PAD_PX + _least_large_px(sheet, picture, wide * LARGE_SHARE)
    return 2 * PAD_PX + _least_stacked_px(sheet, picture, wide)


def _has_room_beside(sheet: Sheet, picture: LamesPicture, wide: float) -> bool:
    """Tell whether the small positions fit beside the large one and its words."""
    return len(picture.positions) > 1 and not _is_narrow(sheet, wide * LARGE_SHARE)


def _least_large_px(sheet: Sheet, picture: LamesPicture, wide: float) -> float:
    return _least_drawing_px(sheet, picture.positions[-1], wide) + _words_px(sheet, picture, wide)


def _least_stacked_px(sheet: Sheet, picture: LamesPicture, wide: float) -> float:
    smalls = _smalls_px(sheet, picture, wide, LEAST_SMALL_PX)
    return _least_large_px(sheet, picture, wide) + smalls


def paint_lames(painter: QPainter, sheet: Sheet, picture: LamesPicture, box: QRectF) -> None:
    """Paint the end of the bend large, with its words, and the positions before it small."""
    if not picture.positions:
        return
    room = box.adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
    *before, end = picture.positions
    large, small = QRectF(room), QRectF(room)
    wide, high = room.width(), room.height()
    spare = high - _least_stacked_px(sheet, picture, wide)
    if _has_room_beside(sheet, picture, wide) and (spare < 0 or wide > BESIDE * high):
        large.setWidth(wide * LARGE_SHARE)
        small.setLeft(large.right() + GAP_PX)
        columns = ceil(len(before) / 2)
    else:
        each = min(SMALL_PX, LEAST_SMALL_PX + max(spare, 0.0) * 0.2)
        large.setHeight(high - _smalls_px(sheet, picture, wide, each))
        small.setTop(large.bottom() + GAP_PX)
        columns = _columns(sheet, before, wide)
    _paint_large(painter, sheet, end, large)
    _paint_smalls(painter, sheet, before, (small, max(columns, 1)))


def _columns(sheet: Sheet, before: Sequence[Position], wide: float) -> int:
    fitting = max(1, int(wide // (width_of(sheet, "gap 88.8 mm") + 2 * sheet.line_px)))
    lines = ceil(len(before) / fitting) if before else 1
    return max(1, ceil(len(before) / lines))


def _smalls_px(
    sheet: Sheet, picture: LamesPicture, wide: float, each_px: float = SMALL_PX
) -> float:
    """Return how high the small positions are, all their lines together."""
    before = picture.positions[:-1]
    if not before:
        return 0.0
    lines = ceil(len(before) / _columns(sheet, before, wide))
    return lines * (each_px + 2 * sheet.line_px + GAP_PX) + GAP_PX


def _column_px(sheet: Sheet) -> float:
    return width_of(sheet, "8 over 8: gap 88.8 mm") * 1.08 + sheet.line_px + 8


def _is_narrow(sheet: Sheet, wide: float) -> bool:
    """Tell whether the words of the overlaps stand below the drawing, not beside it."""
    return wide < 1.75 * _column_px(sheet)


def _drawing_px(sheet: Sheet, end: Position, wide: float) -> float:
    words = 0.0 if _is_narrow(sheet, wide) or not end.overlaps else _column_px(sheet) + 2 * EDGE_PX
    return wide - words - 2 * EDGE_PX


def _least_drawing_px(sheet: Sheet, end: Position, wide: float) -> float:
    beside = 0 if _is_narrow(sheet, wide) else len(end.overlaps)
    return max((beside + 0.5) * sheet.line_px, LEAST_LARGE_PX)


def _words_px(sheet: Sheet, picture: LamesPicture, wide: float) -> float:
    """Return how high the head, the names and what stands below a narrow drawing are."""
    end = picture.positions[-1]
    below = len(end.overlaps) if _is_narrow(sheet, wide) else 0
    return (1 + below + len(_names(sheet, end, wide))) * sheet.line_px + GAP_PX


def _names(sheet: Sheet, position: Position, wide: float) -> list[str]:
    """Return the numbers of the plates with their names, in lines of a width."""
    lines: list[str] = []
    for number, bar in enumerate(position.bars, start=1):
        each = f"{number} {bar.name}"
        longer = f"{lines[-1]}  ·  {each}" if lines else each
        if lines and width_of(sheet, longer) <= wide:
            lines[-1] = longer
        else:
            lines.append(each)
    return lines


def _paint_large(painter: QPainter, sheet: Sheet, end: Position, box: QRectF) -> None:
    line = sheet.line_px
    said = QCoreApplication.translate("shapes", "Bent to the end: {0}°")
    head = QRectF(box.left(), box.top(), box.width(), line)
    write_line(painter, sheet, head, said.format(number_text(end.angle_deg)))
    names = _names(sheet, end, box.width())
    narrow = _is_narrow(sheet, box.width())
    below = len(end.overlaps) if narrow else 0
    room = box.adjusted(0, line, 0, -(len(names) + below) * line - GAP_PX)
    drawing = room.adjusted(EDGE_PX, EDGE_PX / 2, -EDGE_PX, -EDGE_PX / 2)
    drawing.setWidth(max(_drawing_px(sheet, end, box.width()), 1.0))
    drawn = laid(end, drawing, scale_of(end, drawing))
    if end.bars:
        paint_plates(painter, sheet, drawn, small=False)
    if narrow:
        column = QRectF(box.left(), room.bottom(), box.width(), below * line)
    else:
        left = drawing.right() + 2 * EDGE_PX
        column = QRectF(left, room.top(), box.right() - left, room.height())
    paint_words(painter, sheet, drawn, column, led=not narrow)
    for at, words in enumerate(reversed(names), start=1):
        place = QRectF(box.left(), box.bottom() - at * line, box.width(), line)
        write_line(painter, sheet, place, words, sheet.colours.quiet)


def _paint_smalls(
    painter: QPainter, sheet: Sheet, before: Sequence[Position], place: tuple[QRectF, int]
) -> None:
    """Paint the positions before the end, all to one scale."""
    box, columns = place
    if not before:
        return
    lines = ceil(len(before) / columns)
    cell = QRectF(0, 0, box.width() / columns, box.height() / lines)
    room = cell.adjusted(EDGE_PX, 2 * sheet.line_px + 2, -EDGE_PX, -GAP_PX)
    scale = min(scale_of(position, room) for position in before)
    for at, position in enumerate(before):
        corner = box.topLeft() + QPointF(
            at % columns * cell.width(), at // columns * cell.height()
        )
        drawn = laid(position, room.translated(corner), scale)
        painter.setPen(QPen(QColor(sheet.colours.line), 1.0))
        painter.drawLine(corner, corner + QPointF(0, cell.height() - GAP_PX))
        if position.bars:
            paint_plates(painter, sheet, drawn, small=True)
        head = QRectF(corner.x() + 4, corner.y(), cell.width() - 6, sheet.line_px)
        write_line(painter, sheet, head, f"{number_text(position.angle_deg)}°")
        _paint_worst(painter, sheet, head.translated(0, sheet.line_px), position)


def _paint_worst(painter: QPainter, sheet: Sheet, box: QRectF, position: Position) -> None:
    """Write what is gravest, or least, in a position."""
    if not position.overlaps:
        return
    worst = min(position.overlaps, key=_gravest)
    severity = standing_of(worst)
    side = sheet.line_px * 0.7
    mark = QRectF(box.left(), box.top() + (sheet.line_px - side) / 2, side, side)
    paint_standing(painter, mark, severity, standing_colour(severity, sheet.colours))
    words = box.adjusted(side + 3, 0, 0, 0)
    quiet = sheet.colours.quiet if severity == SOUND else ""
    told = overlap_mm(worst)
    least = QCoreApplication.translate("shapes", "least {0}").format(told)
    if worst.overlap_mm >= 0 and width_of(sheet, least) <= words.width():
        told = least
    write_line(painter, sheet, words, told, quiet)


def _gravest(overlap: Overlap) -> tuple[int, float]:
    order = tuple(Severity)
    rank = len(order) if overlap.severity is None else order.index(overlap.severity)
    return rank, overlap.overlap_mm
