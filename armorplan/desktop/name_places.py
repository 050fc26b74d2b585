"""Where a part's name is written: inside the part, off its holes and fasteners if it can be."""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

STEPS = 9
"""The part's box is searched in so many steps each way."""


def name_place(
    outline: QPainterPath, wanted: QPointF, size_mm: tuple[float, float], taken: Sequence[QRectF]
) -> QPointF:
    """Return the middle of a name of this size.

    Of all places at which the name lies inside the outline, the one that covers least of what is
    taken, and of these the nearest to ``wanted``; ``wanted`` itself where the name fits nowhere.
    """
    box = QRectF(0, 0, *size_mm)
    best, least = wanted, float("inf")
    for spot in _spots(outline.boundingRect(), wanted):
        box.moveCenter(spot)
        over = sum(_area(box.intersected(other)) for other in taken)
        if over < least and outline.contains(box):
            best, least = spot, over
        if least == 0:
            break
    return best


def _area(box: QRectF) -> float:
    return box.width() * box.height() if box.isValid() else 0.0


def _spots(box: QRectF, wanted: QPointF) -> Iterator[QPointF]:
    yield wanted
    grid = [
        QPointF(box.left() + box.width() * across / STEPS, box.top() + box.height() * down / STEPS)
        for across in range(1, STEPS)
        for down in range(1, STEPS)
    ]
    grid += [QPointF(spot.x(), wanted.y()) for spot in grid[:: STEPS - 1]]
    yield from sorted(grid, key=lambda spot: (spot - wanted).manhattanLength())
