"""A picture one can zoom, drag and walk with the keys. What it shows is up to who inherits it."""

from abc import abstractmethod
from collections.abc import Mapping

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QWidget

from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.picture_hands import ZOOM_STEP, Hands
from armorplan.desktop.widgets.picture_marks import FocusRing

MARGIN_PX = 18
RING_Z = 1e6


class PictureView(QGraphicsView):
    """A scene with ``hands``. ``zoomed`` carries the pixels to a scene unit."""

    zoomed = Signal(float)
    head_px = 0
    foot_px = 0
    side_px = 0
    """Room kept free above, below and on either side when everything is shown."""
    least_scale = 0.02
    most_scale = 20.0

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scene = QGraphicsScene(self)  # a view does not keep its scene
        self.setScene(self._scene)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.viewport().setMouseTracking(True)
        self.hands = Hands(self, self)
        self._ring = FocusRing()
        self._ring.setZValue(RING_Z)
        self._scene.addItem(self._ring)
        self._fits = True
        self._near = QRectF()
        """What is shown as large as it can be; empty: everything."""

    # --- what a picture says of itself ------------------------------------------------------

    @abstractmethod
    def places(self) -> Mapping[str, Place]:
        """Return where everything that can be chosen lies, in the order it is gone through."""
        ...

    def first(self) -> str:
        """Return where walking begins; empty where there is nothing."""
        return next(iter(self.places()), "")

    @abstractmethod
    def key_at(self, spot: QPoint) -> str:
        """Return what lies under a point of the viewport; empty where nothing does."""
        ...

    @abstractmethod
    def edge_of(self, key: str) -> QPainterPath:
        """Return the outline of a thing in scene coordinates."""
        ...

    @abstractmethod
    def bounds(self) -> QRectF:
        """Return what fitting shows, in scene coordinates."""
        ...

    def reveal(self, key: str) -> None:
        """Bring a thing into view."""
        self.ensureVisible(self.edge_of(key).boundingRect(), MARGIN_PX, MARGIN_PX)

    def show_ring(self) -> None:
        """Draw the ring where it belongs; only a picture that has the keys shows one."""
        here = self.hands.here
        if here and here not in self.places():
            self.hands.keep("")
            here = ""
        shown = bool(here) and self.hasFocus()
        self._ring.colours = colours_of(self.palette())
        self._ring.setPath(self.edge_of(here) if shown else QPainterPath())

    # --- zoom and pan -----------------------------------------------------------------------

    def scale_now(self) -> float:
        """Return pixels to a scene unit."""
        return self.transform().m11()

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom by a factor, keeping a point of the viewport (or its middle) in its place."""
        scale = min(max(self.scale_now() * factor, self.least_scale), self.most_scale)
        spot = (at or QPointF(self.viewport().rect().center())).toPoint()
        held = self.mapToScene(spot)
        self._fits, self._near = False, QRectF()
        self.setTransform(self.transform().fromScale(scale, scale))
        self.pan_by(self.mapFromScene(held) - spot)
        self.zoomed.emit(scale)

    def fit(self) -> None:
        """Show everything, and keep doing so when the window changes size."""
        self.fit_to(QRectF())

    @property
    def is_fitted(self) -> bool:
        """Tell whether what is shown fits the view; not so once one has zoomed or moved."""
        return self._fits

    @property
    def is_near(self) -> bool:
        """Tell whether only a part of the picture was asked for."""
        return not self._near.isEmpty()

    @property
    def near(self) -> QRectF:
        """What is shown as large as it can be; empty: everything, or where one has moved to."""
        return self._near

    def fit_to(self, near: QRectF) -> None:
        """Show a part of the picture as large as it can be; an empty one shows everything."""
        self._near = near
        self._fit_again()

    def _fit_again(self) -> None:
        """Show what is to be shown in the room there is now."""
        self._fits = True
        box = self._near if self.is_near else self.bounds()
        if box.isEmpty():
            return
        head, foot = MARGIN_PX + self.head_px, MARGIN_PX + self.foot_px
        side = MARGIN_PX + self.side_px
        room = self.viewport().rect().adjusted(side, head, -side, -foot)
        fitting = min(max(room.width(), 1) / box.width(), max(room.height(), 1) / box.height())
        scale = min(max(fitting, self.least_scale), self.most_scale)
        self.setTransform(self.transform().fromScale(scale, scale))
        self.centerOn(box.center() + QPointF(0, (self.foot_px - self.head_px) / 2 / scale))
        self.zoomed.emit(scale)

    def set_room(self) -> None:
        """Let one pan until only a corner of the picture is left in view."""
        box = self.bounds()
        self.setSceneRect(box.adjusted(-box.width(), -box.height(), box.width(), box.height()))
        if self._fits:
            self._fit_again()

    def pan_by(self, by: QPoint) -> None:
        """Move the window over the picture by so many pixels."""
        self._fits, self._near = False, QRectF()
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() + by.x())
        down.setValue(down.value() + by.y())

    # --- events -----------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self._fits:
            self._fit_again()

    def wheelEvent(self, event: QWheelEvent) -> None:
        self.zoom(ZOOM_STEP ** (event.angleDelta().y() / 120), event.position())
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        self.hands.key_press(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.hands.focus_in(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.show_ring()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.hands.mouse_release(event)
