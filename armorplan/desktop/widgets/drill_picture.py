"""The picture of an exercise: the parts as they stand in it, chosen on, lit, and played."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from armorplan.app.rows import Diagram, Selection
from armorplan.desktop.drill_choices import PictureChoices
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_picture_canvas import DrillCanvas
from armorplan.desktop.widgets.drill_picture_play import PlayBar
from armorplan.desktop.widgets.drill_picture_room import BorrowedRoom, near_box
from armorplan.practice.drill import Choice, Drill, Frame

LEAST_PX = 180
PLAY_PX = 260
NEAR_PAD_PX = 18
LEAST_SEEN_PX = 45
"""What is lit and shows smaller than this is brought near."""
DiagramOf = Callable[[Frame], Diagram]


def _never() -> bool:
    return False


class DrillPicture(QWidget):
    """``chosen`` carries the id of a choice that was chosen on the picture by mouse or keys.

    Args (of the maker):
        is_calm: whether pictures are stepped by hand only; asked each time.
    """

    chosen = Signal(str)

    def __init__(
        self, parent: QWidget | None = None, *, is_calm: Callable[[], bool] = _never
    ) -> None:
        super().__init__(parent)
        self.setObjectName("drill_picture")
        self._asked: PictureChoices | None = None
        self._diagram_of: DiagramOf | None = None
        self._lit = ""
        self._near: tuple[str, ...] = ()
        self._is_close = False
        self._room = BorrowedRoom(self)
        self.canvas = DrillCanvas(self)
        self.bar = PlayBar(is_calm, self)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.canvas, 1)
        whole.addWidget(self.bar)
        self.setMinimumSize(LEAST_PX, LEAST_PX)
        self.setFocusProxy(self.canvas)
        self.canvas.hands.chosen.connect(self._take)
        self.canvas.hands.walked.connect(self._speak)
        self.canvas.typed.connect(self._take_letter)
        self.canvas.turned.connect(self.bar.turn)
        self.canvas.held.connect(self.bar.hold)
        self.bar.shown.connect(self._show_frame)
        self.bar.left.connect(self.stop)

    # --- what is shown ------------------------------------------------------------------------

    def show_drill(self, diagram: Diagram, drill: Drill) -> None:
        """Show an exercise: the parts as they stand in it, the pieces it is about as large as can be."""
        self.bar.stop()
        self._room.give_back()
        self._diagram_of, self._lit = None, ""
        self._asked = asked = PictureChoices(drill=drill, diagram=diagram)
        self.canvas.is_played = False
        self.canvas.haunt((), frozenset())
        self.canvas.letter({})
        self.canvas.show_diagram(replace(diagram, marks=()), lit=asked.selection(""))
        self.canvas.letter(asked.letters_at(self.canvas.drawing.heads()))
        self.canvas.walk_from(drill.parts)
        self._come_near(drill.parts)
        self._name_it()

    def light(self, name: str) -> None:
        """Light what a choice is about; with an empty id what all of them are about, if anything."""
        self._lit = name
        if self._asked is not None and not self.is_played:
            self._show_lit(self._asked.selection(name))

    def play(self, frames: tuple[Frame, ...], diagram_of: DiagramOf) -> None:
        """Show how an answer goes, picture by picture."""
        if not frames:
            return
        self._diagram_of = diagram_of
        self.canvas.is_played = True
        self.canvas.letter({})
        self._name_it()
        self.bar.begin(frames)
        self._room.take(PLAY_PX + self.bar.sizeHint().height())

    def stop(self) -> None:
        """Show the exercise again as it was asked."""
        asked = self._asked
        if asked is None or not self.is_played:
            return
        had_keys = self.bar.has_keys()
        lit = self._lit
        self.show_drill(asked.diagram, asked.drill)
        self.light(lit)
        if had_keys:
            self.canvas.setFocus()

    @property
    def is_played(self) -> bool:
        """Tell whether an answer is played."""
        return self._diagram_of is not None

    def _show_frame(self, frame: Frame) -> None:
        if self._diagram_of is None or self._asked is None:
            return
        self.canvas.show_diagram(self._diagram_of(frame))
        self.canvas.haunt(frame.ghosts, self._asked.amiss_in(frame))
        lit = self._asked.done_in(frame)
        amiss = self.canvas.hatched | self.canvas.drawing.parts_of(frame.ghosts)
        self._show_lit(lit, also=tuple(sorted(amiss)))

    def _show_lit(self, lit: Selection, *, also: tuple[str, ...] = ()) -> None:
        """Light what is spoken of, and bring it into view with what it is told beside."""
        self.canvas.light(lit)
        drawing = self.canvas.drawing
        parts = (*lit.parts, *sorted(drawing.parts_of(lit.joints)), *also)
        box = drawing.box_of(parts)
        if box.isEmpty() or not self.canvas.isVisible():
            return
        if not self.canvas.is_fitted:
            # Whoever zoomed or moved by hand keeps the zoom.
            self.canvas.ensureVisible(box, NEAR_PAD_PX, NEAR_PAD_PX)
        elif not self._is_seen(box):
            self._come_near(parts, is_close=True)

    def _is_seen(self, box: QRectF) -> bool:
        """Tell whether all of a box is in view, and large enough to be looked at."""
        seen = self.canvas.mapToScene(self.canvas.viewport().rect()).boundingRect()
        side_px = max(box.width(), box.height()) * self.canvas.scale_now()
        return seen.contains(box) and side_px >= LEAST_SEEN_PX

    def _come_near(self, parts: tuple[str, ...], *, is_close: bool = False) -> None:
        self._near, self._is_close = parts, is_close
        box = near_box(self.canvas.drawing, parts, self.canvas.size(), is_close=is_close)
        self.canvas.fit_to(box)

    # --- what is chosen and said --------------------------------------------------------------

    def _take(self, key: str) -> None:
        if self.is_played and not key:
            self.stop()
        else:
            self._choose(self._asked.at(key) if self._asked else None)

    def _take_letter(self, letter: str) -> None:
        self._choose(self._asked.by_letter(letter) if self._asked else None)

    def _choose(self, named: Choice | None) -> None:
        if named is not None and not self.is_played:
            self.chosen.emit(named.id)

    def _speak(self, key: str) -> None:
        if self._asked is not None:
            announce(self.canvas, self._asked.spoken(key))

    def _name_it(self) -> None:
        self.canvas.setAccessibleName(self.tr("Picture of the exercise"))
        told = self.tr("Arrow keys walk between what can be chosen, Enter or its letter chooses.")
        if self.is_played:
            told = self.tr("Left and Right show another picture, Space plays, Escape ends it.")
        self.canvas.setAccessibleDescription(told)

    # --- events -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes the pictures wherever in them the keyboard is."""
        if self.is_played and event.key() == Qt.Key.Key_Escape:
            self.stop()
            event.accept()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.canvas.is_fitted:
            self._come_near(self._near, is_close=self._is_close)

    def sizeHint(self) -> QSize:
        return QSize(420, 320)
