"""One question about a drawing after the other: the likeliest answer in hand, Enter takes it."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from armorplan.app.bringing.asking import fits
from armorplan.app.bringing.model import Question
from armorplan.desktop.bring_words import head_and_rest, progress_words, state_of
from armorplan.desktop.way_back_talk import Choice, Screen
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import (
    TARGET_PX,
    Answers,
    PanelKeys,
    heading_font,
)


class BringAsking(QWidget):
    """Worked by keys: Enter takes, Backspace goes back, left and right leaf, digits choose.

    ``answered`` carries the id of a question and what was answered, ``asked_back`` asks to take the
    last answer back, ``asked_sure`` to take all that needs no look, ``turned`` says that another
    question or choice is in hand.
    """

    answered = Signal(str, str)
    asked_back = Signal()
    asked_sure = Signal()
    turned = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_asking")
        self._questions: tuple[Question, ...] = ()
        self._at = 0
        self.progress = QLabel(self)
        self.text, self.more = QLabel(self), QLabel(self)
        self.answers = Answers("bring_answers", TARGET_PX, self)
        self.why = QLabel(self)
        self.typed = QLineEdit(self)
        self.said = QLabel(self)
        self.back = QPushButton(self.tr("Take back (Backspace)"), self)
        self.take = QPushButton(self.tr("Take it (Enter)"), self)
        self.sure = QPushButton(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        for label, name in (
            (self.progress, "bring_progress"),
            (self.text, "bring_question"),
            (self.more, "bring_more"),
            (self.why, "bring_why"),
            (self.said, "bring_answer_said"),
        ):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.text.setFont(heading_font(self.font()))
        for label in (self.text, self.more, self.why):
            label.setTextFormat(Qt.TextFormat.PlainText)
        self.typed.setObjectName("bring_typed")
        self.typed.setMinimumHeight(TARGET_PX)
        self.said.hide()
        for button, name in (
            (self.back, "bring_back"),
            (self.take, "bring_take"),
            (self.sure, "bring_sure"),
        ):
            button.setObjectName(name)
            button.setMinimumHeight(TARGET_PX)
            button.setAutoDefault(False)
        foot = QHBoxLayout()
        foot.addWidget(self.back)
        foot.addWidget(self.take, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(4, 4, 4, 4)
        whole.addWidget(self.progress)
        whole.addWidget(self.text)
        whole.addWidget(self.more)
        whole.addWidget(self.answers, 1)
        whole.addWidget(self.why)
        whole.addWidget(self.typed)
        whole.addWidget(self.said)
        whole.addLayout(foot)
        whole.addWidget(self.sure)

    def _connect(self) -> None:
        keys = PanelKeys(self.answers)
        keys.taken.connect(self._take)
        keys.left.connect(self.asked_back)
        keys.moved.connect(self.leaf)
        keys.numbered.connect(self._take_number)
        self.answers.itemClicked.connect(self._take)
        self.answers.currentRowChanged.connect(self._turn)
        self.typed.returnPressed.connect(self._take_typed)
        self.back.clicked.connect(self.asked_back)
        self.take.clicked.connect(self._take)
        self.sure.clicked.connect(self.asked_sure)

    # --- what is shown ------------------------------------------------------------------------

    @property
    def question(self) -> Question | None:
        """The question in hand."""
        return self._questions[self._at] if self._at < len(self._questions) else None

    def show_questions(self, questions: tuple[Question, ...]) -> None:
        """Take new questions; the one in hand stays in hand as long as it is asked and open."""
        former = self.question
        self._questions = questions
        ids = {one.id: at for at, one in enumerate(questions)}
        here = ids.get(former.id) if former else None
        if here is None or questions[here].answer is not None:
            here = self._next_open(here if here is not None else self._at - 1)
        self._show(here)

    def _next_open(self, after: int) -> int:
        """Return the next open question, else the first open one, else the last of all."""
        open_ones = [at for at, one in enumerate(self._questions) if one.answer is None]
        later = [at for at in open_ones if at > after]
        return next(iter(later or open_ones), max(len(self._questions) - 1, 0))

    def go(self, question_id: str) -> None:
        """Show a question."""
        at = next((i for i, one in enumerate(self._questions) if one.id == question_id), None)
        if at is not None:
            self._show(at)

    def leaf(self, by: int) -> None:
        """Go to the next question, or by -1 to the one before, without an answer."""
        if self._questions:
            self._show((self._at + by) % len(self._questions))

    def _show(self, at: int) -> None:
        self._at = at
        question = self.question
        self.said.hide()
        if question is None:
            return
        self.progress.setText(f"{progress_words(self._questions, at)} · {state_of(question)}")
        first, more = head_and_rest(question.text)
        self.text.setText(first)
        self.more.setText(more)
        self.more.setVisible(bool(more))
        keys = [choice.key for choice in question.choices]
        in_hand = keys.index(question.taken) if question.taken in keys else 0
        told = tuple(Choice(key=c.key, text=c.words) for c in question.choices)
        self.answers.show_screen(Screen(heading=question.text, choices=told, at=in_hand))
        self.typed.setVisible(bool(question.typed))
        self.typed.setText("" if question.taken in keys else question.taken)
        self.typed.setPlaceholderText(self.tr("or type: {0}").format(question.typed))
        self.typed.setAccessibleName(question.typed or self.tr("Typed answer"))
        self._show_sure()
        announce(self.text, question.text)

    def _show_sure(self) -> None:
        sure = sum(1 for one in self._questions if one.sure and one.answer is None)
        self.sure.setVisible(sure > 1)
        self.sure.setText(self.tr("Take all {0} that are sure (Ctrl+Return)").format(sure))
        self.sure.setShortcut("Ctrl+Return" if sure > 1 else "")

    def _turn(self) -> None:
        """Say why the choice in hand, and have the picture show it."""
        question, key = self.question, self.answers.key()
        choices = question.choices if question else ()
        why = next((choice.why for choice in choices if choice.key == key), "")
        self.why.setText(why)
        self.why.setVisible(bool(why))
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

    def _take_typed(self) -> None:
        question, typed = self.question, self.typed.text().strip()
        if question is None:
            return
        if not fits(question, typed):
            self._say(self.tr("'{0}' is no answer here. Type {1}.").format(typed, question.typed))
            return
        self._answer(question, typed)
        self.answers.setFocus()

    def _answer(self, question: Question, said: str) -> None:
        """Give the answer, and go on at once: what follows from it is shown once it is reckoned."""
        at = self._next_open(self._at)
        self.answered.emit(question.id, said)
        if self.question is question and at != self._at:
            self._show(at)

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.said.show()
        announce(self.said, sentence)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.text.setFont(heading_font(self.font()))
