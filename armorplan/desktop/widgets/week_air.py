"""The air of the room along the days: a thin line of its warmth, with the numbers beside it."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from armorplan.app.chart_air import AirStretch
from armorplan.desktop.widgets.week_sheet import PAD_PX, Sheet

GAP_PX = 4.0
_LEAST_SPAN_C = 4


def air_px(text_px: float) -> float:
    """Return how tall the strip of the air is, for a height of text."""
    return text_px + 2 * GAP_PX


def air_words(stretch: AirStretch) -> tuple[str, str]:
    """Return what is written of a stretch, long and short."""
    warmth = f"{stretch.temperature_c} °C"
    return f"{warmth}, {stretch.humidity_pct} %", warmth


def air_range(air: Sequence[AirStretch]) -> str:
    """Return the coldest and the warmest of it in words."""
    low = min(a.temperature_c for a in air)
    high = max(a.temperature_c for a in air)
    return f"{low} °C" if low == high else f"{low}\N{EN DASH}{high} °C"


def paint_air(painter: QPainter, sheet: Sheet, top: float, height: float) -> None:
    """Paint the strip over everything in view; nothing where the air is always the same."""
    air = sheet.geometry.week.air
    seen = [a for a in air if a.end_at >= sheet.seen[0] and a.start_at <= sheet.seen[1]]
    if not seen:
        return
    left, right = (sheet.geometry.x(at) for at in sheet.seen)
    box = QRectF(left, top, right - left, height)
    painter.fillRect(box, QColor(sheet.colours.panel))
    low, high = _range(air)
    levels = [
        box.bottom() - GAP_PX - (a.temperature_c - low) / (high - low) * (height - 2 * GAP_PX)
        for a in seen
    ]
    painter.setPen(QPen(QColor(sheet.colours.drying), 1.8))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline(_line(sheet, seen, levels))
    painter.setPen(QPen(QColor(sheet.colours.line), 1.0))
    painter.drawLine(QPointF(left, box.bottom() - 0.5), QPointF(right, box.bottom() - 0.5))
    _write(painter, sheet, seen, (box, levels))


def _range(air: Sequence[AirStretch]) -> tuple[float, float]:
    """Return the coldest and the warmest, apart enough to draw."""
    low = min(a.temperature_c for a in air)
    high = max(a.temperature_c for a in air)
    return low, max(high, low + _LEAST_SPAN_C)


def _line(sheet: Sheet, seen: Sequence[AirStretch], levels: Sequence[float]) -> QPolygonF:
    points = []
    for stretch, level in zip(seen, levels, strict=True):
        points += [
            QPointF(sheet.geometry.x(stretch.start_at), level),
            QPointF(sheet.geometry.x(stretch.end_at), level),
        ]
    return QPolygonF(points)


def _write(
    painter: QPainter,
    sheet: Sheet,
    seen: Sequence[AirStretch],
    where: tuple[QRectF, Sequence[float]],
) -> None:
    """Write the numbers where they fit, on the panel's own ground so that the line stays off."""
    box, levels = where
    font = QFont(sheet.font)
    metrics = QFontMetricsF(font)
    painter.setFont(font)
    written_to = box.left() - 1
    for stretch, level in zip(seen, levels, strict=True):
        begins = max(sheet.geometry.x(stretch.start_at), box.left()) + PAD_PX
        ends = min(sheet.geometry.x(stretch.end_at), box.right()) - PAD_PX
        fitting = (
            text
            for text in air_words(stretch)
            if begins > written_to and metrics.horizontalAdvance(text) <= ends - begins
        )
        text = next(fitting, "")
        if not text:
            continue
        wide = metrics.horizontalAdvance(text)
        ground = QRectF(begins - 3, box.top() + 1, wide + 6, box.height() - 3)
        ground.moveLeft((begins + ends - wide) / 2 - 3)
        written_to = ground.right() + PAD_PX
        painter.fillRect(ground, QColor(sheet.colours.panel))
        painter.setPen(QColor(sheet.colours.text))
        painter.drawText(ground, Qt.AlignmentFlag.AlignCenter, text)
        # A stump on each side shows at which height the line goes on behind the words.
        painter.setPen(QPen(QColor(sheet.colours.drying), 1.8))
        for x, by in ((ground.left(), -PAD_PX), (ground.right(), PAD_PX)):
            painter.drawLine(QPointF(x, level), QPointF(x + by, level))
