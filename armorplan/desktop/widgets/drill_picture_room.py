"""Room for the picture of an exercise: what is brought near, and the height that a play borrows."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtWidgets import QSplitter, QWidget

from armorplan.desktop.widgets.parts_drawing import PartsDrawing

NEAR_SHARE = 0.7
"""What is drawn so much smaller with everything around it is brought near."""
LOW_PX = 240
AROUND_SHARE = 0.4
"""Round parts that are brought near so much of their length is shown of what lies there."""
AROUND_MM = 35.0
"""At the least: a washer alone would tell nobody where it lies."""
MOST_TAKEN = 0.7
"""At most this share of what lies above and below is borrowed."""


def near_box(
    drawing: PartsDrawing, parts: tuple[str, ...], view: QSize, *, is_close: bool = False
) -> QRectF:
    """Return what is shown as large as can be; an empty box: everything.

    The pieces that the parts are of; where that brings little, or is not close enough, or in a low
    view, the parts with what lies round them.
    """
    whole, close = drawing.bounds(), drawing.box_of(parts)
    if close.isEmpty():
        return QRectF()
    far = _scale(whole, view)
    round_mm = max(AROUND_SHARE * max(close.width(), close.height()), AROUND_MM)
    around = close.adjusted(-round_mm, -round_mm, round_mm, round_mm) & whole
    tried = (drawing.box_of(drawing.mates(parts)), around)
    if is_close or view.height() < LOW_PX:
        tried = tried[::-1]
    return next((box for box in tried if far < NEAR_SHARE * _scale(box, view)), QRectF())


def _scale(box: QRectF, view: QSize) -> float:
    """Return how large a box can be drawn in a view; an empty one not at all."""
    if box.isEmpty():
        return 0.0
    return min(view.width() / box.width(), view.height() / box.height())


class BorrowedRoom:
    """Height that a widget takes of a splitter for a while, and gives back."""

    def __init__(self, widget: QWidget) -> None:
        self._widget = widget
        self._shares: tuple[int, ...] = ()

    def take(self, wanted_px: int) -> None:
        """Take so much height as is lacking, as far as it goes; nothing where it is taken already."""
        beside = self._splitter()
        if beside is None or self._shares:
            return
        sizes, at = beside.sizes(), beside.indexOf(self._widget)
        others = sum(sizes) - sizes[at]
        given = min(max(0, wanted_px - sizes[at]), round(others * MOST_TAKEN))
        shared = [size - round(given * size / max(others, 1)) for size in sizes]
        shared[at] = sizes[at] + given
        self._shares = tuple(sizes)
        beside.setSizes(shared)

    def give_back(self) -> None:
        """Give back what was taken."""
        beside, shares = self._splitter(), self._shares
        self._shares = ()
        if beside is not None and len(shares) == beside.count():
            beside.setSizes(list(shares))

    def _splitter(self) -> QSplitter | None:
        found = self._widget.parentWidget()
        is_one = isinstance(found, QSplitter) and found.orientation() is Qt.Orientation.Vertical
        return found if isinstance(found, QSplitter) and is_one else None
