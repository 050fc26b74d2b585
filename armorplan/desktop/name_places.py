"""Where a part's name is written: inside the part, off its holes and fasteners if it can be."""

from collections.abc import Iterator, Sequence

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

BESIDE = 0.75
"""A name beside its part stands off it by so much of its own height, from edge to middle."""
COVERED_SHARE = 0.2
"""A name inside its part may cover so much: beside it, it might be read as another part's."""
STEPS = 9
"""The part's box is searched in so many steps each way."""


def name_place(
    outline: QPainterPath,
    wanted: QPointF,
    size_mm: tuple[float, float],
    taken: Sequence[QRectF],
    others: Sequence[QRectF] = (),
) -> QPointF:
    """Return the middle of a name of this size.

    The nearest place to ``wanted`` at which the name lies inside the outline and covers nothing
    that is ``taken``, or little. A part too small for that has its name beside it, where no box of the ``others`` lies; else it covers as little as it can, and stays where it is
    ``wanted`` when it fits nowhere.
    """
    box = QRectF(0, 0, *size_mm)
    best, least = wanted, float("inf")
    for spot in _spots(outline.boundingRect(), wanted):
        box.moveCenter(spot)
        over = sum(_area(box.intersected(other)) for other in taken)
        if over < least and outline.contains(box):
            best, least = spot, over
        if least == 0:
            return best
    if least <= COVERED_SHARE * size_mm[0] * size_mm[1]:
        return best
    for spot in _beside(outline.boundingRect(), size_mm):
        box.moveCenter(spot)
        if not any(box.intersects(other) for other in others):
            return spot
    return best


def _beside(box: QRectF, size_mm: tuple[float, float]) -> tuple[QPointF, ...]:
    """Return the places just below, above, right and left of a part."""
    wide, high = size_mm
    off = box.height() / 2 + high * BESIDE
    away = box.width() / 2 + wide / 2 + high * (BESIDE - 0.5)
    return tuple(
        box.center() + way
        for way in (QPointF(0, off), QPointF(0, -off), QPointF(away, 0), QPointF(-away, 0))
    )


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
