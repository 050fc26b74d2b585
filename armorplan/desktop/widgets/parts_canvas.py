"""The diagram as one sees and handles it: real outlines in mm, a scale bar, hits."""

from collections.abc import Iterator, Mapping

from PySide6.QtCore import QEvent, QMarginsF, QPoint, QRectF, Qt
from PySide6.QtGui import QColor, QPainterPath, QPixmapCache, QResizeEvent
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import Diagram, Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.closing_scene import HALO_PX, SIDE_PX, Scene
from armorplan.desktop.mark_choice import MarkChoice
from armorplan.desktop.mark_words import MARK
from armorplan.desktop.part_words import JOINT, PART
from armorplan.desktop.picture_colours import Look
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.closing_item import ClosingItem
from armorplan.desktop.widgets.part_names import PLACED_MOST
from armorplan.desktop.widgets.parts_drawing import PartsDrawing
from armorplan.desktop.widgets.parts_items import PartItem
from armorplan.desktop.widgets.parts_marks import PartsMarks
from armorplan.desktop.widgets.parts_near import Nearer, between
from armorplan.desktop.widgets.parts_overlays import ScaleBar
from armorplan.desktop.widgets.parts_ups import Room, UpsItem, wanted_ups
from armorplan.desktop.widgets.picture_view import MARGIN_PX, RING_Z, PictureView
from armorplan.desktop.widgets.turns import Turns

CACHE_KB = 96 * 1024
MARK_PX = SIDE_PX + 2 * HALO_PX
"""How large a mark of reach is drawn at most."""
REACH_PX = 12.0
"""Half of the least target size (WCAG 2.2, success criterion 2.5.8: 24 px)."""
REACH_MOST_MM = 12.0
WORDS_WEIGHT = 50
"""How much the words of a mark should stay in sight, beside the corners of chosen parts."""
UPS_MOST = 12
"""Where more parts than this are chosen, none of them has an arrow that says what is up."""
BAR_OFF_PX = 8
LOW_LINES = 13
CLOSING_LINES = 2 * LOW_LINES
"""In a view lower than so many lines the parts take all the height but for a name above and below;
where marks of reach show, in a higher one too."""
MARKS_MOST = 60
"""Of more marks than this the words find their places only once the zoom has settled."""
FITTED_MOST = 60
"""Of more parts than this no second fit is tried: each seeks a place for every name anew."""
MOST_SIDE = 0.2
"""Names on either side take at most this share of the view."""


