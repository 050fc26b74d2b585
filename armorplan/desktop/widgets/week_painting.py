"""Paints the coming days: nights behind, work as tickets, drying hung from a rail."""

from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPainterPath, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.picture_colours import Look, mixed
from armorplan.desktop.week_geometry import ROW_GAP_PX
from armorplan.desktop.week_layout import Block, Lane, hours, midnights
from armorplan.desktop.week_words import block_clock, block_title
from armorplan.desktop.widgets.week_air import paint_air
from armorplan.desktop.widgets.week_sheet import PAD_PX, Frame, Sheet, label_step, paint_heading

HALO_PX = 3.0
ROUND_PX = 9.0
MARK_PX = 16.0
BAND_SHARE = 0.55
"""So much of a bar's height has the band behind its end."""
BAND_TINT = 0.16
TICKET_SHARE = 0.35
"""So much leather is in the ground of a ticket."""


def paint_chart(painter: QPainter, sheet: Sheet, frame: Frame) -> None:
    """Paint all of it: the days under their heading, beside the names of the lanes."""
    geometry = sheet.geometry
    wide, high = frame.size.width(), frame.size.height()
    painter.fillRect(QRectF(0, 0, wide, high), QColor(sheet.colours.panel))
    deep = max(geometry.height, high - frame.heading_px)
    painter.setClipRect(QRectF(frame.margin_px, frame.heading_px, wide, high))
    painter.translate(frame.offset)
    _paint_ground(painter, sheet, deep)
    _paint_blocks(painter, sheet)
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
    colours, geometry = sheet.colours, sheet.geometry
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
    for lane, top in zip(geometry.lanes, geometry.tops, strict=False):
        row = QRectF(10, frame.offset.y() + top, margin - 10, geometry.row_px(lane))
        painter.drawText(row, Qt.AlignmentFlag.AlignVCenter, lane.name)


def _paint_ground(painter: QPainter, sheet: Sheet, height: float) -> None:
    """Paint closed hours, midnights and full hours behind everything."""
    geometry, colours = sheet.geometry, sheet.colours
    for start_at, end_at in geometry.chart.closed:
        if end_at >= sheet.seen[0] and start_at <= sheet.seen[1]:
            left, right = geometry.x(start_at), geometry.x(end_at)
            _paint_closed(painter, sheet, QRectF(left, 0, right - left, height))
    faint = QPen(QColor(mixed(colours.line, colours.panel, 0.75)), 1.0)
    painter.setPen(faint)
    for at in hours(*sheet.seen, geometry.zone, label_step(sheet)):
        painter.drawLine(QPointF(geometry.x(at), 0), QPointF(geometry.x(at), height))
    painter.setPen(QPen(QColor(colours.line), 1.4))
    for at in midnights(*sheet.seen, geometry.zone):
        painter.drawLine(QPointF(geometry.x(at), 0), QPointF(geometry.x(at), height))


def _paint_closed(painter: QPainter, sheet: Sheet, box: QRectF) -> None:
    painter.fillRect(box, QColor(sheet.colours.night))
    metrics = QFontMetricsF(sheet.font)
    if box.width() < metrics.horizontalAdvance(sheet.closed) + 2 * PAD_PX:
        return
    painter.setFont(sheet.font)
    painter.setPen(QColor(sheet.colours.quiet))
    foot = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom
    painter.drawText(box.adjusted(0, 0, 0, -PAD_PX), foot, sheet.closed)


def _paint_blocks(painter: QPainter, sheet: Sheet) -> None:
    """Paint every block in view, the chosen ones last."""
    lit = []
    for lane, top in zip(sheet.geometry.lanes, sheet.geometry.tops, strict=False):
        if lane.drying:
            _paint_rails(painter, sheet, lane, top)
            _paint_bands(painter, sheet, lane)
        for block in lane.blocks:
            if block.end_at < sheet.seen[0] or block.start_at > sheet.seen[1]:
                continue
            if sheet.look(block) is Look.LIT:
                lit.append(block)
            else:
                _paint_block(painter, sheet, block)
    for block in lit:
        _paint_block(painter, sheet, block)


