"""Keys and mouse on the drawing table: those of every picture, and to choose many, move, add, drop."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Protocol

from PySide6.QtCore import QObject, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QApplication

from armorplan.desktop.shape_edit_scene import HOLE
from armorplan.desktop.widgets.picture_hands import Hands, Picture

_Mod = Qt.KeyboardModifier
FINE_MM, USUAL_MM, COARSE_MM = 0.1, 1.0, 5.0
"""How far a hole goes with one press."""
_STEPS: Mapping[Qt.KeyboardModifier, float] = MappingProxyType(
    {_Mod.AltModifier: FINE_MM, _Mod.ControlModifier: USUAL_MM}
)
_ARROWS: Mapping[Qt.Key, tuple[int, int]] = MappingProxyType(
    {
        Qt.Key.Key_Left: (-1, 0),
        Qt.Key.Key_Right: (1, 0),
        Qt.Key.Key_Up: (0, -1),
        Qt.Key.Key_Down: (0, 1),
    }
)


class Table(Picture, Protocol):
    """What these hands need beside what every picture has."""

    def mapToScene(self, spot: QPoint) -> QPointF:
        """Return where a point of the viewport lies on the drawing, in mm."""
        ...

    def is_chosen(self, key: str) -> bool:
        """Tell whether something is chosen."""
        ...

    def show_box(self, box: QRectF) -> None:
        """Draw the box that is being drawn with the mouse, in mm; an empty one draws none."""
        ...


def step_mm(modifiers: Qt.KeyboardModifier) -> float | None:
    """Return how far an arrow key moves with these modifiers; ``None`` where it walks instead."""
    held = modifiers & (_Mod.AltModifier | _Mod.ControlModifier | _Mod.ShiftModifier)
    if held == _Mod.ControlModifier | _Mod.ShiftModifier:
        return COARSE_MM
    return _STEPS.get(held)


class TableHands(Hands):
    """The hands of every picture, and more.

    Space takes what has the ring in or out, as Ctrl and a click do. Ctrl with an arrow moves by
    1 mm, with Shift by 5 mm, Alt with an arrow by 0.1 mm. The left button drags holes, or draws a
    box where there is none; the middle one drags the paper.

    ``turned`` carries a key to take in or out, ``nudged`` a way in mm, ``dragging`` the way of a
    drag so far and ``dragged`` the whole of it, ``boxed`` a box in mm and whether it adds.
    """

    turned = Signal(str)
    nudged = Signal(QPointF)
    dragging = Signal(QPointF)
    dragged = Signal(QPointF)
    boxed = Signal(QRectF, bool)

    def __init__(self, table: Table, parent: QObject) -> None:
        super().__init__(table, parent)
        self._table = table
        self._down: QPoint | None = None
        self._grips = False
        self._is_far = False

    def key_press(self, event: QKeyEvent) -> None:
        key, far_mm = Qt.Key(event.key()), step_mm(event.modifiers())
        if key in _ARROWS and far_mm is not None:
            across, down = _ARROWS[key]
            self.nudged.emit(QPointF(across * far_mm, down * far_mm))
            event.accept()
        elif key == Qt.Key.Key_Escape and self.drop():
            self.dragging.emit(QPointF())
            event.accept()
        elif key == Qt.Key.Key_Escape and not any(
            map(self._table.is_chosen, self._table.places())
        ):
            event.ignore()  # the window closes by it
        elif key == Qt.Key.Key_Space and self.here:
            self.turned.emit(self.here)
            event.accept()
        else:
            super().key_press(event)

    def mouse_press(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            super().mouse_press(event)
            return
        spot = event.position().toPoint()
        key = self._table.key_at(spot)
        self._down, self._is_far, self._grips = spot, False, key.startswith(HOLE)
        is_adding = bool(event.modifiers() & (_Mod.ControlModifier | _Mod.ShiftModifier))
        if self._grips and not self._table.is_chosen(key) and not is_adding:
            self.chosen.emit(key)

    def mouse_move(self, event: QMouseEvent) -> None:
        if self._down is None:
            super().mouse_move(event)
            return
        spot = event.position().toPoint()
        away = (spot - self._down).manhattanLength()
        self._is_far = self._is_far or away >= QApplication.startDragDistance()
        if not self._is_far:
            return
        if self._grips:
            self.dragging.emit(self._way(spot))
        else:
            self._table.show_box(self._box(spot))

    def mouse_release(self, event: QMouseEvent) -> None:
        if self._down is None or event.button() != Qt.MouseButton.LeftButton:
            super().mouse_release(event)
            return
        spot = event.position().toPoint()
        adds = bool(event.modifiers() & (_Mod.ControlModifier | _Mod.ShiftModifier))
        if not self._is_far:
            self._click(self._table.key_at(spot), adds=adds)
        elif self._grips:
            self.dragged.emit(self._way(spot))
        else:
            self.boxed.emit(self._box(spot), adds)
            self._table.show_box(QRectF())
        self._down = None

    def drop(self) -> bool:
        """Let go of what is being dragged or boxed; tell whether there was anything."""
        held, self._down = self._down is not None and self._is_far, None
        self._table.show_box(QRectF())
        return held

    def _click(self, key: str, *, adds: bool) -> None:
        self.keep(key or self.here)
        self._table.show_ring()
        if adds:
            self.turned.emit(key)
        else:
            self.chosen.emit(key)

    def _way(self, spot: QPoint) -> QPointF:
        start = self._table.mapToScene(self._down or spot)
        return self._table.mapToScene(spot) - start

    def _box(self, spot: QPoint) -> QRectF:
        start = self._table.mapToScene(self._down or spot)
        return QRectF(start, self._table.mapToScene(spot)).normalized()
