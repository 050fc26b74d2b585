"""'Somebody is away': one answer says who and for how long, and the plan is laid anew."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from armorplan.app.absence_choices import AbsenceChoice, absence_choices
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.way_back_talk import Choice, Screen
from armorplan.desktop.widgets.way_back_lists import (
    TARGET_PX,
    Answers,
    PanelKeys,
    foot_of,
    heading_font,
)
from armorplan.desktop.wording import clock_text


class AwayPanel(QWidget):
    """Worked by ``begin`` and ``take``; ``left`` says that it is done with."""

    left = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("away")
        self._bridge = bridge
        self._choices: tuple[AbsenceChoice, ...] = ()
        self.heading = QLabel(self.tr("Who is away?"), self)
        self.hint = QLabel(
            self.tr("Longer absences, known beforehand, are written in the shop's file."), self
        )
        self.answers = Answers("away_answers", TARGET_PX, self)
        self.go_back = QPushButton(self.tr("Back"), self)
        self.go_on = QPushButton(self.tr("Say so"), self)
        self._lay_out()
        keys = PanelKeys(self.answers)
        keys.taken.connect(self.take)
        keys.left.connect(self.left)
        keys.moved.connect(self.answers.step)
        keys.numbered.connect(self._take_number)
        self.answers.itemDoubleClicked.connect(self.take)
        self.go_back.clicked.connect(self.left)
        self.go_on.clicked.connect(self.take)
        bridge.opened.connect(self.left)

    def _lay_out(self) -> None:
        self.heading.setObjectName("away_heading")
        self.heading.setFont(heading_font(self.font()))
        self.hint.setObjectName("away_hint")
        self.hint.setWordWrap(True)
        self.go_back.setObjectName("away_back")
        self.go_on.setObjectName("away_on")
        whole = QVBoxLayout(self)
        whole.addWidget(self.heading)
        whole.addWidget(self.answers, 1)
        whole.addWidget(self.hint)
        whole.addLayout(foot_of(TARGET_PX, self.go_back, self.go_on))

    def begin(self) -> None:
        """Offer what can be said now."""
        now_at, zone = self._bridge.clock.now(), self._bridge.zone
        rows = self._bridge.session.absences.rows()
        self._choices = absence_choices(rows, now_at, zone)
        self.answers.show_screen(
            Screen(
                heading="",
                choices=tuple(
                    Choice(
                        key=str(at),
                        text=choice.text,
                        more=self.tr("until {0}").format(clock_text(choice.until_at, now_at, zone))
                        if choice.until_at > now_at
                        else "",
                    )
                    for at, choice in enumerate(self._choices)
                ),
            )
        )
        self.go_on.setEnabled(bool(self._choices))
        self.answers.setFocus()

    def take(self) -> None:
        """Say what is in hand, and leave."""
        key = self.answers.key()
        if key:
            choice = self._choices[int(key)]
            absences = self._bridge.session.absences
            self._bridge.said.emit(absences.away(choice.person, None, choice.until_at))
            self.left.emit()

    def _take_number(self, number: int) -> None:
        if number <= self.answers.count():
            self.answers.setCurrentRow(number - 1)
            self.take()

    def close_jobs(self) -> None:
        """Nothing goes on here beside the window."""
