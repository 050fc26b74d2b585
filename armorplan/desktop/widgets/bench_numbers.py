"""Numbers beside the joints of a picture, each on a plate of its own: over no other, over no joint."""

from collections.abc import Mapping

from PySide6.QtCore import QPoint, QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter
from PySide6.QtWidgets import QWidget

from armorplan.desktop.theme import colours_of

PAD_PX, ROUND_PX = 3.0, 4.0
OFF_SHARE = 0.9
"""A plate lies so much of its height from the joint, or as much again where others lie there."""
_WAYS = ((1, -1), (-1, -1), (1, 1), (-1, 1), (0, -1), (0, 1), (1, 0), (-1, 0))
_RINGS = 3


def plates(spots: Mapping[int, QPoint], size: QSizeF, room: QRectF) -> dict[int, QRectF]:
    """Return where the plate of each number lies: near its joint, within the room, over nothing else.

    Args:
        spots: of the joints, by number.
        size: of a plate.
        room: that the plates keep to.
    """
    found: dict[int, QRectF] = {}
    for number, spot in sorted(spots.items()):
        tried = [
            _box(QPointF(spot), size, way, ring) for ring in range(1, _RINGS + 1) for way in _WAYS
        ]
        free = (
            box
            for box in tried
            if room.contains(box)
            and not any(box.intersects(other) for other in found.values())
            and not any(box.contains(QPointF(other)) for other in spots.values())
        )
        found[number] = next(free, tried[0])
    return found


def _box(spot: QPointF, size: QSizeF, way: tuple[int, int], ring: int) -> QRectF:
    off = OFF_SHARE * size.height() * ring
    middle = spot + QPointF(way[0] * off, way[1] * off)
    return QRectF(middle - QPointF(size.width() / 2, size.height() / 2), size)


def write_numbers(painter: QPainter, view: QWidget, spots: Mapping[int, QPoint]) -> None:
    """Write numbers in the view's font beside spots of its own, in pixels."""
    metrics, colours = QFontMetricsF(view.font()), colours_of(view.palette())
    wide = max((metrics.horizontalAdvance(str(number)) for number in spots), default=0.0)
    high = metrics.capHeight() + 2 * PAD_PX
    size = QSizeF(max(high, wide + 2 * PAD_PX), high)
    painter.save()
    painter.resetTransform()
    painter.setFont(view.font())
    painter.setBrush(QColor(colours.panel))
    placed = plates(spots, size, QRectF(view.rect()))
    painter.setPen(QColor(colours.focus))
    for number, box in placed.items():
        painter.drawLine(QPointF(spots[number]), box.center())
    for number, box in placed.items():
        painter.setPen(QColor(colours.focus))
        painter.drawRoundedRect(box, ROUND_PX, ROUND_PX)
        painter.setPen(QColor(colours.text))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))
    painter.restore()
