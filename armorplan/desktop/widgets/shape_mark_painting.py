"""How a measure stands, as drawn shapes with silhouettes of their own: colour never alone."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from armorplan.desktop.glyph_box import filling, points_in, round_pen
from armorplan.desktop.shapes_words import ORDER, SOUND


def paint_standing(painter: QPainter, box: QRectF, severity: str, colour: str) -> None:
    """Paint a tick, an arrow, a disc, a filled wedge or a cross into a box, in ``#rrggbb``."""
    with filling(painter, box, colour) as square:
        if severity == "note":
            painter.drawEllipse(square.center(), square.width() * 0.3, square.width() * 0.3)
        elif severity == "warning":
            painter.drawPolygon(points_in(square, (0.5, 0.06), (0.98, 0.92), (0.02, 0.92)))
        else:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(round_pen(QColor(colour), square.width() * 0.18))
            if severity == SOUND:
                painter.drawPolyline(points_in(square, (0.1, 0.55), (0.4, 0.84), (0.9, 0.18)))
            elif severity == ORDER:
                painter.drawPolyline(points_in(square, (0.08, 0.5), (0.9, 0.5)))
                painter.drawPolyline(points_in(square, (0.58, 0.18), (0.9, 0.5), (0.58, 0.82)))
            else:
                painter.drawPolyline(points_in(square, (0.14, 0.14), (0.86, 0.86)))
                painter.drawPolyline(points_in(square, (0.86, 0.14), (0.14, 0.86)))
