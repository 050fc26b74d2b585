"""Lines and words over a drawing that stay as large as they are at every zoom."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from armorplan.desktop.colours import Colours

PLATE_PX = 3.0


def line_of(colour: str, wide: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    """Return a line that is as wide at every zoom, in pixels."""
    pen = QPen(QColor(colour), wide, style, Qt.PenCapStyle.RoundCap)
    pen.setCosmetic(True)
    return pen


def paint_words(
    painter: QPainter, at: QPointF, words: str, *, look: tuple[Colours, QFont], off_px: QPointF
) -> None:
    """Write words on a plate.

    Args:
        painter: draws in scene coordinates.
        at: the point that the words belong to.
        words: what is written.
        look: its colours and font.
        off_px: where the left of the words lies from the point, and the middle of their height.
    """
    colours, font = look
    scale = painter.transform().m11() or 1.0
    painter.save()
    painter.translate(at)
    painter.scale(1 / scale, 1 / scale)
    box = QFontMetricsF(font).boundingRect(words).adjusted(-PLATE_PX, -1, PLATE_PX, 1)
    box.moveTo(off_px.x(), off_px.y() - box.height() / 2)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.panel))
    painter.drawRoundedRect(box, PLATE_PX, PLATE_PX)
    painter.setPen(QColor(colours.text))
    painter.setFont(font)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
    painter.restore()
