"""Where the words of a mark stand: near it, off names, fasteners and other words. All in pixels."""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from math import floor, hypot, inf
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

CELL_PX = 48.0
REACHES_PX = (9.0, 22.0, 40.0, 64.0, 96.0)
"""How far words may stand off what they belong to; a line leads to those farther away."""
COVERED_SHARE = 0.4
"""Words that would hide more than this of themselves, or of what lies there, are left out."""
PRICE_PX = 5.0
"""Standing a pixel farther off costs as much as hiding so many square pixels."""
_DIAGONAL = 0.7071
_ACROSS = (0.5, 0.2, 0.8, 0.0, 1.0)
_DOWN = (0.5, 0.25, 0.75, 0.0, 1.0)
"""Words on an area are tried at these shares of the room it leaves them."""


class Anchor(NamedTuple):
    """What words belong to: its middle, the way it runs (0, 0: no way), and its area if it has one."""

    at: QPointF
    along: tuple[float, float] = (0.0, 0.0)
    area: QPainterPath = QPainterPath()


_Taken = tuple[float, float, float, float, float]


class Ground:
    """Boxes that are taken, found by where they lie; each with a weight for being covered."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[_Taken]] = {}

    def take(self, boxes: Iterable[QRectF], weight: float = 1.0) -> None:
        """Let nothing lie on these boxes from now on, if it can be helped."""
        for box in boxes:
            taken = (box.left(), box.top(), box.right(), box.bottom(), weight)
            for cell in _cells(*taken[:4]):
                self._cells.setdefault(cell, []).append(taken)

    def covered(self, box: QRectF, most: float = inf) -> float:
        """Return how much of what is taken a box would hide, in square pixels, weighted.

        What is more than ``most`` is not reckoned to its end.
        """
        left, top, right, foot = box.left(), box.top(), box.right(), box.bottom()
        found: dict[_Taken, float] = {}
        for cell in _cells(left, top, right, foot):
            for taken in self._cells.get(cell, ()):
                over_x = min(right, taken[2]) - max(left, taken[0])
                if over_x <= 0 or taken in found:
                    continue
                over_y = min(foot, taken[3]) - max(top, taken[1])
                if over_y > 0:
                    found[taken] = over_x * over_y * taken[4]
                    most -= found[taken]
                    if most < 0:
                        return sum(found.values())
        return sum(found.values())


def _cells(left: float, top: float, right: float, foot: float) -> Iterator[tuple[int, int]]:
    for across in range(floor(left / CELL_PX), floor(right / CELL_PX) + 1):
        for down in range(floor(top / CELL_PX), floor(foot / CELL_PX) + 1):
            yield across, down


def words_place(
    anchor: Anchor,
    size: tuple[float, float],
    ground: Ground,
    room: QRectF | QPainterPath,
    *,
    near: bool = False,
) -> QRectF | None:
    """Return the box of words of a size; ``None`` where they would hide too much anywhere.

    They keep within the room, a box or an outline; an empty one is without bounds. With ``near``
    they stand so close that no line has to lead to them, or nowhere.
    """
    most = COVERED_SHARE * size[0] * size[1]
    best, least = None, inf
    for spot, reach in _spots(anchor, size):
        far = reach * PRICE_PX
        if far >= least or (near and reach > REACHES_PX[0]):
            break
        box = QRectF(spot.x() - size[0] / 2, spot.y() - size[1] / 2, *size)
        if not (room.isEmpty() or room.contains(box)):
            continue
        bearable = min(most, least - far)
        hidden = ground.covered(box, bearable)
        if hidden < bearable:
            best, least = box, hidden + far
    return best


def _spots(anchor: Anchor, size: tuple[float, float]) -> Iterator[tuple[QPointF, float]]:
    """Yield places for the middle of words and how far off they are: on an area, then round it."""
    if not anchor.area.isEmpty():
        yield from ((spot, 0.0) for spot in _on(anchor.area, size))
    box = anchor.area.boundingRect()
    ways = _ways(round(anchor.along[0], 1), round(anchor.along[1], 1))
    for reach in REACHES_PX:
        for x, y in ways:
            off_x = abs(x) * (size[0] + box.width()) / 2 + reach * abs(x)
            off_y = abs(y) * (size[1] + box.height()) / 2 + reach * abs(y)
            sign_x, sign_y = (x > 0) - (x < 0), (y > 0) - (y < 0)
            yield anchor.at + QPointF(sign_x * off_x, sign_y * off_y), reach


def _on(area: QPainterPath, size: tuple[float, float]) -> Iterator[QPointF]:
    """Yield places on an area: within it, or only over its middle where it is too small."""
    bounds = area.boundingRect()
    spare_x, spare_y = bounds.width() - size[0] - 2, bounds.height() - size[1] - 2
    fits = spare_x >= 0 and spare_y >= 0
    for down in _DOWN:
        for across in _ACROSS if fits else _ACROSS[:1]:
            off = QPointF(spare_x * (across - 0.5), spare_y * (down - 0.5))
            spot = bounds.center() + (off if fits else QPointF(0, bounds.height() * (down - 0.5)))
            within = QRectF(spot.x() - size[0] / 2, spot.y() - size[1] / 2, *size)
            if area.contains(within) or (not fits and area.contains(spot)):
                yield spot


@lru_cache(maxsize=500)
def _ways(along_x: float, along_y: float) -> Sequence[tuple[float, float]]:
    """Return eight ways off a thing, those across the way it runs first."""
    ways = [(0.0, -1.0), (0.0, 1.0), (1.0, 0.0), (-1.0, 0.0)]
    ways += [(x * _DIAGONAL, y * _DIAGONAL) for y in (-1, 1) for x in (1, -1)]
    return sorted(ways, key=lambda way: round(abs(way[0] * along_x + way[1] * along_y), 2))


def leader(anchor: Anchor, box: QRectF) -> tuple[QPointF, QPointF] | None:
    """Return the line that leads from a thing to its words; ``None`` where they stand at it."""
    if not anchor.area.isEmpty() and anchor.area.intersects(box):
        return None
    start = _start(anchor, box)
    near = _nearest(box, start)
    gap = hypot(near.x() - start.x(), near.y() - start.y())
    return (start, near) if gap > REACHES_PX[0] + 1 else None


def _start(anchor: Anchor, box: QRectF) -> QPointF:
    """Return where a line to words begins: in an area, a little within it on their side."""
    bounds = anchor.area.boundingRect()
    inset_x, inset_y = bounds.width() / 6, bounds.height() / 6
    near = _nearest(bounds.adjusted(inset_x, inset_y, -inset_x, -inset_y), box.center())
    return near if anchor.area.contains(near) else anchor.at


def _nearest(box: QRectF, spot: QPointF) -> QPointF:
    return QPointF(
        min(max(spot.x(), box.left()), box.right()),
        min(max(spot.y(), box.top()), box.bottom()),
    )
