"""Paints what lies in the lanes of the week: work as tickets, drying hung from a rail, dips in trays."""

from datetime import timedelta
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen

from armorplan.app.rows import BenchState
from armorplan.app.week_bars import pieces
from armorplan.app.week_rows import BarKind, LaneKind, Stretch
from armorplan.desktop.colours import Colours
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.picture_colours import Look, mixed
from armorplan.desktop.week_layout import SPECK_PX, Block, Lane
from armorplan.desktop.week_words import block_clock, block_title
from armorplan.desktop.widgets.week_baths import paint_liquid, tray_path
from armorplan.desktop.widgets.week_marks import paint_promise, paint_rests, paint_window
from armorplan.desktop.widgets.week_sheet import PAD_PX, Sheet

HALO_PX = 3.0
ROUND_PX = 9.0
MARK_PX = 16.0
SEAM_PX = 2.5
BAND_SHARE = 0.55
"""So much of a bar's height has the band behind its end."""
BAND_TINT = 0.16
TICKET_SHARE = 0.35
"""So much leather is in the ground of a ticket."""


def paint_blocks(painter: QPainter, sheet: Sheet) -> None:
    """Paint every block in view, the chosen ones last."""
    lit: list[tuple[Lane, Block]] = []
    for lane, top in sheet.lanes():
        _paint_rails(painter, sheet, lane, top)
        if lane.of.kind is LaneKind.BATH:
            paint_liquid(painter, sheet, lane)
        _paint_bands(painter, sheet, lane)
        for block in lane.blocks:
            if block.end_at < sheet.seen[0] or block.start_at > sheet.seen[1]:
                continue
            if sheet.look(block) is Look.LIT:
                lit.append((lane, block))
            else:
                _paint_block(painter, sheet, lane, block)
    for lane, block in lit:
        _paint_block(painter, sheet, lane, block)


def _paint_bands(painter: QPainter, sheet: Sheet, lane: Lane) -> None:
    for block in lane.blocks if lane.rails else ():
        in_view = block.end_at <= sheet.seen[1] and block.surely_at >= sheet.seen[0]
        if in_view and block.surely_at > block.end_at:
            _paint_band(painter, sheet, block)


def _paint_band(painter: QPainter, sheet: Sheet, block: Block) -> None:
    """A paler end, hung from the rail: likely ready before it, surely by its own end."""
    box = sheet.geometry.boxes[block.key]
    right = sheet.geometry.x(block.surely_at)
    if right <= box.right():
        return
    pale = QRectF(box.right() - ROUND_PX, box.top(), right - box.right() + ROUND_PX, box.height())
    pale.setHeight(box.height() * BAND_SHARE)
    state = sheet.colours.state(block.state)
    painter.setPen(QPen(QColor(state), 1.0, Qt.PenStyle.DashLine))
    painter.setBrush(QColor(mixed(sheet.colours.panel, state, BAND_TINT)))
    painter.drawRoundedRect(pale, 3, 3)


def _paint_rails(painter: QPainter, sheet: Sheet, lane: Lane, top: float) -> None:
    """Rows of what hangs show the rail that it hangs from."""
    geometry = sheet.geometry
    painter.setPen(QPen(QColor(sheet.colours.line), 1.4))
    left, right = geometry.x(sheet.seen[0]), geometry.x(sheet.seen[1])
    tops = geometry.row_tops(lane, top)
    for number in lane.rails:
        painter.drawLine(QPointF(left, tops[number]), QPointF(right, tops[number]))


def block_path(block: Block, box: QRectF, lane: Lane) -> QPainterPath:
    """Return a block's outline: a tray for a bath, a ticket for work, a hanging piece for drying."""
    path = QPainterPath()
    soft = min(ROUND_PX, box.width() / 2, box.height() / 2)
    if lane.of.kind is LaneKind.BATH:
        return tray_path(box)
    if block.attended:
        path.addRoundedRect(box, min(3.0, soft), min(3.0, soft))
        return path
    path.moveTo(box.topLeft())
    path.lineTo(box.topRight())
    path.lineTo(box.right(), box.bottom() - soft)
    path.quadTo(box.bottomRight(), QPointF(box.right() - soft, box.bottom()))
    path.lineTo(box.left() + soft, box.bottom())
    path.quadTo(box.bottomLeft(), QPointF(box.left(), box.bottom() - soft))
    path.closeSubpath()
    return path


