"""The foot of a question: a line to type in, what is sure, back and on. Its buttons stay in their places."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from armorplan.app.bringing.model import Question
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import TARGET_PX


class AskingFoot(QWidget):
    """What comes and goes lies above the buttons, so that these stay where the pointer is.

    ``typed_in`` carries what was typed, ``taken`` takes the answer in hand, ``asked_back`` asks for
    the last one to be taken back, ``asked_sure`` for all that needs no look to be taken.
    """

    typed_in = Signal(str)
    taken = Signal()
    asked_back = Signal()
    asked_sure = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("bring_asking_foot")
        self.typed = QLineEdit(self)
        self.said = QLabel(self)
        self.sure = self._button("bring_sure", "")
        self.back = self._button("bring_back", self.tr("Take back (Backspace)"))
        self.take = self._button("bring_take", self.tr("Take it (Enter)"))
        self.typed.setObjectName("bring_typed")
        self.typed.setMinimumHeight(TARGET_PX)
        self.said.setObjectName("bring_answer_said")
        self.said.setWordWrap(True)
        last = QHBoxLayout()
        last.addWidget(self.back)
        last.addWidget(self.take, 1)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        for widget in (self.said, self.typed, self.sure):
            down.addWidget(widget)
        down.addLayout(last)
        self.typed.returnPressed.connect(lambda: self.typed_in.emit(self.typed.text().strip()))
        self.take.clicked.connect(self.taken)
        self.back.clicked.connect(self.asked_back)
        self.sure.clicked.connect(self.asked_sure)

    def _button(self, name: str, text: str) -> QPushButton:
        button = QPushButton(text, self)
        button.setObjectName(name)
        button.setMinimumHeight(TARGET_PX)
        button.setAutoDefault(False)
        return button

    def show_question(self, question: Question) -> None:
        """Let an answer be typed where one may be."""
        self.said.hide()
        is_typed = all(choice.key != question.taken for choice in question.choices)
        self.typed.setVisible(bool(question.typed))
        self.typed.setText(question.taken if is_typed else "")
        self.typed.setPlaceholderText(self.tr("or type: {0}").format(question.typed))
        self.typed.setAccessibleName(question.typed or self.tr("Typed answer"))

    def show_sure(self, sure: int) -> None:
        """Say how many answers are sure; one is taken by itself."""
        self.sure.setVisible(sure > 1)
        self.sure.setText(self.tr("Take all {0} that are sure (Ctrl+Return)").format(sure))
        self.sure.setShortcut("Ctrl+Return" if sure > 1 else "")

    def say(self, sentence: str) -> None:
        """Say why what was typed is no answer."""
        self.said.setText(sentence)
        self.said.show()
        announce(self.said, sentence)
