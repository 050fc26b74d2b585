"""What the pictures of shapes share: colours, font, arrows, measured lines, words with a ground."""

from dataclasses import dataclass
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from armorplan.desktop.colours import Colours

TIP_PX = 8.0
PAD_PX = 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What a picture is painted with."""

    colours: Colours
    font: QFont

    @property
    def metrics(self) -> QFontMetricsF:
        """The measures of the font, in device-independent pixels."""
        return QFontMetricsF(self.font)

    @property
    def line_px(self) -> float:
        """The height of a line of text."""
        return self.metrics.height()


def width_of(sheet: Sheet, text: str) -> float:
    """Return the width of a text in device-independent pixels."""
    return sheet.metrics.horizontalAdvance(text)


def write(painter: QPainter, sheet: Sheet, middle: QPointF, text: str, colour: str = "") -> QRectF:
    """Write a text about a point on a ground of the panel's colour; return what it covers."""
    box = QRectF(0, 0, width_of(sheet, text) + 6, sheet.line_px)
    box.moveCenter(middle)
    painter.save()
    painter.setFont(sheet.font)
    ground = QColor(sheet.colours.panel)
    ground.setAlpha(225)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    painter.drawRoundedRect(box.adjusted(0, 1, 0, -1), 3, 3)
    painter.setPen(QColor(colour or sheet.colours.text))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
    painter.restore()
    return box


def write_line(painter: QPainter, sheet: Sheet, box: QRectF, text: str, colour: str = "") -> None:
    """Write a text from the left of a box, shortened to its width."""
    painter.setFont(sheet.font)
    painter.setPen(QColor(colour or sheet.colours.text))
    short = sheet.metrics.elidedText(text, Qt.TextElideMode.ElideRight, box.width())
    left = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
    painter.drawText(box, left, short)


def arrow(painter: QPainter, tail: QPointF, tip: QPointF, colour: str) -> None:
    """Draw an arrow with a filled tip."""
    away = tip - tail
    long = hypot(away.x(), away.y())
    if not long:
        return
    along = away / long
    across = QPointF(-along.y(), along.x())
    foot = tip - along * min(TIP_PX, long)
    painter.save()
    painter.setPen(QPen(QColor(colour), 2.2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(tail, foot)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    half = across * (TIP_PX * 0.55)
    painter.drawPolygon(QPolygonF([tip, foot + half, foot - half]))
    painter.restore()


def solid(colour: str, width: float) -> QPen:
    """Return a pen with round joins."""
    pen = QPen(QColor(colour), width)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return pen


def dashed(colour: str, width: float) -> QPen:
    """Return a dashed pen."""
    return QPen(QColor(colour), width, Qt.PenStyle.DashLine)