def _paint_block(painter: QPainter, sheet: Sheet, lane: Lane, block: Block) -> None:
    colours, box = sheet.colours, sheet.geometry.boxes[block.key]
    lit = sheet.look(block) is Look.LIT
    edge = QColor(colours.focus if lit else colours.state(block.state))
    if box.width() < SPECK_PX and not lit:
        _paint_speck(painter, sheet, block, (box, edge))
        return
    path = block_path(block, box, lane)
    if lit:
        painter.strokePath(path, QPen(QColor(colours.panel), 2 * HALO_PX + 3.0))
    painter.setPen(QPen(edge, 3.0 if lit else 1.4))
    painter.setBrush(QColor(ground_of(block, colours, lit=lit)))
    painter.drawPath(path)
    if not block.attended:
        painter.fillRect(QRectF(box.left(), box.top() - 1.5, box.width(), 3.5), edge)
    if sheet.compares:
        paint_promise(painter, sheet, block, box)
    _paint_free(painter, sheet, block, box)
    _paint_seams(painter, sheet, block, box)
    paint_rests(painter, sheet, block, box)
    paint_window(painter, sheet, block, box)
    _paint_inside(painter, sheet, block, box)


def _paint_speck(
    painter: QPainter, sheet: Sheet, block: Block, what: tuple[QRectF, QColor]
) -> None:
    """Where there is no room for a shape and words a block is a stroke of its ground and edge."""
    box, edge = what
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.fillRect(box, edge)
    painter.fillRect(
        box.adjusted(1, 1, -1, -1), QColor(ground_of(block, sheet.colours, lit=False))
    )
    if not block.attended:
        painter.fillRect(QRectF(box.left(), box.top() - 1.5, box.width(), 3.5), edge)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if sheet.compares:
        paint_promise(painter, sheet, block, box)


def ground_of(block: Block, colours: Colours, *, lit: bool) -> str:
    """Return a block's fill: work on a leather-tinted ground, drying on the panel's own."""
    if lit:
        return colours.chosen
    return _ticket_ground(colours.panel, colours.leather) if block.attended else colours.panel


@lru_cache(maxsize=8)
def _ticket_ground(panel: str, leather: str) -> str:
    return mixed(panel, leather, TICKET_SHARE)