class PartsCanvas(PictureView):
    """Shows a ``rows.Diagram``. Keys of the picture are ``part:ID``, ``joint:ID``, ``mark:ID``."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        QPixmapCache.setCacheLimit(max(QPixmapCache.cacheLimit(), CACHE_KB))
        self._around = QMarginsF()
        """How far from the parts names may lie on each side, in pixels."""
        self._room = QRectF()
        """Where names and the words of marks may lie, in mm."""
        self.drawing = PartsDrawing(self._scene, RING_Z - 3)
        self.marks = PartsMarks(self._scene, under_z=RING_Z - 5, over_z=RING_Z + 1)
        self.ups = UpsItem()
        self.ups.setZValue(RING_Z + 2)
        self._scene.addItem(self.ups)
        self.closing = ClosingItem()
        self.closing.setZValue(RING_Z - 2)
        self._scene.addItem(self.closing)
        self._closing: Closing | None = None
        self._choice = MarkChoice()
        self._places: Mapping[str, Place] = {}
        self._bar = ScaleBar(self)
        self.zoomed.connect(self._bar.take_scale)
        self._later, self._nearer = Turns(self), Nearer(self, self.drawing)
        self.zoomed.connect(self._take_zoom)
        self._restyle()

    def show_diagram(
        self, diagram: Diagram, shapes: tuple[ShapeRow, ...] = (), lit: Selection | None = None
    ) -> None:
        """Take new rows; the same parts and holes keep their drawing, only heads change.

        ``shapes`` is what the diagram's marks belong to; ``lit`` is lit with them, in one go.
        """
        self._choice.take(diagram.marks, shapes)
        if self.drawing.take(diagram, self.font()):
            self.marks.take({key: item.outline for key, item in self.drawing.items.items()})
            self.set_room()
            if not self._fits:
                self._take_zoom(self.scale_now())
        if lit is not None:
            self._choice.selection = lit
            self.drawing.light(lit)
        self._show_marks()
        self._show_ups()
        self._show_closing()
        self.show_ring()

    def show_closing(self, closing: Closing | None) -> None:
        """Show over the parts what is in reach at a place in the order; ``None``: nothing of it.

        The piece in hand is shown as large as it can be, until one zooms or moves by hand.
        """
        before, self._closing = self._closing, closing
        self._choice.follows_reach = closing is not None
        self.drawing.names.keep_off(MARK_PX if closing else 0.0)
        if (before is None) == (closing is None):
            self._show_closing()
            self._nearer.follow(closing)
        elif not (self._nearer.begin(closing) if closing else self._nearer.end()):
            self._take_zoom(self.scale_now())

    def _show_closing(self) -> None:
        closing = self._closing
        if closing is None:
            self.closing.hide()
            return
        scale = self.scale_now()
        scene = Scene(
            scale=scale,
            spots=self.drawing.heads(),
            room_px=lambda joint: self.drawing.room_px(joint, scale),
            taken=(*self.drawing.taken((), scale), *self.marks.boxes(), *self.ups.boxes(scale)),
            room=self._room,
        )
        self.closing.show_reach(closing.frame, closing.way, scene)

    def draw_all_marks(self, wanted: bool) -> None:
        """Draw the marks of all that the shapes tell, or only those of findings and choices."""
        self._choice.everything = wanted
        self._show_marks()
        self._show_ups()

    def _show_marks(self) -> None:
        shown, scale = self._choice.shown(), self.scale_now()
        parts = dict.fromkeys(one.mark.part for one in shown)
        few = parts if len(parts) <= PLACED_MOST else ()
        taken = self.drawing.taken(few, scale) if shown else []
        self.marks.show(shown, scale, taken, self._room)
        self._places = {**self.drawing.places(), **self.marks.places()}

    def _show_ups(self) -> None:
        """Say which way is up on the parts that are chosen, or on all if all marks are drawn."""
        chosen = self._choice.selection.parts
        chosen = chosen if len(chosen) <= UPS_MOST else ()
        parts = self.drawing.items if self._choice.everything else chosen
        items = [self.drawing.items[part] for part in parts if part in self.drawing.items]
        wanted, scale = wanted_ups(items, chosen), self.scale_now()
        taken = self.drawing.taken((i.part.id for i in items), scale) if items else []
        others = self.drawing.items.values() if chosen else ()
        boxes = tuple(item.outline.boundingRect() for item in others)
        room = Room(bounds=self._room, parts=boxes)
        self.ups.show_ups(wanted, scale, [*taken, *self.marks.boxes()], room)

    def wanted_px(self, width_px: int) -> int:
        """Return the height in which everything is as large as this width lets it be."""
        box, across = self.bounds(), max(width_px - 2 * MARGIN_PX, 1)
        high = box.height() * across / box.width() if box.width() else 0.0
        return round(high) + self.head_px + self.foot_px + 2 * MARGIN_PX if high else 0

    def _fit_again(self) -> None:
        """Show all that is to be; room for names beside the parts is left where more can be read then.

        A name that found no room inside its part stands beside it.
        """
        if self.is_near:
            self.head_px = self.foot_px = self.side_px = 0
            super()._fit_again()
            return
        line, names = self.fontMetrics().height(), self.drawing.names
        lines = LOW_LINES if self._closing is None else CLOSING_LINES
        is_low = self.viewport().height() < lines * line
        headed = names.heads.lines()
        self.head_px = line * (headed + 1) if headed or not is_low else line // 2
        self.foot_px = line // 2 if is_low else self._bar.height() + line
        self.side_px = 0
        super()._fit_again()
        beside_px = (self.viewport().width() - self.bounds().width() * self.scale_now()) / 2
        if is_low and beside_px < self._bar.width() + BAR_OFF_PX:
            self.foot_px = self._bar.height() + BAR_OFF_PX - MARGIN_PX
            super()._fit_again()
        shown, wanted = len(names.shown()), round(names.without_place_px())
        is_few = len(self.drawing.items) <= FITTED_MOST
        if not (is_few and 0 < wanted < self.viewport().width() * MOST_SIDE):
            return
        self.side_px = wanted
        super()._fit_again()
        if len(names.shown()) <= shown:
            self.side_px = 0
            super()._fit_again()

    def pan_by(self, by: QPoint) -> None:
        """Move the window over the picture; what was near no longer keeps the words to the view."""
        was_near = self.is_near
        super().pan_by(by)
        if was_near:
            self._later.do((lambda: self._take_zoom(self.scale_now()),))

    def _take_zoom(self, scale: float) -> None:
        """Draw at a zoom what keeps its size; where that takes time, once the zoom has settled.

        Then names, marks and arrows find their places one after the other, a turn each.
        """
        is_long = FITTED_MOST < len(self.drawing.items) <= PLACED_MOST
        works = (self._place_names, self._show_marks, self._show_ups, self._show_closing)
        if is_long or len(self._choice.shown()) > MARKS_MOST:
            self.marks.hide()
            self.ups.hide()
            self.closing.hide()
            self._later.do(works)
            return
        self._later.stop()
        for work in works:
            work()

    def _place_names(self) -> None:
        """Names keep to what is in view when everything is, and zoomed in as far from the parts."""
        box, scale = self.bounds(), self.scale_now()
        view = self.mapToScene(self.viewport().rect()).boundingRect()
        if self._fits and not self.is_near:
            self._around = between(box, view) * scale
        is_view = self._fits and self.is_near
        self._room = view if is_view else box.marginsAdded(self._around / scale)
        bar = self._bar_mm() if self._fits else QRectF()
        self.drawing.names.zoom_to(scale, self._room, bar)

    def _bar_mm(self) -> QRectF:
        """Return what the scale bar hides of the drawing."""
        return self.mapToScene(self._bar.geometry()).boundingRect()

    def light(self, selection: Selection) -> None:
        """Light what is chosen and dim the rest; nothing chosen dims nothing."""
        self._choice.selection = selection
        self.drawing.light(selection)
        self._show_marks()
        self._show_ups()
        self.show_ring()

    def look_of(self, key: str) -> Look:
        """Return how a part or fastener is drawn now."""
        return self.drawing.look_of(key)

    def weights_of(self, chosen: Selection) -> Iterator[tuple[Place, int]]:
        """Yield places that should stay in sight, and how much it matters."""
        yield from self.drawing.weights_of(chosen)
        yield from ((place, WORDS_WEIGHT) for place in self.marks.corners())

    def _restyle(self) -> None:
        colours = colours_of(self.palette())
        self.setBackgroundBrush(QColor(colours.panel))
        self.drawing.wear(colours)
        self.marks.wear(colours, self.font())
        self.ups.wear(colours, self.font())
        self.closing.wear(colours, self.font())
        self.show_ring()

    # --- what the picture says of itself ----------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        return self._places

    def bounds(self) -> QRectF:
        return self.drawing.bounds()

    def edge_of(self, key: str) -> QPainterPath:
        if key.startswith(MARK):
            return self.marks.edge_of(key)
        return self.drawing.edge_of(key, REACH_PX / self.scale_now())

    def key_at(self, spot: QPoint) -> str:
        at = self.mapToScene(spot)
        words = self.marks.key_at(at)
        if words:
            return words
        reach_mm = min(REACH_PX / self.scale_now(), REACH_MOST_MM)
        for item in self._scene.items(at, Qt.ItemSelectionMode.IntersectsItemShape):
            if isinstance(item, PartItem):
                joint = item.joint_near(at, reach_mm)
                return JOINT + joint if joint else PART + item.part.id
        return ""

    # --- events -----------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._bar.move(BAR_OFF_PX, self.height() - self._bar.height() - BAR_OFF_PX)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.drawing.names.write_in(self.font())
            self.marks.wear(colours_of(self.palette()), self.font())
            self.ups.wear(colours_of(self.palette()), self.font())
            self.closing.wear(colours_of(self.palette()), self.font())
            self._show_marks()
            self._show_closing()
        elif event.type() == QEvent.Type.PaletteChange:
            self._restyle()
