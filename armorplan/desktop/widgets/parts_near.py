"""Which part of the diagram is brought near while a build is followed along its order."""

from collections.abc import Iterable

from PySide6.QtCore import QMarginsF, QRectF, QSizeF

from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.closing_scene import BARE_PX
from armorplan.desktop.widgets.parts_drawing import PartsDrawing
from armorplan.desktop.widgets.picture_view import PictureView
from armorplan.desktop.widgets.turns import Turns

NEAR_SHARE = 0.7
"""What is narrower or lower than this share of the whole picture is brought near."""
NEAR_AFTER_MS = 300
"""What is in hand comes near once the order is not followed on for so long."""


class Nearer:
    """Brings near what is in hand, until one zooms, moves, or asks for everything."""

    def __init__(self, view: PictureView, drawing: PartsDrawing) -> None:
        self._view, self._drawing = view, drawing
        self._later = Turns(view)
        self._closing: Closing | None = None

    def begin(self, closing: Closing) -> bool:
        """Bring near what is in hand now; tell whether the view was fitted to anything."""
        if not self._view.is_fitted:
            return False
        self._view.fit_to(self._wanted(closing))
        return True

    def follow(self, closing: Closing | None) -> None:
        """Bring near what is in hand once the order is not followed on for a while."""
        self._closing = closing
        self._later.do((self._catch_up,), after_ms=NEAR_AFTER_MS)

    def end(self) -> bool:
        """Show everything again; tell whether only a part was shown."""
        self._later.stop()
        was_near = self._view.is_near
        if was_near:
            self._view.fit()
        return was_near

    def _catch_up(self) -> None:
        if self._closing is None or not self._view.is_near:
            return
        near = self._wanted(self._closing)
        if near != self._view.near:
            self._view.fit_to(near)

    def _wanted(self, closing: Closing) -> QRectF:
        size = self._view.viewport().size().toSizeF()
        return in_hand(self._drawing, closing, self._view.near, size)


def in_hand(drawing: PartsDrawing, closing: Closing, shown: QRectF, view: QSizeF) -> QRectF:
    """Return where the chosen joint lies, or those set next, with their piece; empty: everywhere.

    Where marks have no room beside each other then, only the parts that they go through come near.
    What is shown stays where nothing is set next, or where it does as well.

    Args:
        drawing: the parts.
        closing: the place in the order.
        shown: what is near now, in mm; empty: everything is shown.
        view: how large the view is, in pixels.
    """
    joints = (closing.way.joint,) if closing.way else closing.frame.coming
    parts = drawing.parts_of(joints)
    if not parts:
        return shown
    whole, own = drawing.bounds(), drawing.box_of(parts)
    for box in (whole if shown.isEmpty() else shown, drawing.box_of(drawing.mates(parts)), own):
        if box.contains(own) and not _is_crowded(drawing, parts, box, view):
            return _near(box, whole)
    return _near(own, whole)


def _is_crowded(drawing: PartsDrawing, parts: Iterable[str], box: QRectF, view: QSizeF) -> bool:
    """Tell whether most marks on parts hide each other where a box fills the view."""
    scale = min(view.width() / box.width(), view.height() / box.height())
    rooms = sorted(head.room_mm * scale for head in drawing.heads_on(parts))
    return bool(rooms) and rooms[len(rooms) // 2] < BARE_PX


def _near(box: QRectF, whole: QRectF) -> QRectF:
    share = min(box.width() / whole.width(), box.height() / whole.height())
    return box if share < NEAR_SHARE else QRectF()


def between(box: QRectF, view: QRectF) -> QMarginsF:
    """Return how far a box lies within a view on each side."""
    return QMarginsF(
        box.left() - view.left(),
        box.top() - view.top(),
        view.right() - box.right(),
        view.bottom() - box.bottom(),
    )
