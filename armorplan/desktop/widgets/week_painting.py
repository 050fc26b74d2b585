"""Paints the coming days: nights behind, work as tickets, drying hung from a rail."""

from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.picture_colours import Look, mixed
from armorplan.desktop.week_geometry import ROW_GAP_PX, WeekGeometry
from armorplan.desktop.week_layout import Block, Lane, hour_step, hours, midnights
from armorplan.desktop.week_words import block_clock, block_title
from armorplan.desktop.wording import day_text

HALO_PX = 3.0
ROUND_PX = 9.0
MARK_PX = 16.0
PAD_PX = 6.0
TICKET_SHARE = 0.35
"""So much leather is in the ground of a ticket."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What the painting needs to know, and the instants in view."""

    geometry: WeekGeometry
    colours: Colours
    font: QFont
    seen: tuple[datetime, datetime]
    chosen: frozenset[str]
    """Steps that are chosen; empty where nothing is."""
    closed: str
    """What the closed hours are called."""

    def look(self, block: Block) -> Look:
        """Return how a block is drawn beside what is chosen."""
        if not self.chosen:
            return Look.PLAIN
        return Look.PLAIN if self.chosen.isdisjoint(block.steps) else Look.LIT


def paint_ground(painter: QPainter, sheet: Sheet, height: float) -> None:
    """Paint closed hours, midnights and full hours behind everything."""
    geometry, colours = sheet.geometry, sheet.colours
    for start_at, end_at in geometry.chart.closed:
        if end_at >= sheet.seen[0] and start_at <= sheet.seen[1]:
            left, right = geometry.x(start_at), geometry.x(end_at)
            _paint_closed(painter, sheet, QRectF(left, 0, right - left, height))
    faint = QPen(QColor(mixed(colours.line, colours.panel, 0.75)), 1.0)
    painter.setPen(faint)
    for at in hours(*sheet.seen, geometry.zone, _hour_step(sheet)):
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


def _hour_step(sheet: Sheet) -> int:
    label = QFontMetricsF(sheet.font).horizontalAdvance("00:00") + 12
    return hour_step(sheet.geometry.px_an_hour, label)


def paint_blocks(painter: QPainter, sheet: Sheet) -> None:
    """Paint every block in view, the chosen ones last."""
    lit = []
    for lane, top in zip(sheet.geometry.lanes, sheet.geometry.tops, strict=False):
        if lane.drying:
            _paint_rails(painter, sheet, lane, top)
        for block in lane.blocks:
            if block.end_at < sheet.seen[0] or block.start_at > sheet.seen[1]:
                continue
            if sheet.look(block) is Look.LIT:
                lit.append(block)
            else:
                _paint_block(painter, sheet, block)
    for block in lit:
        _paint_block(painter, sheet, block)


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


def paint_now(painter: QPainter, sheet: Sheet, now_at: datetime, height: float) -> None:
    """Paint the line of the present, with a halo so that it shows over blocks."""
    x = sheet.geometry.x(now_at)
    for colour, width in ((sheet.colours.panel, 6.0), (sheet.colours.text, 2.0)):
        painter.setPen(QPen(QColor(colour), width))
        painter.drawLine(QPointF(x, 0), QPointF(x, height))


def paint_ring(painter: QPainter, sheet: Sheet, key: str) -> None:
    """Paint the ring around the block that has the keys."""
    box = sheet.geometry.boxes[key].adjusted(-4, -4, 4, 4)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, width in ((sheet.colours.panel, 6.0), (sheet.colours.focus, 2.5)):
        painter.setPen(QPen(QColor(colour), width))
        painter.drawRoundedRect(box, 5, 5)


def paint_heading(
    painter: QPainter, sheet: Sheet, height: float, now: tuple[datetime, str]
) -> None:
    """Paint days and clock hours along the top, and where the present stands among them."""
    geometry, colours = sheet.geometry, sheet.colours
    metrics = QFontMetricsF(sheet.font)
    left, right = (geometry.x(at) for at in sheet.seen)
    painter.fillRect(QRectF(left, 0, right - left, height), QColor(colours.window))
    foot = height - metrics.descent() - 4
    flag = _flag_box(sheet, metrics, foot, now)
    painter.setFont(sheet.font)
    painter.setPen(QColor(colours.quiet))
    for at in hours(*sheet.seen, geometry.zone, _hour_step(sheet)):
        text = f"{at.astimezone(geometry.zone):%H:%M}"
        half = metrics.horizontalAdvance(text) / 2
        x = geometry.x(at)
        if x + half < flag.left() - PAD_PX / 2 or x - half > flag.right() + PAD_PX / 2:
            painter.drawText(QPointF(x - half, foot), text)
    _paint_days(painter, sheet, metrics, left)
    painter.setPen(QPen(QColor(colours.line), 1.0))
    painter.drawLine(QPointF(left, height - 0.5), QPointF(right, height - 0.5))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.strong))
    painter.drawRoundedRect(flag, 4, 4)
    painter.setPen(QColor(colours.strong_text))
    painter.drawText(flag, Qt.AlignmentFlag.AlignCenter, now[1])


def _flag_box(
    sheet: Sheet, metrics: QFontMetricsF, foot: float, now: tuple[datetime, str]
) -> QRectF:
    """Return the place of the flag over the present: whole while its line is in view."""
    at, text = now
    box = metrics.boundingRect(text).adjusted(-PAD_PX, -2, PAD_PX, 2)
    x = sheet.geometry.x(at)
    box.moveCenter(QPointF(x, foot - metrics.ascent() / 2 + 1))
    left, right = (sheet.geometry.x(seen) for seen in sheet.seen)
    if left <= x <= right:
        box.moveLeft(min(max(box.left(), left + 2), right - box.width() - 2))
    return box


def _paint_days(painter: QPainter, sheet: Sheet, metrics: QFontMetricsF, left: float) -> None:
    """Paint each day's name at its midnight; the first stays in view while its day does."""
    geometry = sheet.geometry
    bold = QFont(sheet.font)
    bold.setBold(True)
    wide = QFontMetricsF(bold)
    starts = list(midnights(*sheet.seen, geometry.zone))
    ends = [geometry.x(at) for at in starts[1:]] + [geometry.x(sheet.seen[1]) + 1e6]
    painter.setFont(bold)
    painter.setPen(QColor(sheet.colours.text))
    for at, end in zip(starts, ends, strict=True):
        x = max(geometry.x(at), left) + PAD_PX
        whole = day_text(at, geometry.zone)
        fitting = (t for t in (whole, whole.split(" ")[0]) if wide.horizontalAdvance(t) < end - x)
        painter.drawText(QPointF(x, metrics.ascent() + 3), next(fitting, ""))
    painter.setFont(sheet.font)
