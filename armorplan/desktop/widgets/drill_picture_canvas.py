"""The diagram in an exercise: letters at what can be chosen, what is amiss hatched, ghosts dashed."""

from collections.abc import Mapping
from math import hypot

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QKeyEvent, QPainter, QPen
from PySide6.QtWidgets import QWidget

from armorplan.desktop.part_words import JOINT, PART
from armorplan.desktop.picture_keys import Place
from armorplan.desktop.standing_glyphs import paint_standing
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.bench_numbers import plates
from armorplan.desktop.widgets.drill_form_face import paint_letter, plate_px
from armorplan.desktop.widgets.drill_ring import KeyRing
from armorplan.desktop.widgets.parts_canvas import REACH_PX, PartsCanvas
from armorplan.geometry.reach.model import Standing
from armorplan.practice.drill import LETTERS

GHOST_PX = 11.0
SIGN_PX = 13.0
HATCH_ALPHA = 150


class DrillCanvas(PartsCanvas):
    """``letters`` maps a letter to its joint: only these are walked and chosen then.

    ``typed`` carries a letter that was pressed, ``turned`` 1 or -1 where a play is stepped by keys,
    ``held`` that it is stopped or goes on.
    """

    typed = Signal(str)
    turned = Signal(int)
    held = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("drill_canvas")
        self._lettered: Mapping[str, str] = {}
        self._hatched: frozenset[str] = frozenset()
        self._ghosts: tuple[str, ...] = ()
        self.is_played = False
        self._from: tuple[str, ...] = ()
        KeyRing(self)

    def walk_from(self, parts: tuple[str, ...]) -> None:
        """Begin to walk at these parts, which an exercise is about."""
        self._from = parts
        self.hands.keep("")
        self.show_ring()

    def letter(self, joints: Mapping[str, str]) -> None:
        """Write letters at joints; none lets everything be walked."""
        self._lettered = joints
        self.show_ring()
        self.viewport().update()

    def haunt(self, ghosts: tuple[str, ...], hatched: frozenset[str]) -> None:
        """Draw joints as ghosts, and hatch parts."""
        self._ghosts, self._hatched = ghosts, hatched
        self.viewport().update()

    @property
    def ghosts(self) -> tuple[str, ...]:
        """The joints drawn as ghosts."""
        return self._ghosts

    @property
    def hatched(self) -> frozenset[str]:
        """The parts that are hatched."""
        return self._hatched

    def letter_spots(self) -> Mapping[str, QPoint]:
        """Return where the joints of letters lie in the view, in pixels."""
        heads = self.drawing.heads()
        at = {letter: heads[j] for letter, j in self._lettered.items() if j in heads}
        return {letter: self.mapFromScene(QPointF(*spot)) for letter, spot in at.items()}

    def letter_boxes(self) -> Mapping[str, QRectF]:
        """Return where the plates of letters lie in the view, in pixels."""
        spots, side = self.letter_spots(), plate_px(self.font())
        numbered = {LETTERS.index(letter): spot for letter, spot in spots.items()}
        placed = plates(numbered, QSizeF(side, side), QRectF(self.viewport().rect()))
        return {LETTERS[number]: box for number, box in placed.items()}

    # --- what the picture says of itself ------------------------------------------------------

    def places(self) -> Mapping[str, Place]:
        if not self._lettered:
            return super().places()
        heads = self.drawing.heads()
        return {JOINT + j: heads[j] for _, j in sorted(self._lettered.items()) if j in heads}

    def first(self) -> str:
        wanted = (PART + part for part in self._from)
        places = self.places()
        return next((key for key in wanted if key in places), super().first())

    def key_at(self, spot: QPoint) -> str:
        if not self._lettered:
            return super().key_at(spot)
        for letter, box in self.letter_boxes().items():
            if box.contains(QPointF(spot)):
                return JOINT + self._lettered[letter]
        near = {
            hypot(at.x() - spot.x(), at.y() - spot.y()): letter
            for letter, at in self.letter_spots().items()
        }
        best = min(near, default=REACH_PX + 1)
        return JOINT + self._lettered[near[best]] if best <= REACH_PX else ""

    # --- events -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        plain = event.modifiers() in _PLAIN
        key = Qt.Key(event.key())
        if self.is_played and plain and key in _TURNS:
            self.turned.emit(_TURNS[key])
        elif self.is_played and plain and key == Qt.Key.Key_Space:
            self.held.emit()
        elif plain and event.text().isalpha():
            self.typed.emit(event.text())
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def drawForeground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        super().drawForeground(painter, rect)
        painter.save()
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._draw_hatches(painter)
        self._draw_ghosts(painter)
        self._draw_letters(painter)
        painter.restore()

    def _draw_hatches(self, painter: QPainter) -> None:
        """Hatch the parts of what can no more be done; hatches stay as wide at every zoom."""
        colour = QColor(colours_of(self.palette()).alarm)
        colour.setAlpha(HATCH_ALPHA)
        painter.setPen(QPen(colour, 2.0))
        painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
        for part in sorted(self._hatched & set(self.drawing.items)):
            painter.drawPath(self.viewportTransform().map(self.drawing.items[part].outline))

    def _draw_ghosts(self, painter: QPainter) -> None:
        """Draw a dashed ring where a joint is out of reach, with the sign of that on it."""
        colours, heads = colours_of(self.palette()), self.drawing.heads()
        for joint in (one for one in self._ghosts if one in heads):
            spot = QPointF(self.mapFromScene(QPointF(*heads[joint])))
            dashed = QPen(QColor(colours.alarm), 2.2)
            dashed.setDashPattern([2.0, 1.6])
            painter.setBrush(QColor(colours.panel))
            for pen in (QPen(QColor(colours.panel), 5.0), dashed):
                painter.setPen(pen)
                painter.drawEllipse(spot, GHOST_PX, GHOST_PX)
            box = QRectF(0, 0, SIGN_PX, SIGN_PX)
            box.moveCenter(spot)
            paint_standing(painter, box, Standing.CANNOT, QColor(colours.alarm))

    def _draw_letters(self, painter: QPainter) -> None:
        colours, spots = colours_of(self.palette()), self.letter_spots()
        boxes = self.letter_boxes()
        painter.setPen(QPen(QColor(colours.focus), 2.0))
        for letter, box in boxes.items():
            painter.drawLine(QPointF(spots[letter]), box.center())
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for letter in boxes:
            painter.drawEllipse(QPointF(spots[letter]), 7.0, 7.0)
        for letter, box in boxes.items():
            paint_letter(painter, box, letter, font=self.font(), colours=colours)


_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)
_TURNS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}
