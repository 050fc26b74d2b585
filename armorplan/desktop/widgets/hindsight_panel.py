"""'Do this earlier next time': before which step, the likeliest in hand; Enter keeps it."""

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.next_version_desk import next_version_desk
from armorplan.desktop.way_back_talk import Choice, Screen
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import (
    BIG_TARGET_PX,
    TARGET_PX,
    Answers,
    PanelKeys,
    foot_of,
    heading_font,
)


class HindsightPanel(QWidget):
    """Worked by ``begin``, ``step``, ``take``, ``back``; ``left`` says that it is done with."""

    left = Signal()

    def __init__(
        self, bridge: Bridge, *, big: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("hindsight")
        self._bridge = bridge
        self._step = ""
        target_px = BIG_TARGET_PX if big else TARGET_PX
        self.desk = next_version_desk(bridge)
        self.heading = QLabel(self)
        self.said = QLabel(self)
        self.answers = Answers("hindsight_answers", target_px, self)
        self.go_back = QPushButton(self.tr("Back"), self)
        self.go_on = QPushButton(self.tr("Earlier than this"), self)
        self._lay_out(target_px)
        keys = PanelKeys(self.answers)
        keys.taken.connect(self.take)
        keys.left.connect(self.back)
        keys.moved.connect(self.step)
        keys.numbered.connect(self._take_number)
        self.answers.itemClicked.connect(self.take)
        self.go_back.clicked.connect(self.back)
        self.go_on.clicked.connect(self.take)
        bridge.opened.connect(self.left)
        if self.desk is not None:
            self.desk.told.connect(self._say)
            self.desk.refused.connect(self._say)

    def _lay_out(self, target_px: int) -> None:
        for label, name in ((self.heading, "hindsight_heading"), (self.said, "hindsight_said")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.heading.setFont(heading_font(self.font()))
        self.go_back.setObjectName("hindsight_back")
        self.go_on.setObjectName("hindsight_on")
        whole = QVBoxLayout(self)
        whole.addWidget(self.heading)
        whole.addWidget(self.answers, 1)
        whole.addWidget(self.said)
        whole.addLayout(foot_of(target_px, self.go_back, self.go_on))

    def begin(self) -> None:
        """Ask before which step the chosen one should have come."""
        self._step = next(iter(self._bridge.selection.steps), "")
        title = self.desk.title(self._step) if self.desk and self._step else ""
        before = self.desk.befores(self._step) if self.desk and title else ()
        choices = tuple(Choice(key=one.step, text=one.title) for one in before)
        self.answers.show_screen(Screen(heading="", choices=choices))
        self.go_on.setEnabled(bool(choices))
        self.heading.setText(self._asked(title, is_open=bool(choices)))
        self._say("")
        self.answers.setFocus()

    def _asked(self, title: str, *, is_open: bool) -> str:
        if self.desk is None:
            return self.tr("There is no pattern here that could be written.")
        if not title:
            return self.tr("Choose the step that should have come earlier.")
        if not is_open:
            return self.tr("Nothing was done before '{0}' that it could come before.").format(
                title
            )
        return self.tr("Next time '{0}' earlier than …").format(title)

    def step(self, by: int) -> None:
        """Go to the next step done before, or by -1 to the one done after it."""
        self.answers.step(by)

    def take(self) -> None:
        """Have it written that the chosen step comes before the one in hand."""
        before = self.answers.key()
        if self.desk is not None and before and not self.desk.is_busy:
            self._say(self.tr("Writing it into the pattern …"))
            self.desk.earlier(self._step, before)

    def back(self) -> None:
        """Leave."""
        self.left.emit()

    def _take_number(self, number: int) -> None:
        if number <= self.answers.count():
            self.answers.setCurrentRow(number - 1)
            self.take()

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))
        announce(self.said, sentence)

    def close_jobs(self) -> None:
        """Wait for what is still being written."""
        if self.desk is not None:
            self.desk.close()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.heading.setFont(heading_font(self.font()))
