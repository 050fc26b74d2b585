"""An exercise laid out: question above, answer at the left, picture and what is told at the right."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from armorplan.desktop.practice_desk import Posed, Worth
from armorplan.desktop.practice_html import Told
from armorplan.desktop.widgets.drill_answer_foot import DrillFoot
from armorplan.desktop.widgets.drill_answer_head import GivenPane, QuestionHead
from armorplan.desktop.widgets.drill_answer_pieces import Pieces
from armorplan.desktop.widgets.drill_form import DrillForm
from armorplan.desktop.widgets.drill_judged import DrillTold
from armorplan.practice.drill import Drill

SHARES_PX = (540, 560)
LEAST_PX = 60


class DrillView(QWidget):
    """Holds the pieces of one exercise; what they do is the pane's."""

    def __init__(self, pieces: Pieces, parent: QWidget) -> None:
        super().__init__(parent)
        self._pieces = pieces
        self.head = QuestionHead(self)
        self.left = QWidget(self)
        self.given = GivenPane(self.left)
        self.form: DrillForm | None = None
        self._why: DrillForm | None = None
        self._drill: Drill | None = None
        self.picture = pieces.make_picture(self)
        self.told = DrillTold(self)
        self.foot = DrillFoot(self)
        self._right = QSplitter(Qt.Orientation.Vertical, self)
        self._across = QSplitter(Qt.Orientation.Horizontal, self)
        self._lay_out()
        self.show_nothing("")

    def _lay_out(self) -> None:
        self._column = QVBoxLayout(self.left)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self.given)
        self._column.addStretch(0)
        for widget in (self.picture, self.told):
            self._right.addWidget(widget)
            widget.setMinimumHeight(LEAST_PX)
        for splitter in (self._right, self._across):
            splitter.setChildrenCollapsible(False)
        self._right.setStretchFactor(0, 1)
        self._right.setStretchFactor(1, 1)
        self._across.addWidget(self.left)
        self._across.addWidget(self._right)
        self._across.setSizes(list(SHARES_PX))
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.head)
        whole.addWidget(self._across, 1)
        whole.addWidget(self.foot)

    def show_nothing(self, sentence: str) -> None:
        """Show no exercise, and say why."""
        self.head.say(sentence)
        self.given.show_drill(None)
        self._drill = None
        self.end_why()
        self._take_form(None)
        self.told.forget()
        self._across.setVisible(False)

    def show_posed(self, posed: Posed) -> None:
        """Show an exercise with its picture, and a fresh form for its answer."""
        self._across.setVisible(True)
        self.told.forget()
        self.picture.show_drill(posed.diagram, posed.drill)
        self._drill = None
        self.end_why()
        self._drill = posed.drill
        self.head.show_drill(posed.drill)
        self.given.show_drill(posed.drill)
        self._take_form(self._pieces.make_form(posed.drill, self.picture, self.left))

    def begin(self) -> None:
        """Give the keyboard to what is to be answered."""
        asked = self._why or self.form
        if asked is not None:
            asked.begin()

    def ask_why(self, drill: Drill) -> None:
        """Ask the second question in place of the first one; its answer is kept out of sight."""
        self.end_why()
        self.head.show_drill(drill)
        self.given.show_drill(None)
        if self.form is not None:
            self.form.hide()
        self._why = self._pieces.make_form(drill, self.picture, self.left)
        self._place(self._why)

    def end_why(self) -> None:
        """Show the first question and its answer again."""
        why, self._why = self._why, None
        if why is None:
            return
        self._drop(why)
        if self._drill is not None:
            self.head.show_drill(self._drill)
            self.given.show_drill(self._drill)
        if self.form is not None:
            self.form.show()

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

    def show_told(self, told: Told) -> None:
        """Tell what an answer is worth."""
        self.told.show_told(told)

    def _take_form(self, form: DrillForm | None) -> None:
        old, self.form = self.form, form
        if old is not None:
            self._drop(old)
        if form is not None:
            self._place(form)

    def _place(self, form: DrillForm) -> None:
        """Lay a form out under what is known, and have Tab go through it next."""
        self._column.insertWidget(1, form, 1)
        form.show()
        before: QWidget = self.given
        for widget in _in_turn(form):
            QWidget.setTabOrder(before, widget)
            before = widget

    def _drop(self, form: DrillForm) -> None:
        self._column.removeWidget(form)
        form.hide()
        form.deleteLater()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.given.fit()


def _in_turn(form: QWidget) -> list[QWidget]:
    """Return what in a form can take the keyboard, in the order of Tab."""
    found: list[QWidget] = []
    widget = form.nextInFocusChain()
    while widget is not form:
        if form.isAncestorOf(widget) and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            found.append(widget)
        widget = widget.nextInFocusChain()
    return found
