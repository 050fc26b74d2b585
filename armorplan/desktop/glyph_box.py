"""What drawn marks share: their square in a box, their pen, and points told as shares of a box."""

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF


@contextmanager
def filling(painter: QPainter, box: QRectF, colour: str) -> Iterator[QRectF]:
    """Fill what is painted within, without edges, in ``#rrggbb``; gives the box's middle square."""
    side = min(box.width(), box.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(box.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    try:
        yield square
    finally:
        painter.restore()


def round_pen(colour: QColor, width: float) -> QPen:
    """Return a pen with round ends and corners."""
    caps = Qt.PenCapStyle.RoundCap
    return QPen(colour, width, Qt.PenStyle.SolidLine, caps, Qt.PenJoinStyle.RoundJoin)


def points_in(box: QRectF, *shares: tuple[float, float]) -> QPolygonF:
    """Return points given as shares of the box."""
    return QPolygonF(
        [QPointF(box.x() + x * box.width(), box.y() + y * box.height()) for x, y in shares]
    )
