"""Where a part's name is written: inside the part, off its holes and fasteners if it can be."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

BESIDE = 0.25
"""A name beside its part stands off it by so much of its own height."""
COVERED_SHARE = 0.2
"""A name inside its part may cover so much: beside it, it might be read as another part's."""
STEPS = 9
"""The part's box is searched in so many steps each way."""


class Ground(NamedTuple):
    """What else lies about: boxes of other parts, names that have their place, and the room."""

    parts: Sequence[QRectF] = ()
    names: Sequence[QRectF] = ()
    room: QRectF = QRectF()
    """Where names may stand; an empty one is without bounds."""

    def is_free(self, box: QRectF) -> bool:
        """Tell whether a name here lies on no other part or name, and within the room."""
        return (
            (self.room.isEmpty() or self.room.contains(box))
            and not any(box.intersects(name) for name in self.names)
            and not any(box.intersects(part) for part in self.parts)
        )


def name_place(
    outline: QPainterPath,
    wanted: QPointF,
    size_mm: tuple[float, float],
    taken: Sequence[QRectF],
    ground: Ground,
) -> QPointF | None:
    """Return the middle of a name of this size; ``None`` where there is no room for it.

    The nearest place to ``wanted`` at which the name lies inside the outline and covers nothing
    that is ``taken``, or little. A part too small for that has its name beside it, where nothing
    else lies; else the name covers as little of its own part as it can. A name never lies on
    another part or another name.
    """
    box = QRectF(0, 0, *size_mm)
    best, least = _inside(outline, wanted, box, taken, ground)
    if best is not None and least <= COVERED_SHARE * size_mm[0] * size_mm[1]:
        return best
    for spot in _beside(outline.boundingRect(), size_mm):
        box.moveCenter(spot)
        if ground.is_free(box):
            return spot
    return best


def _inside(
    outline: QPainterPath,
    wanted: QPointF,
    box: QRectF,
    taken: Sequence[QRectF],
    ground: Ground,
) -> tuple[QPointF | None, float]:
    """Return the place inside a part that covers least, and how much it covers."""
    best, least = None, float("inf")
    bounds = outline.boundingRect()
    if box.width() > bounds.width() or box.height() > bounds.height():
        return best, least
    for spot in _spots(bounds, wanted):
        box.moveCenter(spot)
        over = sum(_area(box.intersected(other)) for other in taken if box.intersects(other))
        if over < least and ground.is_free(box) and outline.contains(box):
            best, least = spot, over
        if least == 0:
            break
    return best, least


def _beside(box: QRectF, size_mm: tuple[float, float]) -> Iterator[QPointF]:
    """Yield the places just below, above, right and left of a part; then shifted along it."""
    wide, high = size_mm
    off = box.height() / 2 + high * (BESIDE + 0.5)
    away = box.width() / 2 + wide / 2 + high * BESIDE
    along = abs(box.width() - wide) / 2
    for aside in (0.0, along, -along):
        yield box.center() + QPointF(aside, off)
        yield box.center() + QPointF(aside, -off)
        if not aside:
            yield box.center() + QPointF(away, 0)
            yield box.center() + QPointF(-away, 0)


def _area(box: QRectF) -> float:
    return box.width() * box.height()


def _spots(box: QRectF, wanted: QPointF) -> Iterator[QPointF]:
    yield wanted
    grid = [
        QPointF(box.left() + box.width() * across / STEPS, box.top() + box.height() * down / STEPS)
        for across in range(1, STEPS)
        for down in range(1, STEPS)
    ]
    grid += [QPointF(spot.x(), wanted.y()) for spot in grid[:: STEPS - 1]]
    yield from sorted(grid, key=lambda spot: (spot - wanted).manhattanLength())
