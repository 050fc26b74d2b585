"""One question about a drawing after the other: the likeliest answer in hand, Enter takes it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from armorplan.app.bringing.asking import fits
from armorplan.app.bringing.model import Question
from armorplan.desktop.bring_turns import Turns
from armorplan.desktop.bring_words import progress_words, state_of
from armorplan.desktop.way_back_talk import Choice, Screen
from armorplan.desktop.widgets.bring_foot import AskingFoot
from armorplan.desktop.widgets.bring_told import QuestionText
from armorplan.desktop.widgets.way_back_lists import TARGET_PX, Answers, PanelKeys


class BringAsking(QWidget):
    """Worked by keys: Enter takes, Backspace goes back, left and right leaf, digits choose.

    With the mouse a click has an answer in hand, a double click takes it. ``answered`` carries the
    id of a question and what was answered, ``asked_back`` asks to take the last answer back,
    ``asked_sure`` to take all that needs no look, ``turned`` says that another question or choice
    is in hand.
    """

    answered = Signal(str, str)
    asked_back = Signal()
    asked_sure = Signal()
    turned = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_asking")
        self._turns = Turns()
        self.progress, self.why = QLabel(self), QLabel(self)
        self.told = QuestionText(self)
        self.answers = Answers("bring_answers", TARGET_PX, self)
        self.foot = AskingFoot(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        for label, name in ((self.progress, "bring_progress"), (self.why, "bring_why")):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.answers.setMinimumHeight(2 * TARGET_PX)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(4, 4, 4, 4)
        whole.addWidget(self.progress)
        whole.addWidget(self.told)
        whole.addWidget(self.answers, 1)
        whole.addWidget(self.why)
        whole.addWidget(self.foot)

    def _connect(self) -> None:
        keys = PanelKeys(self.answers)
        keys.taken.connect(self._take)
        keys.left.connect(self.asked_back)
        keys.moved.connect(self.leaf)
        keys.numbered.connect(self._take_number)
        self.answers.itemDoubleClicked.connect(self._take)
        self.answers.currentRowChanged.connect(self._turn)
        self.foot.typed_in.connect(self._take_typed)
        self.foot.asked_back.connect(self.asked_back)
        self.foot.taken.connect(self._take)
        self.foot.asked_sure.connect(self.asked_sure)

    # --- what is shown ------------------------------------------------------------------------

    @property
    def question(self) -> Question | None:
        """The question in hand."""
        return self._turns.question

    @property
    def is_done(self) -> bool:
        """Whether there are questions, and all of them are answered."""
        return self._turns.is_done

    def begin(self) -> None:
        """Forget the questions about another drawing."""
        self._turns = Turns()

    def show_questions(self, questions: tuple[Question, ...]) -> None:
        """Take new questions: what an answer made to be asked comes next, else what was in hand."""
        self._turns.take(questions)
        self._show(self._turns.at)

    def go(self, question_id: str) -> None:
        """Show a question."""
        at = self._turns.place_of(question_id)
        if at is not None:
            self._show(at)

    def leaf(self, by: int) -> None:
        """Go to the next question, or by -1 to the one before, without an answer."""
        if count := len(self._turns.questions):
            self._show((self._turns.at + by) % count)

    def _show(self, at: int) -> None:
        self._turns.at = at
        question = self.question
        if question is None:
            return
        self.progress.setText(
            f"{progress_words(self._turns.questions, at)} · {state_of(question)}"
        )
        self.foot.show_question(question)
        self.foot.show_sure(self._turns.sure)
        self.told.show_text(question.text)
        keys = [choice.key for choice in question.choices]
        in_hand = keys.index(question.taken) if question.taken in keys else 0
        told = tuple(Choice(key=c.key, text=c.words) for c in question.choices)
        self.answers.show_screen(Screen(heading=question.text, choices=told, at=in_hand))

    def _turn(self) -> None:
        """Say why the choice in hand, and have the picture show it."""
        question, key = self.question, self.answers.key()
        choices = question.choices if question else ()
        why = next((choice.why for choice in choices if choice.key == key), "")
        is_told = question is not None and why in question.text
        self.why.setText("" if is_told else why)
        self.why.setVisible(bool(why) and not is_told)
        self.turned.emit()

    # --- answers ------------------------------------------------------------------------------

    def _take(self) -> None:
        question, key = self.question, self.answers.key()
        if question is not None and key:
            self._answer(question, key)

    def _take_number(self, number: int) -> None:
        if number <= self.answers.count():
            self.answers.setCurrentRow(number - 1)
            self._take()

    def _take_typed(self, typed: str) -> None:
        question = self.question
        if question is None:
            return
        if not fits(question, typed):
            said = self.tr("'{0}' is no answer here. Type {1}.")
            self.foot.say(said.format(typed, question.typed))
            return
        self._answer(question, typed)
        self.answers.setFocus()

    def _answer(self, question: Question, said: str) -> None:
        """Give the answer, and go on at once: what follows from it is shown once it is reckoned."""
        at = self._turns.answer()
        self.answered.emit(question.id, said)
        if self.question is question and at != self._turns.at:
            self._show(at)
