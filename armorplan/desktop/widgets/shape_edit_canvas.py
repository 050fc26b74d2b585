"""The drawing table itself: parts in mm, chosen by mouse and keys, with all that lies over them."""

from collections.abc import Mapping
from dataclasses import replace

from PySide6.QtCore import QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter
from PySide6.QtWidgets import QWidget

from armorplan.desktop.shape_edit_choice import Choice
from armorplan.desktop.shape_edit_over import Ghost, Mark, OverTable, moved_by
from armorplan.desktop.shape_edit_scene import HOLE, TableScene
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.shape_edit_hands import TableHands
from armorplan.desktop.widgets.shape_edit_items import cosmetic
from armorplan.desktop.widgets.shape_edit_painting import TablePainter
from armorplan.desktop.widgets.shape_edit_sheet import TableSheet
from armorplan.pattern.parts import Point


class TableCanvas(TableSheet):
    """Shows a scene; ``chose`` carries the choice, ``moved`` a way in mm.

    While ``spots`` is on, a click chooses nothing: ``spotted`` carries its place instead.
    """

    chose = Signal(object)
    moved = Signal(object)
    spotted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("table_canvas")
        self.setAccessibleName(self.tr("Drawing of the pattern"))
        self._over = OverTable()
        self._box = QRectF()
        self.spots = False
        hands = TableHands(self, self)
        self.hands = hands
        hands.chosen.connect(lambda key: self._choose(self.choice.only(key)))
        hands.turned.connect(lambda key: self._choose(self.choice.turned(key)))
        hands.nudged.connect(self._move)
        hands.dragging.connect(self._drag)
        hands.dragged.connect(lambda by: self._move(_to_tenths(by)))
        hands.boxed.connect(self._take_box)
        self._restyle()

    # --- what is shown ------------------------------------------------------------------------

    @property
    def choice(self) -> Choice:
        """What is chosen."""
        return self._over.choice

    @property
    def over(self) -> OverTable:
        """What lies over the parts."""
        return self._over

    def show_scene(self, scene: TableScene) -> None:
        """Show another state of the pattern; what is chosen stays so, as far as it is there."""
        self.lay(scene)
        self._over = replace(self._over, choice=self.choice.within(scene), moved={})
        self.show_ring()
        self.viewport().update()

    def choose(self, choice: Choice) -> None:
        """Choose, and bring what is chosen into view; nothing is told."""
        self._over = replace(self._over, choice=choice)
        if choice.keys and choice.keys[0] in self._places:
            self.hands.keep(choice.keys[0])
            self.reveal(choice.keys[0])
        self.show_ring()
        self.viewport().update()

    def show_marks(self, marks: tuple[Mark, ...]) -> None:
        """Draw where findings are."""
        self._over = replace(self._over, marks=marks)
        self.viewport().update()

    def show_ghosts(self, ghosts: tuple[Ghost, ...]) -> None:
        """Draw what is not in the pattern yet."""
        self._over = replace(self._over, ghosts=ghosts)
        self.viewport().update()

    def show_moved(self, moved: Mapping[str, Point]) -> None:
        """Draw where holes would lie."""
        self._over = replace(self._over, moved=dict(moved))
        self.viewport().update()

    def _choose(self, choice: Choice) -> None:
        self._over = replace(self._over, choice=choice)
        self.viewport().update()
        self.chose.emit(choice)

    def _drag(self, by: QPointF) -> None:
        """Show where a drag would take holes, to a tenth of a mm; back where they were, nothing."""
        if self._shown is not None:
            by = _to_tenths(by)
            way = (by.x(), by.y())
            self.show_moved({} if by.isNull() else moved_by(self._shown, self.choice.holes, way))

    def _move(self, by: QPointF) -> None:
        if self.choice.holes:
            self.moved.emit((round(by.x(), 3), round(by.y(), 3)))

    def _take_box(self, box: QRectF, adds: bool) -> None:
        inside = [key for key, at in self._places.items() if box.contains(QPointF(*at))]
        keys = tuple(key for key in inside if key.startswith(HOLE)) or tuple(inside)
        self._choose(self.choice.with_keys(keys) if adds else Choice(keys))

    # --- what the hands ask -------------------------------------------------------------------

    def is_chosen(self, key: str) -> bool:
        """Tell whether something is chosen."""
        return key in self.choice.keys

    def show_box(self, box: QRectF) -> None:
        """Draw the box that is being drawn with the mouse."""
        self._box = box
        self.viewport().update()

    # --- events -------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.spots and event.button() == Qt.MouseButton.LeftButton:
            at = self.mapToScene(event.position().toPoint())
            self.spotted.emit((round(at.x(), 2), round(at.y(), 2)))
            return
        super().mousePressEvent(event)

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        colours = colours_of(self.palette())
        painter.setFont(self.font())
        if self._shown is not None:
            TablePainter(painter, self._shown, self._items, self._over, colours).paint()
        if not self._box.isEmpty():
            painter.setPen(cosmetic(colours.focus, 1.5, Qt.PenStyle.DashLine))
            painter.drawRect(self._box)


def _to_tenths(by: QPointF) -> QPointF:
    return QPointF(round(by.x(), 1), round(by.y(), 1))
