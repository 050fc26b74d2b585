"""The buttons under an exercise: each with a key of its own, shown where it does something."""

from enum import Enum, auto

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.practice_words import nearest_button_words
from armorplan.desktop.widgets.flow import Flow
from armorplan.desktop.widgets.way_back_lists import TARGET_PX
from armorplan.practice.drill import AnswerForm


class At(Enum):
    """Where in an exercise one is."""

    LOOKING = auto()
    NONE = auto()
    ASKED = auto()
    AGAIN = auto()
    JUDGING = auto()
    WHY = auto()
    TOLD = auto()


class FootButton(QPushButton):
    """Pressed by Enter too while it has the keyboard, and only then."""

    def __init__(self, text: str, name: str, key: str, parent: QWidget) -> None:
        super().__init__(text, parent)
        self.setObjectName(name)
        self.setAutoDefault(False)
        self.setMinimumHeight(TARGET_PX)
        self._key = key
        if key:
            # Its own child: a button that is out of sight or greyed out leaves the key to others.
            QShortcut(QKeySequence(key), self, self.click)
        self.say(text)

    def say(self, text: str) -> None:
        """Name the button, its key behind the name."""
        keys = QKeySequence(self._key).toString(QKeySequence.SequenceFormat.NativeText)
        self.setText(f"{text}  ({keys})" if keys else text)
        self.setAccessibleName(text.replace("&", ""))
        self.setAccessibleDescription(keys)

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(0, TARGET_PX))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_enter and event.modifiers() in _PLAIN:
            self.click()
        else:
            super().keyPressEvent(event)


_PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)


class DrillFoot(QWidget):
    """Says by signals what was pressed; ``onward`` is the next exercise, or leaving a question."""

    answered = Signal()
    hinted = Signal()
    played = Signal()
    neared = Signal()
    retried = Signal()
    onward = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._at = At.LOOKING
        self.answer = FootButton(self.tr("&Answer"), "drill_answer", "Ctrl+Return", self)
        self.hint = FootButton(self.tr("Show the &reason first"), "drill_hint", "Ctrl+R", self)
        self.play = FootButton(self.tr("Show how it &goes"), "drill_play", "Ctrl+G", self)
        self.nearest = FootButton("", "drill_nearest", "Ctrl+E", self)
        self.again = FootButton(self.tr("&Try again"), "drill_again", "Ctrl+T", self)
        self.go_on = FootButton("", "drill_on", "Ctrl+N", self)
        self.lack = QLabel(self)
        self.lack.setObjectName("drill_lack")
        row = Flow(self)
        for button in self._all():
            row.add(button)
        row.add(self.lack)
        self.say_lacking("")
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(row)
        for button, signal in zip(
            self._all(),
            (
                self.answered,
                self.hinted,
                self.played,
                self.neared,
                self.retried,
                self.onward,
            ),
            strict=True,
        ):
            button.clicked.connect(signal)

    def _all(self) -> tuple[FootButton, ...]:
        return (self.answer, self.hint, self.play, self.nearest, self.again, self.go_on)

    def show_at(self, at: At, *, has_hint: bool = True) -> None:
        """Offer what can be done there; the answer's own buttons come by ``offer_told``."""
        self._at = at
        self.say_lacking("")
        self.answer.setVisible(at in (At.ASKED, At.AGAIN, At.WHY, At.JUDGING))
        self.answer.setEnabled(at is not At.JUDGING)
        self.hint.setVisible(at is At.ASKED and has_hint)
        for button in (self.play, self.nearest, self.again):
            button.setVisible(False)
        self.go_on.setVisible(at is not At.JUDGING)
        self.go_on.setEnabled(at is not At.LOOKING)
        self.go_on.say(self._onward_words(at))

    def say_lacking(self, words: str) -> None:
        """Say beside the buttons what an answer still lacks; nothing: it lacks nothing."""
        self.lack.setText(words)
        self.lack.setVisible(bool(words))

    def offer_told(self, form: AnswerForm, *, right: bool, has_play: bool, has_near: bool) -> None:
        """Offer what can be done with an answer that was told of."""
        self.play.setVisible(has_play)
        self.nearest.setVisible(has_near and not right)
        self.say_nearest(form, is_shown=False)
        self.again.setVisible(not right)

    def begin(self, *, right: bool) -> None:
        """Give the keyboard to what is likely done next with an answer that was told of."""
        (self.go_on if right else self.again).setFocus()

    def say_nearest(self, form: AnswerForm, *, is_shown: bool) -> None:
        """Name the button by what it shows next."""
        self.nearest.say(nearest_button_words(form, is_shown=is_shown))

    def _onward_words(self, at: At) -> str:
        if at is At.ASKED:
            return self.tr("&Skip")
        return self.tr("&Leave it at that") if at is At.WHY else self.tr("Another e&xercise")
