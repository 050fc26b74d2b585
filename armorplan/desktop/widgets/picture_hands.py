"""Keys and mouse on a picture: walk, choose, zoom, drag. Every picture has the same ones."""

from collections.abc import Mapping
from typing import Protocol

from PySide6.QtCore import QObject, QPoint, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget

from armorplan.desktop.picture_keys import Place, Way, next_in_order, next_that_way

ZOOM_STEP = 1.25
PAN_PX = 60

_WAYS = {
    Qt.Key.Key_Left: Way.LEFT,
    Qt.Key.Key_Right: Way.RIGHT,
    Qt.Key.Key_Up: Way.UP,
    Qt.Key.Key_Down: Way.DOWN,
}
_PANS = {Way.LEFT: (-1, 0), Way.RIGHT: (1, 0), Way.UP: (0, -1), Way.DOWN: (0, 1)}


class Picture(Protocol):
    """What the hands need of a picture. Keys name the things that can be chosen."""

    def places(self) -> Mapping[str, Place]:
        """Return where everything that can be chosen lies, in the order it is gone through."""
        ...

    def first(self) -> str:
        """Return where walking begins; empty where there is nothing."""
        ...

    def key_at(self, spot: QPoint) -> str:
        """Return what lies under a point of the viewport; empty where nothing does."""
        ...

    def reveal(self, key: str) -> None:
        """Bring a thing into view."""
        ...

    def show_ring(self) -> None:
        """Draw the ring around what has the keys, or none."""
        ...

    def zoom(self, factor: float) -> None:
        """Zoom by a factor."""
        ...

    def fit(self) -> None:
        """Show everything."""
        ...

    def pan_by(self, by: QPoint) -> None:
        """Move the window over the picture by so many pixels."""
        ...

    def viewport(self) -> QWidget:
        """Return the surface the mouse is on."""
        ...


class Hands(QObject):
    """Arrows walk, Page Up and Down go through everything, Enter chooses, Escape chooses nothing.

    ``+``, ``-`` and ``0`` zoom and show all, Shift with arrows moves, a drag moves, a click
    chooses. ``chosen`` carries a key, or an empty string where nothing is to be chosen; ``walked``
    the key that holds the ring; ``pointed`` what the mouse is over.
    """

    chosen = Signal(str)
    walked = Signal(str)
    pointed = Signal(str)

    def __init__(self, picture: Picture, parent: QObject) -> None:
        super().__init__(parent)
        self._picture = picture
        self._here = ""
        self._over = ""
        self._pressed: QPoint | None = None
        self._dragged: QPoint | None = None

    @property
    def here(self) -> str:
        """What holds the ring; empty where nothing does."""
        return self._here

    def walk_to(self, key: str) -> None:
        """Put the ring on a thing and bring it into view; an empty key takes the ring away."""
        self._here = key
        if key:
            self._picture.reveal(key)
        self._picture.show_ring()
        if key:
            self.walked.emit(key)

    def keep(self, key: str) -> None:
        """Leave the ring on a thing whose key has changed, or on nothing, without telling."""
        self._here = key

    def _walk(self, way: Way) -> None:
        places = self._picture.places()
        if self._here in places:
            self.walk_to(next_that_way(places, self._here, way) or self._here)
        else:
            self.walk_to(self._picture.first())

    def _page(self, by: int) -> None:
        keys = tuple(self._picture.places())
        if self._here in keys:
            self.walk_to(next_in_order(keys, self._here, by) or "")
        else:
            self.walk_to(self._picture.first())

    # --- events the picture passes on -------------------------------------------------------

    def focus_in(self, event: QFocusEvent) -> None:
        """Begin to walk where the keys came by Tab."""
        tab = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        if event.reason() in tab and not self._here:
            self.walk_to(self._picture.first())
        self._picture.show_ring()

    def key_press(self, event: QKeyEvent) -> None:
        """Do what a key asks; other keys are left to the window."""
        key = Qt.Key(event.key())
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        plain = not event.modifiers() & (
            Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
        )
        if key in _WAYS and shift and plain:
            across, down = _PANS[_WAYS[key]]
            self._picture.pan_by(QPoint(across * PAN_PX, down * PAN_PX))
        elif key in _WAYS and plain:
            self._walk(_WAYS[key])
        elif not plain or not (self._zoom_key(key) or self._other_key(key)):
            event.ignore()
            return
        event.accept()

    def _zoom_key(self, key: Qt.Key) -> bool:
        match key:
            case Qt.Key.Key_Plus | Qt.Key.Key_Equal:
                self._picture.zoom(ZOOM_STEP)
            case Qt.Key.Key_Minus:
                self._picture.zoom(1 / ZOOM_STEP)
            case Qt.Key.Key_0:
                self._picture.fit()
            case _:
                return False
        return True

    def _other_key(self, key: Qt.Key) -> bool:
        everything = len(self._picture.places())
        match key:
            case Qt.Key.Key_PageDown | Qt.Key.Key_PageUp:
                self._page(1 if key == Qt.Key.Key_PageDown else -1)
            case Qt.Key.Key_Home | Qt.Key.Key_End if everything:
                self._page(everything if key == Qt.Key.Key_End else -everything)
            case Qt.Key.Key_Return | Qt.Key.Key_Enter | Qt.Key.Key_Space if self._here:
                self.chosen.emit(self._here)
            case Qt.Key.Key_Escape:
                self.chosen.emit("")
            case _:
                return False
        return True

    def mouse_press(self, event: QMouseEvent) -> None:
        """Remember where a drag or a click begins."""
        if event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._pressed, self._dragged = event.position().toPoint(), None

    def mouse_move(self, event: QMouseEvent) -> None:
        """Drag, or tell what lies under the mouse."""
        spot = event.position().toPoint()
        if self._pressed is None:
            self._point(spot)
            return
        far = (spot - self._pressed).manhattanLength() >= QApplication.startDragDistance()
        if self._dragged is not None or far:
            self._picture.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
            self._picture.pan_by((self._dragged or self._pressed) - spot)
            self._dragged = spot

    def _point(self, spot: QPoint) -> None:
        over = self._picture.key_at(spot)
        shape = Qt.CursorShape.PointingHandCursor if over else Qt.CursorShape.OpenHandCursor
        self._picture.viewport().setCursor(shape)
        if over != self._over:
            self._over = over
            self.pointed.emit(over)

    def mouse_release(self, event: QMouseEvent) -> None:
        """Choose what was clicked; a drag chooses nothing."""
        clicked = self._pressed is not None and self._dragged is None
        if clicked and event.button() == Qt.MouseButton.LeftButton:
            key = self._picture.key_at(event.position().toPoint())
            self._here = key or self._here
            self._picture.show_ring()
            self.chosen.emit(key)
        self._pressed = self._dragged = None