def _paint_free(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """What is dry and only waits on its rack is dotted from there on."""
    free_at = block.bars[0].free_at
    if block.bars[0].kind is not BarKind.HANGS or free_at is None:
        return
    rest = QRectF(box)
    rest.setLeft(max(box.left(), sheet.geometry.x(free_at)))
    painter.fillRect(rest.adjusted(0, 3, -2, -2), _dotted(sheet.colours))
    painter.setPen(QPen(QColor(sheet.colours.line), 1.0, Qt.PenStyle.DashLine))
    painter.drawLine(rest.topLeft(), rest.bottomLeft())


def _dotted(colours: Colours) -> QColor:
    return QColor(mixed(colours.panel, colours.quiet, 0.18))


def _paint_seams(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Short strokes at the foot show where the bars of a block meet."""
    painter.setPen(QPen(QColor(sheet.colours.line), 1.0))
    last = box.left()
    for bar in block.bars[1:] if block.attended else ():
        x = sheet.geometry.x(bar.start_at)
        if x > last + SEAM_PX:
            last = x
            painter.drawLine(QPointF(x, box.bottom() - 6), QPointF(x, box.bottom() - 1))


def _paint_inside(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Paint marks and words, kept in view while the block reaches into it from the left."""
    metrics = QFontMetricsF(sheet.font)
    room = _widest(sheet, block, box)
    room.setLeft(max(room.left(), sheet.geometry.x(sheet.seen[0])))
    if room.width() < MARK_PX:
        return
    roomy = room.width() >= MARK_PX + 2 * PAD_PX + 3 * metrics.averageCharWidth()
    mark = QRectF(0, 0, MARK_PX, MARK_PX)
    middle = room.left() + PAD_PX + MARK_PX / 2 if roomy else room.center().x()
    mark.moveCenter(QPointF(middle, box.center().y()))
    if not roomy:
        _paint_narrow(painter, sheet, block, mark)
        return
    paint_state(painter, mark, block.state, sheet.colours.state(block.state))
    room.setLeft(mark.right() + PAD_PX)
    room.setRight(box.right() - PAD_PX)
    room.setLeft(_paint_tags(painter, sheet, block, room))
    lines = [block_title(block)]
    if block.attended:
        lines.append(block_clock(block, sheet.geometry.zone))
    base = box.center().y() - len(lines) * metrics.height() / 2 + metrics.ascent()
    painter.setFont(sheet.font)
    for number, line in enumerate(lines):
        painter.setPen(QColor(sheet.colours.text if number == 0 else sheet.colours.quiet))
        text = metrics.elidedText(line, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(QPointF(room.left(), base + number * metrics.height()), text)


def _widest(sheet: Sheet, block: Block, box: QRectF) -> QRectF:
    """Return the part of a block that its words stand in: of what pauses the longest stretch."""
    room = QRectF(box)
    if len(block.bars) == 1 and block.bars[0].rests:
        worked = pieces((block.start_at, block.end_at), block.bars[0].rests)
        start_at, end_at = max(worked, key=_length, default=(block.start_at, block.end_at))
        room.setLeft(sheet.geometry.x(start_at))
        room.setRight(sheet.geometry.x(end_at))
    return room


def _length(piece: Stretch) -> timedelta:
    return piece[1] - piece[0]


def _paint_narrow(painter: QPainter, sheet: Sheet, block: Block, mark: QRectF) -> None:
    """Where there is room for one mark, what merely waits shows whose it is."""
    if block.state is BenchState.WAITING and len(block.tags) == 1:
        is_open = not block.bars[0].build
        spot = QPointF(mark.left(), mark.center().y())
        paint_stamp(painter, sheet, spot, block.tags[0], filled=is_open)
    else:
        paint_state(painter, mark, block.state, sheet.colours.state(block.state))


def _paint_tags(painter: QPainter, sheet: Sheet, block: Block, room: QRectF) -> float:
    """Paint the letters of its builds as stamps, that of the open build filled; return the right end."""
    if not block.tags:
        return room.left()
    is_open = any(not bar.build for bar in block.bars)
    text = block.tags[0] if len(block.tags) == 1 else f"{block.tags[0]}+"
    stamp = paint_stamp(
        painter, sheet, QPointF(room.left(), room.center().y()), text, filled=is_open
    )
    return stamp.right() + PAD_PX


def paint_stamp(
    painter: QPainter, sheet: Sheet, at: QPointF, text: str, *, filled: bool
) -> QRectF:
    """Paint a letter as a stamp, its left edge at a point; return where it lies."""
    bold = QFont(sheet.font)
    bold.setBold(True)
    metrics = QFontMetricsF(bold)
    wide = max(metrics.horizontalAdvance(text) + 8, metrics.height())
    box = QRectF(at.x(), at.y() - metrics.height() / 2, wide, metrics.height())
    ink = QColor(sheet.colours.text)
    painter.setPen(QPen(ink, 1.4))
    painter.setBrush(ink if filled else QColor(sheet.colours.panel))
    painter.drawRoundedRect(box, 3, 3)
    painter.setFont(bold)
    painter.setPen(QColor(sheet.colours.panel) if filled else ink)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
    return box
