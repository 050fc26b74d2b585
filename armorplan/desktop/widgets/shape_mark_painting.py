"""How a measure stands, as drawn shapes with silhouettes of their own: colour never alone."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from armorplan.desktop.shapes_words import ORDER, SOUND


def paint_standing(painter: QPainter, box: QRectF, severity: str, colour: str) -> None:
    """Paint a tick, an arrow, a disc, a filled wedge or a cross into a box, in ``#rrggbb``."""
    side = min(box.width(), box.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(box.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    if severity == "note":
        painter.drawEllipse(square.center(), side * 0.3, side * 0.3)
    elif severity == "warning":
        painter.drawPolygon(_at(square, (0.5, 0.06), (0.98, 0.92), (0.02, 0.92)))
    else:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        round_cap = Qt.PenCapStyle.RoundCap
        pen = QPen(QColor(colour), side * 0.18, Qt.PenStyle.SolidLine, round_cap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        if severity == SOUND:
            painter.drawPolyline(_at(square, (0.1, 0.55), (0.4, 0.84), (0.9, 0.18)))
        elif severity == ORDER:
            painter.drawPolyline(_at(square, (0.08, 0.5), (0.9, 0.5)))
            painter.drawPolyline(_at(square, (0.58, 0.18), (0.9, 0.5), (0.58, 0.82)))
        else:
            painter.drawPolyline(_at(square, (0.14, 0.14), (0.86, 0.86)))
            painter.drawPolyline(_at(square, (0.86, 0.14), (0.14, 0.86)))
    painter.restore()


def _at(box: QRectF, *shares: tuple[float, float]) -> QPolygonF:
    """Return points given as shares of the box."""
    return QPolygonF(
        [QPointF(box.x() + x * box.width(), box.y() + y * box.height()) for x, y in shares]
    )
