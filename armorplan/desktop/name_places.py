"""Where a part's name is written: inside the part, off its holes and fasteners if it can be."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

BESIDE = 0.25
"""A name beside its part stands off it by so much of its own height."""
COVERED_SHARE = 0.2
"""A name inside its part may cover so much: beside it, it might be read as another part's."""
LEADS = (1.6, 3.2, 5.0)
"""Where that is taken it stands off by so many of its heights, and a line leads to it."""
INSET = 0.3
"""A line begins so far within the part's box, as a share of it: on the part, not at a corner."""
BARE = (0.03, 0.12)
"""So much of a name's box, across and down, is bare plate that may stand over the edge."""
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
        if not (self.room.isEmpty() or self.room.contains(box)):
            return False
        return not any(map(box.intersects, (*self.names, *self.parts)))

    def lets_through(self, bounds: QRectF, box: QRectF) -> bool:
        """Tell whether a line from a part to its name crosses no other part or name."""
        start = lead_to(bounds, box)
        if start is None:
            return True
        line = _dot(start) | _dot(_nearest(box, start))
        return not any(line.intersects(other) for other in (*self.names, *self.parts))


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
    else lies, or a little off it, where a line leads there across nothing else; else the name
    covers as little of its own part as it can. A name never lies on another part or name.
    """
    box = QRectF(0, 0, *size_mm)
    best, least = _inside(outline, wanted, box, taken, ground)
    if best is not None and least <= COVERED_SHARE * size_mm[0] * size_mm[1]:
        return best
    bounds = outline.boundingRect()
    for share in (BESIDE, *LEADS):
        for spot in _beside(bounds, size_mm, share):
            box.moveCenter(spot)
            if ground.is_free(box) and (share == BESIDE or ground.lets_through(bounds, box)):
                return spot
    return best


def lead_to(bounds: QRectF, box: QRectF) -> QPointF | None:
    """Return where on a part the line from its name begins; ``None`` where the name stands at it."""
    room = box.height() * (BESIDE + 0.1)
    if box.adjusted(-room, -room, room, room).intersects(bounds):
        return None
    within = bounds.adjusted(
        bounds.width() * INSET, bounds.height() * INSET, -bounds.width() * INSET,
        -bounds.height() * INSET,
    )  # fmt: skip
    return _nearest(within, box.center())


def _nearest(box: QRectF, spot: QPointF) -> QPointF:
    x = min(max(spot.x(), box.left()), box.right())
    return QPointF(x, min(max(spot.y(), box.top()), box.bottom()))


def _dot(spot: QPointF) -> QRectF:
    return QRectF(spot.x() - 0.01, spot.y() - 0.01, 0.02, 0.02)


def _inside(
    outline: QPainterPath,
    wanted: QPointF,
    box: QRectF,
    taken: Sequence[QRectF],
    ground: Ground,
) -> tuple[QPointF | None, float]:
    """Return the place inside a part that covers least, and how much it covers."""
    best, least = None, float("inf")
    bounds, words = outline.boundingRect(), _words(box)
    if words.width() > bounds.width() or words.height() > bounds.height():
        return best, least
    for spot in _spots(bounds, wanted):
        box.moveCenter(spot)
        if not (bounds.contains(_words(box)) and ground.is_free(box)):
            continue
        over = sum(_area(box.intersected(other)) for other in taken if box.intersects(other))
        if over < least and outline.contains(_words(box)):
            best, least = spot, over
        if least == 0:
            break
    return best, least


def _beside(box: QRectF, size_mm: tuple[float, float], share: float) -> Iterator[QPointF]:
    """Yield the places below, above, right and left of a part; then shifted along it.

    They stand off it by a share of the name's height.
    """
    wide, high = size_mm
    off = box.height() / 2 + high * (share + 0.5)
    away = box.width() / 2 + wide / 2 + high * share
    along = abs(box.width() - wide) / 2
    for aside in (0.0, along, -along):
        yield box.center() + QPointF(aside, off)
        yield box.center() + QPointF(aside, -off)
        if not aside:
            yield box.center() + QPointF(away, 0)
            yield box.center() + QPointF(-away, 0)


def _words(box: QRectF) -> QRectF:
    bare_x, bare_y = box.width() * BARE[0], box.height() * BARE[1]
    return box.adjusted(bare_x, bare_y, -bare_x, -bare_y)


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