def _paint_bands(painter: QPainter, sheet: Sheet, lane: Lane) -> None:
    for block in lane.blocks:
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
    """A drying lane shows the rail that its pieces hang from."""
    geometry = sheet.geometry
    painter.setPen(QPen(QColor(sheet.colours.line), 1.4))
    row = geometry.row_px(lane)
    for number in range(lane.rows):
        y = top + number * (row + ROW_GAP_PX)
        left, right = geometry.x(sheet.seen[0]), geometry.x(sheet.seen[1])
        painter.drawLine(QPointF(left, y), QPointF(right, y))


def block_path(block: Block, box: QRectF) -> QPainterPath:
    """Return a block's outline: a ticket for work, a hanging piece for drying."""
    path = QPainterPath()
    soft = min(ROUND_PX, box.width() / 2, box.height() / 2)
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


def _paint_block(painter: QPainter, sheet: Sheet, block: Block) -> None:
    colours, box = sheet.colours, sheet.geometry.boxes[block.key]
    lit = sheet.look(block) is Look.LIT
    path = block_path(block, box)
    edge = QColor(colours.focus if lit else colours.state(block.state))
    if lit:
        painter.strokePath(path, QPen(QColor(colours.panel), 2 * HALO_PX + 3.0))
    painter.setPen(QPen(edge, 3.0 if lit else 1.4))
    painter.setBrush(QColor(ground_of(block, colours, lit=lit)))
    painter.drawPath(path)
    if not block.attended:
        painter.fillRect(QRectF(box.left(), box.top() - 1.5, box.width(), 3.5), edge)
    _paint_seams(painter, sheet, block, box)
    _paint_inside(painter, sheet, block, box)


def ground_of(block: Block, colours: Colours, *, lit: bool) -> str:
    """Return a block's fill: work on a leather-tinted ground, drying on the panel's own."""
    if lit:
        return colours.chosen
    return mixed(colours.panel, colours.leather, TICKET_SHARE) if block.attended else colours.panel


def _paint_seams(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Short strokes at the foot show where the bars of a block meet."""
    painter.setPen(QPen(QColor(sheet.colours.line), 1.0))
    for bar in block.bars[1:] if block.attended else ():
        x = sheet.geometry.x(bar.start_at)
        painter.drawLine(QPointF(x, box.bottom() - 6), QPointF(x, box.bottom() - 1))


def _paint_inside(painter: QPainter, sheet: Sheet, block: Block, box: QRectF) -> None:
    """Paint mark and words, kept in view while the block reaches into it from the left."""
    metrics = QFontMetricsF(sheet.font)
    room = QRectF(box)
    room.setLeft(max(box.left(), sheet.geometry.x(sheet.seen[0])))
    if room.width() < MARK_PX:
        return
    roomy = room.width() >= MARK_PX + 2 * PAD_PX + 3 * metrics.averageCharWidth()
    mark = QRectF(0, 0, MARK_PX, MARK_PX)
    middle = room.left() + PAD_PX + MARK_PX / 2 if roomy else room.center().x()
    mark.moveCenter(QPointF(middle, box.center().y()))
    paint_state(painter, mark, block.state, sheet.colours.state(block.state))
    if not roomy:
        return
    room.setLeft(mark.right() + PAD_PX)
    room.setRight(box.right() - PAD_PX)
    lines = [block_title(block)]
    if block.attended:
        lines.append(block_clock(block, sheet.geometry.zone))
    base = box.center().y() - len(lines) * metrics.height() / 2 + metrics.ascent()
    painter.setFont(sheet.font)
    for number, line in enumerate(lines):
        painter.setPen(QColor(sheet.colours.text if number == 0 else sheet.colours.quiet))
        text = metrics.elidedText(line, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(QPointF(room.left(), base + number * metrics.height()), text)


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
