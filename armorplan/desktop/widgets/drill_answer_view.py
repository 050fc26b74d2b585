"""An exercise laid out: question above, answer at the left, picture and what is told at the right."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from armorplan.desktop.practice_desk import Posed, Worth
from armorplan.desktop.practice_html import Told
from armorplan.desktop.widgets.drill_answer_foot import DrillFoot
from armorplan.desktop.widgets.drill_answer_head import QuestionHead
from armorplan.desktop.widgets.drill_answer_pieces import Pieces
from armorplan.desktop.widgets.drill_answer_sides import DrillSides
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.practice.drill import Drill


class DrillView(QWidget):
    """Holds the pieces of one exercise; what they do is the pane's."""

    def __init__(self, pieces: Pieces, parent: QWidget) -> None:
        super().__init__(parent)
        self._pieces = pieces
        self.head = QuestionHead(self)
        self.sides = DrillSides(pieces.make_picture, self)
        self.given, self.picture, self.told = (
            self.sides.given,
            self.sides.picture,
            self.sides.told,
        )
        self.form: DrillForm | None = None
        self._why: DrillForm | None = None
        self.foot = DrillFoot(self)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.head)
        whole.addWidget(self.sides, 1)
        whole.addWidget(self.foot)
        self.show_nothing("")

    def show_nothing(self, sentence: str) -> None:
        """Show no exercise, and say why."""
        self.head.say(sentence)
        self.given.show_drill(None)
        self.end_why()
        self._take_form(None)
        self.told.forget()
        self.sides.setVisible(False)

    def show_posed(self, posed: Posed) -> None:
        """Show an exercise with its picture, and a fresh form for its answer."""
        self.sides.setVisible(True)
        self.told.forget()
        self.picture.show_drill(posed.diagram, posed.drill)
        self.end_why()
        self.head.show_drill(posed.drill)
        self.given.show_drill(posed.drill)
        form = self._pieces.make_form(posed.drill, self.picture, self.sides)
        form.setAccessibleName(posed.drill.question)
        form.changed.connect(lambda: self.foot.say_lacking(""))
        self._take_form(form)

    def begin(self) -> None:
        """Give the keyboard to what is to be answered."""
        asked = self._why or self.form
        if asked is not None:
            asked.begin()

    def ask_why(self, drill: Drill) -> None:
        """Ask the second question beside the first one and its answer."""
        self.end_why()
        self._why = self._pieces.make_form(drill, None, self.sides)
        self._why.setAccessibleName(drill.question)
        self._why.changed.connect(lambda: self.foot.say_lacking(""))
        self.sides.ask_beside(self._why)

    def end_why(self) -> None:
        """Ask no second question any more."""
        why, self._why = self._why, None
        if why is not None:
            self._drop(why)

    @property
    def asked_form(self) -> DrillForm | None:
        """What is answered now: the second question's, else the exercise's."""
        return self._why or self.form

    def play(self, worth: Worth) -> None:
        """Play on the picture how an answer goes, and give it the keyboard."""
        self.picture.play(worth.judged.play, worth.diagram_of)
        self.picture.setFocus()

    def show_hint(self, hint: str) -> None:
        """Tell the reason before the answer."""
        self.told.show_hint(hint)
        self.sides.share()

    def show_told(self, told: Told) -> None:
        """Tell what an answer is worth."""
        self.told.show_told(told)
        self.sides.share()

    def _take_form(self, form: DrillForm | None) -> None:
        old, self.form = self.form, form
        if old is not None:
            self._drop(old)
        if form is not None:
            self.sides.put_in(form)

    def _drop(self, form: DrillForm) -> None:
        self.sides.take_out(form)
        form.hide()
        form.deleteLater()
