"""The picture of an exercise: the parts as they stand in it, chosen on, lit, and played."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from armorplan.app.rows import Diagram, Selection
from armorplan.desktop.drill_form_words import choice_of_letter, letters, spoken
from armorplan.desktop.part_words import JOINT, PART, diagram_rows
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_picture_canvas import DrillCanvas
from armorplan.desktop.widgets.drill_picture_play import PlayBar
from armorplan.practice.drill import AnswerForm, Choice, Drill, Frame

LEAST_PX = 180
NEAR_SHARE = 0.7
"""What is drawn so much smaller with everything around it is brought near."""
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
        self._drill: Drill | None = None
        self._diagram = Diagram(parts=(), holes=(), joints=())
        self._diagram_of: DiagramOf | None = None
        self._lit = ""
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
        self._diagram_of, self._drill, self._diagram, self._lit = None, drill, diagram, ""
        self.canvas.is_played = False
        self.canvas.haunt((), frozenset())
        self.canvas.letter({})
        self.canvas.show_diagram(replace(diagram, marks=()), lit=Selection())
        self.canvas.letter(lettered_joints(drill, self.canvas.drawing.heads()))
        self._come_near(drill.parts)
        self._name_it()

    def light(self, name: str) -> None:
        """Light what a choice is about; an empty id, or one of nothing, lights nothing."""
        self._lit = name
        if not self.is_played:
            self.canvas.light(self._selection(name))

    def play(self, frames: tuple[Frame, ...], diagram_of: DiagramOf) -> None:
        """Show how an answer goes, picture by picture."""
        if not frames:
            return
        self._diagram_of = diagram_of
        self.canvas.is_played = True
        self.canvas.letter({})
        self._name_it()
        self.bar.begin(frames)

    def stop(self) -> None:
        """Show the exercise again as it was asked."""
        if self._drill is None or not self.is_played:
            return
        had_keys = self.bar.isAncestorOf(self.focusWidget()) if self.focusWidget() else False
        lit = self._lit
        self.show_drill(self._diagram, self._drill)
        self.light(lit)
        if had_keys:
            self.canvas.setFocus()

    @property
    def is_played(self) -> bool:
        """Tell whether an answer is played."""
        return self._diagram_of is not None

    def _show_frame(self, frame: Frame) -> None:
        if self._diagram_of is None:
            return
        diagram = self._diagram_of(frame)
        amiss = frozenset(frame.amiss)
        hatched = {p for j in diagram.joints if j.step in amiss for p in j.parts[:1]}
        hatched |= {part for step in frame.amiss for part in self._parts_shaped(step)}
        joints = tuple(j.id for j in diagram.joints if j.step == frame.at and frame.at)
        self.canvas.show_diagram(diagram)
        self.canvas.haunt(frame.ghosts, frozenset(hatched))
        self.canvas.light(Selection(parts=self._parts_shaped(frame.at), joints=joints))

    def _parts_shaped(self, step: str) -> tuple[str, ...]:
        """Return the parts that a step is done to which sets no joint, where a choice tells them."""
        if any(joint.step == step for joint in self._diagram.joints):
            return ()
        choices = self._drill.choices if self._drill else ()
        return next((one.parts for one in choices if one.steps == (step,)), ())

    def _come_near(self, parts: tuple[str, ...]) -> None:
        """Bring the pieces near whose parts the exercise is of, where that is worth it."""
        drawing = self.canvas.drawing
        near, whole = drawing.box_of(drawing.mates(parts)), drawing.bounds()
        is_small = _scale(whole, self.canvas.size()) < NEAR_SHARE * _scale(
            near, self.canvas.size()
        )
        self.canvas.fit_to(near if is_small else QRectF())

    def _selection(self, name: str) -> Selection:
        choice = self._choice(name)
        if choice is None:
            return Selection()
        by_steps = (j.id for j in self._diagram.joints if j.step in choice.steps)
        joints = tuple(dict.fromkeys((*choice.joints, *by_steps)))
        every = {part.id for part in self._diagram.parts}
        # Of a step at all parts nothing would stand out: only what it sets is lit.
        parts = () if every <= set(choice.parts) else choice.parts
        return Selection(steps=choice.steps, parts=parts, joints=joints)

    def _choice(self, name: str) -> Choice | None:
        found = self._drill.choices if self._drill else ()
        return next((one for one in found if one.id == name), None)

    # --- what is chosen -----------------------------------------------------------------------

    def _take(self, key: str) -> None:
        if self.is_played:
            if not key:
                self.stop()
            return
        named = self._at(key)
        if named is not None:
            self.chosen.emit(named.id)

    def _at(self, key: str) -> Choice | None:
        """Return the choice that a thing on the picture belongs to, where it belongs to but one."""
        if self._drill is None or not key:
            return None
        joint, part = key.removeprefix(JOINT), key.removeprefix(PART)
        found = [
            one
            for one in self._drill.choices
            if (
                joint in self._selection(one.id).joints
                if key.startswith(JOINT)
                else part in one.parts
            )
        ]
        return found[0] if len(found) == 1 else None

    def _take_letter(self, letter: str) -> None:
        named = choice_of_letter(self._drill, letter) if self._drill else None
        if named is not None and not self.is_played:
            self.chosen.emit(named.id)

    # --- what is said -------------------------------------------------------------------------

    def _name_it(self) -> None:
        self.canvas.setAccessibleName(self.tr("Picture of the exercise"))
        told = self.tr("Arrow keys walk between what can be chosen, Enter or its letter chooses.")
        if self.is_played:
            told = self.tr("Left and Right show another picture, Space plays, Escape ends it.")
        self.canvas.setAccessibleDescription(told)

    def _speak(self, key: str) -> None:
        named = self._at(key)
        if named is not None and self._drill is not None:
            announce(self.canvas, spoken(letters(self._drill)[named.id], named))
            return
        rows = {row.key: row.spoken for row in diagram_rows(self._diagram)}
        announce(self.canvas, rows.get(key, ""))

    # --- events -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes the pictures wherever in them the keyboard is."""
        if self.is_played and event.key() == Qt.Key.Key_Escape:
            self.stop()
            event.accept()
        else:
            super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(420, 320)


def _scale(box: QRectF, view: QSize) -> float:
    """Return how large a box can be drawn in a view; an empty one not at all."""
    if box.isEmpty():
        return 0.0
    return min(view.width() / box.width(), view.height() / box.height())


def lettered_joints(drill: Drill, heads: Mapping[str, object]) -> Mapping[str, str]:
    """Return the joint at which each choice's letter stands; none unless every choice has one.

    Only where choices are chosen, not put in order: of steps in order the picture would be full.
    """
    if drill.form not in (AnswerForm.ONE, AnswerForm.SOME):
        return {}
    named = letters(drill)
    found = {
        named[one.id]: next((joint for joint in one.joints if joint in heads), "")
        for one in drill.choices
    }
    is_whole = all(found.values()) and len(set(found.values())) == len(found)
    return found if is_whole else {}
