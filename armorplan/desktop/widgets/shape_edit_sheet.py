"""The parts of a pattern as they lie on the drawing table, to scale; nothing can be done with them."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF
from PySide6.QtGui import QColor, QPainterPath, QResizeEvent
from PySide6.QtWidgets import QGraphicsView, QWidget

from armorplan.desktop.picture_keys import Place
from armorplan.desktop.shape_edit_scene import TableScene
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.parts_overlays import ScaleBar
from armorplan.desktop.widgets.picture_view import PictureView
from armorplan.desktop.widgets.shape_edit_hits import edge_of, key_at
from armorplan.desktop.widgets.shape_edit_items import TablePart

BAR_OFF_PX = 8


class TableSheet(PictureView):
    """Lays out a scene in the theme's colours, with a scale bar at its foot."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: TableScene | None = None
        self._items: list[TablePart] = []
        self._places: Mapping[str, Place] = {}
        self._is_held = False
        self.pointer = QPointF()
        """Where the mouse was last, in mm."""
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self._bar = ScaleBar(self)
        self.foot_px = self._bar.sizeHint().height()
        self.zoomed.connect(self._bar.take_scale)
        self.zoomed.connect(lambda _scale: self.show_ring())

    def lay(self, scene: TableScene) -> None:
        """Lay out a state of a pattern; another pattern is shown whole."""
        is_other = self._shown is None or self._shown.pattern.slug != scene.pattern.slug
        self._shown, self._places = scene, scene.spots
        self._draw(scene)
        self.set_room()
        if is_other:
            self.fit()

    def _draw(self, scene: TableScene) -> None:
        """Make anew only what changed: the rest keeps its drawing."""
        kept = {(item.part, item.used): item for item in self._items}
        made: list[TablePart] = []
        for part in scene.pattern.parts:
            used = frozenset(hole.id for hole in part.holes if hole.id in scene.through)
            item = kept.pop((part, used), None)
            if item is None:
                item = TablePart(part, used)
                item.wear(colours_of(self.palette()))
                self._scene.addItem(item)
            made.append(item)
        for item in kept.values():
            self._scene.removeItem(item)
        self._items = made

    def hold_scale(self, *, is_held: bool) -> None:
        """Keep the scale while something below takes room for a while."""
        self._is_held = is_held
        if not is_held and self.is_fitted:
            self.fit_to(self.near)

    # --- what the picture says of itself ------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self._places

    def bounds(self) -> QRectF:
        box = QRectF()
        for item in self._items:
            box = box.united(item.outline.boundingRect())
        return box

    def key_at(self, spot: QPoint) -> str:
        if self._shown is None:
            return ""
        self.pointer = self.mapToScene(spot)
        return key_at(self._shown, self._items, self.pointer, self.scale_now())

    def edge_of(self, key: str) -> QPainterPath:
        return edge_of(self._shown, key, self.scale_now()) if self._shown else QPainterPath()

    # --- events ----------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        if self._is_held:
            QGraphicsView.resizeEvent(self, event)
        else:
            super().resizeEvent(event)
        self._bar.move(BAR_OFF_PX, self.height() - self._bar.height() - BAR_OFF_PX)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._restyle()

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        for item in self._items:
            item.wear(colours)
