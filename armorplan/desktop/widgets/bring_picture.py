"""The drawing with its legend, what is chosen in it, and what a person says of that."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from armorplan.app.bringing.answering import Fact
from armorplan.app.bringing.model import Question
from armorplan.desktop.bring_view import (
    BringView,
    Ghost,
    called_then,
    ghost_of,
    lit_with,
    pairs_of,
)
from armorplan.desktop.bring_words import counted
from armorplan.desktop.widgets.bring_canvas import BringCanvas
from armorplan.desktop.widgets.bring_kinds import KindBar
from armorplan.desktop.widgets.bring_pairs import PairBar
from armorplan.desktop.widgets.bring_shape_bar import ShapeBar
from armorplan.geometry.brought.model import Shape, ShapeKind
from armorplan.geometry.matching.model import RowMatch

NEAR_FROM = 400
"""With more shapes than this what is asked about would be too small in the whole drawing."""


class BringPicture(QWidget):
    """``kind_said`` carries a key and a kind, ``fact_said`` a part, a fact and words, ``said`` a sentence."""

    kind_said = Signal(str, object)
    fact_said = Signal(str, object, str)
    said = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_picture")
        self.file = QLabel(self)
        self.canvas, self.kinds, self.shape = BringCanvas(self), KindBar(self), ShapeBar(self)
        self.pairs = PairBar(self)
        self._view: BringView | None = None
        self.near = QCheckBox(self.tr("Go near (Z)"), self)
        self._lit: tuple[str, ...] = ()
        self._question: Question | None = None
        self.file.setObjectName("bring_file")
        self.near.setObjectName("bring_near")
        self.near.setToolTip(self.tr("Show what is asked about as large as it can be"))
        self.file.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        head = QHBoxLayout()
        head.addWidget(self.file, 1)
        head.addWidget(self.pairs, 1)
        head.addWidget(self.near)
        down.addLayout(head)
        down.addWidget(self.canvas, 1)
        down.addWidget(self.kinds)
        down.addWidget(self.shape)
        self._connect()

    def _connect(self) -> None:
        canvas, shape = self.canvas, self.shape
        canvas.hands.chosen.connect(self.choose)
        canvas.hands.walked.connect(self.choose)
        canvas.kind_said.connect(self._say_kind)
        canvas.fact_wanted.connect(self._begin_fact)
        canvas.marked.connect(shape.mark)
        self.near.toggled.connect(self._turn_near)
        self.kinds.pressed.connect(self._say_kind)
        shape.part.said.connect(self.fact_said)
        shape.part.left.connect(canvas.setFocus)
        self.pairs.turned.connect(self._lay_on)
        shape.measuring.connect(canvas.measure)

    def show_view(self, name: str, view: BringView) -> None:
        """Draw a view of the file of this name; what was chosen stays chosen."""
        unit = self.tr("{file}: one unit of it is taken for {mm} mm")
        self.file.setText(unit.format(file=name, mm=f"{view.mm_each:.6g}"))
        self.file.setToolTip(self.file.text())
        is_new = self._view is None or self._view.bringing.drawing is not view.bringing.drawing
        self._view = view
        self.shape.part.show_leathers(view.leathers)
        if is_new:
            self.near.setChecked(len(view.found.shapes) > NEAR_FROM)
            self.canvas.hands.keep("")
        self.canvas.show_view(view)
        if is_new:
            self.canvas.fit()
        self.kinds.show_counts(counted(view.found))
        self.choose("" if is_new else self.shape.key)

    def ask(self, question: Question, choice: str) -> None:
        """Show what a question is about while a choice is in hand: of several rows one at a time."""
        self._question = question
        parts = self._view.found.shapes if self._view else ()
        self.canvas.call(called_then(question, self._view) if self._view else {})
        names = {shape.key: shape.name for shape in parts if shape.name}
        matches = pairs_of(question, choice)
        self.file.setVisible(not matches)
        self.pairs.show_matches(matches, names)

    def _lay_on(self, match: RowMatch | None) -> None:
        if self._question is not None and self._view is not None:
            ghost = ghost_of(match, self._view) if match else None
            self.light(lit_with(self._question, match), ghost)

    def light(self, keys: tuple[str, ...], ghost: Ghost | None) -> None:
        """Light what is asked about, with what fits what; go near it where that is wanted."""
        # Of a part that is laid on the other only where it is laid is gone near to.
        self._lit = keys[:1] if ghost is not None and ghost.outline else keys
        self.canvas.light(keys)
        self.canvas.show_ghost(ghost)
        self._go()

    def _go(self) -> None:
        if self.near.isChecked():
            self.canvas.go_near(self._lit)

    def _turn_near(self, wanted: bool) -> None:
        if wanted:
            self._go()
        else:
            self.canvas.fit()

    def choose(self, key: str) -> None:
        """Say what a shape is taken for; an empty key chooses nothing."""
        shape, part = self.canvas.shape_at(key), self._part_of(key)
        facts = self._view.facts.get(part.key) if self._view and part else None
        self.shape.show_shape(shape, self.canvas.words_of(key), part, facts)

    def _part_of(self, key: str) -> Shape | None:
        """Return the part that a shape is, or lies in; ``None`` where it is and does neither."""
        shape = self.canvas.shape_at(key)
        if shape is not None and shape.kind is not ShapeKind.PART:
            shape = self.canvas.shape_at(shape.inside)
        return shape if shape is not None and shape.kind is ShapeKind.PART else None

    def _begin_fact(self, fact: Fact) -> None:
        """Have something said of the chosen part; where none is chosen say so, and take no letters."""
        if self.shape.part.begin(fact):
            return
        held = self.shape.key
        if self.shape.part.key:
            told = self.tr("That can be said once it is known which rows fit.")
        elif held:
            told = self.tr("That is no part, and lies in none: only parts have a name and a kind.")
        else:
            told = self.tr("Choose a part in the drawing first.")
        self.said.emit(told + self.tr(" Esc goes back to the drawing."))

    def leave(self) -> bool:
        """Give the keys back to the drawing, or choose nothing in it; tell whether there was what to leave."""
        fields = (self.shape.part, self.shape)
        held = self.window().focusWidget()
        is_in = any(field.isAncestorOf(held) for field in fields)
        if is_in:
            self.shape.measure.setChecked(False)
            self.canvas.setFocus()
        elif self.shape.key and held is self.canvas:
            self.canvas.hands.walk_to("")
            self.choose("")
        else:
            return False
        return True

    def _say_kind(self, kind: ShapeKind) -> None:
        if self.shape.key:
            self.kind_said.emit(self.shape.key, kind)
        else:
            self.said.emit(self.tr("Choose a line in the drawing first."))
