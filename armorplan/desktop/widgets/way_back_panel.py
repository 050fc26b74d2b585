"""The way back: what went wrong in a few keys, the ways back side by side, and one of them chosen."""

from enum import Enum, auto

from PySide6.QtCore import QEvent, Signal
from PySide6.QtWidgets import (
    QLabel,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.way_back_rows import WaysBack
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.theme import colours_of
from armorplan.desktop.way_back_desk import WayBackDesk
from armorplan.desktop.way_back_extras import DROP, FORGET, KEEP, WAYS, drop_screen, extras
from armorplan.desktop.way_back_places import places_of
from armorplan.desktop.way_back_talk import Screen, WayBackTalk
from armorplan.desktop.way_back_words import STUCK_SHOWN, above_html, stuck_html
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.way_back_lists import (
    BIG_TARGET_PX,
    TARGET_PX,
    Answers,
    PanelKeys,
    foot_of,
    heading_font,
)
from armorplan.desktop.widgets.way_back_ways import WaysPane


class _At(Enum):
    ASKING = auto()
    LOOKING = auto()
    WAYS = auto()
    SETTLED = auto()


class WayBackPanel(QWidget):
    """Worked by four verbs: ``begin``, ``step``, ``take``, ``back``; keys and buttons are these.

    ``left`` says that one went back from its first question or on from its last word, ``settled``
    carries what was said when a way was chosen. A large font is set on it as on any widget.
    """

    left = Signal()
    settled = Signal(str)

    def __init__(
        self, bridge: Bridge, *, big: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("way_back_panel")
        self._bridge, self._is_big = bridge, big
        self._target_px = BIG_TARGET_PX if big else TARGET_PX
        self._at = _At.ASKING
        self._talk = WayBackTalk({})
        self._mark: object = None
        self._noted = self._undoes = ""
        self.desk = WayBackDesk(bridge, self)
        self.heading = QLabel(self)
        self.hint = QLabel(self)
        self.answers = Answers("way_back_answers", self._target_px, self)
        self.ways = WaysPane(self._target_px, self)
        self.go_back = QPushButton(self.tr("Back"), self)
        self.go_on = QPushButton(self)
        self._pages = QStackedWidget(self)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        for label, name in ((self.heading, "way_back_heading"), (self.hint, "way_back_hint")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.heading.setFont(heading_font(self.font()))
        self._pages.addWidget(self.answers)
        self._pages.addWidget(self.ways)
        self.go_back.setObjectName("way_back_back")
        self.go_on.setObjectName("way_back_on")
        whole = QVBoxLayout(self)
        whole.addWidget(self.heading)
        whole.addWidget(self.hint)
        whole.addWidget(self._pages, 1)
        whole.addLayout(foot_of(self._target_px, self.go_back, self.go_on))

    def _connect(self) -> None:
        keys = PanelKeys(self.answers, self.ways.table, self.ways.told)
        keys.taken.connect(self.take)
        keys.left.connect(self.back)
        keys.moved.connect(self.step)
        keys.numbered.connect(self._take_number)
        keys.paged.connect(self.ways.page_on)
        self.answers.itemClicked.connect(self.take)
        self.go_back.clicked.connect(self.back)
        self.go_on.clicked.connect(self.take)
        self.desk.found.connect(self._show_ways)
        self.desk.dated.connect(self._show_dates)
        self.desk.refused.connect(self._refuse)
        self._bridge.changed.connect(self._follow)
        self._bridge.opened.connect(self._begin_seen)

    # --- the verbs ---------------------------------------------------------------------------

    def begin(self) -> None:
        """Ask from the start what went wrong, with what is chosen in hand."""
        self.desk.drop()
        self._noted = ""
        session = self._bridge.session
        self._talk = WayBackTalk(places_of(session, self._bridge.selection))
        self._show_question()

    def _begin_seen(self) -> None:
        """Another build is shown; put away, the panel asks of it once it is begun again."""
        if self.isVisible():
            self.begin()

    def step(self, by: int) -> None:
        """Go to the next answer or way, or by -1 to the former one; past the last to the first."""
        if self._at is _At.ASKING:
            self.answers.step(by)
        elif self._at is _At.WAYS:
            self.ways.step(by)

    def take(self) -> None:
        """Take the answer or the way in hand; at the end go on with the work."""
        if self._at is _At.ASKING:
            self._take_answer(self.answers.key())
        elif self._at is _At.WAYS and self.ways.way() is not None:
            self._take_way()
        elif self._at is not _At.LOOKING:
            self.left.emit()

    def back(self) -> None:
        """Go back to the question before; from the first one, or the last word, leave.

        What was noted on the way to the ways is taken back with it: the question is open again.
        """
        if self._at in (_At.LOOKING, _At.WAYS):
            self._take_back_noted()
            self.begin()
        elif self._at is _At.ASKING and self.answers.row_of_key(KEEP) >= 0:
            self.begin()
        elif self._at is _At.ASKING and self._talk.back():
            self._show_question()
        else:
            self.left.emit()

    # --- asking ------------------------------------------------------------------------------

    def _show_question(self) -> None:
        screen, way_back = self._talk.screen(), self._bridge.session.way_back
        stuck = way_back.stuck() if self._talk.is_first else ()
        choices = (*screen.choices, *(extras(way_back) if self._talk.is_first else ()))
        at = next((i for i, one in enumerate(choices) if one.key == WAYS), screen.at)
        most = 1 if self._is_big else STUCK_SHOWN
        hint = stuck_html(stuck, colours_of(self.palette()), most=most) or screen.hint
        self._ask(Screen(heading=screen.heading, hint=hint, choices=choices, at=at))

    def _ask(self, screen: Screen) -> None:
        self._at = _At.ASKING
        self._say(screen.heading, screen.hint)
        self.answers.show_screen(screen)
        self._turn(self.answers, self.tr("This one"))

    def _take_number(self, number: int) -> None:
        row = self.answers.row_of(number)
        if self._at is _At.ASKING and row >= 0:
            self._take_answer(self.answers.key(row))
        elif self._at is _At.WAYS:
            self.ways.choose(number - 1)

    def _take_answer(self, key: str) -> None:
        way_back = self._bridge.session.way_back
        if key == WAYS:
            self._look()
        elif key == KEEP:
            self.begin()
        elif key.startswith(FORGET):
            self._ask(drop_screen(way_back, key.removeprefix(FORGET)))
        elif key.startswith(DROP):
            self._bridge.tell(way_back.forget(key.removeprefix(DROP)))
            self.begin()
        elif key:
            self._tell(key)

    def _tell(self, key: str) -> None:
        """Take an answer of the talk; once all of it is told, look for the ways back."""
        mistake = self._talk.take(key)
        if mistake is None:
            self._show_question()
            return
        said = self._bridge.session.way_back.tell(mistake)
        self._bridge.tell(said)
        if said.startswith(NOT_RECORDED):
            self._say(self.heading.text(), said)
        else:
            self._noted = said
            self._undoes = self._bridge.session.can_undo()
            self._look()

    def _take_back_noted(self) -> None:
        """Take back what was noted here, unless something else was done since."""
        if self._is_noted_last():
            self._at = _At.ASKING
            self._bridge.undo()

    def _is_noted_last(self) -> bool:
        """Tell whether what was noted here is what would be taken back now."""
        return bool(self._noted) and self._bridge.session.can_undo() == self._undoes

    # --- ways back ---------------------------------------------------------------------------

    def _look(self) -> None:
        self._at = _At.LOOKING
        self._mark = self._bridge.session.problem_mark()
        self._say(self.tr("Looking for ways back …"), "")
        self.go_on.setEnabled(False)
        self.desk.ask()

    def _follow(self) -> None:
        """Look anew where something was ticked or taken back meanwhile: the ways start elsewhere."""
        is_looked_at = self._at in (_At.LOOKING, _At.WAYS) and self.isVisible()
        if is_looked_at and self._bridge.session.problem_mark() != self._mark:
            self._noted = self._noted if self._is_noted_last() else ""
            self._look()

    def _show_ways(self, found: WaysBack) -> None:
        self._at = _At.WAYS
        back = self.tr("{0} Going back takes it back; leaving keeps it.")
        noted = back.format(self._noted) if self._noted else ""
        self._say(self._heading_of(found), above_html(found, noted, is_short=self._is_big))
        self._turn(self.ways, self.tr("Go this way") if found.ways else self.tr("Go on"))
        self.ways.show_found(found)

    def _heading_of(self, found: WaysBack) -> str:
        if found.ways:
            return self.tr("Ways back, the best first")
        is_amiss = found.stuck or found.mistakes
        return self.tr("No way back") if is_amiss else self.tr("Nothing is in the way")

    def _show_dates(self, found: WaysBack) -> None:
        """Show what each way does to the date as well."""
        if self._at is _At.WAYS:
            self.ways.show_found(found)

    def _refuse(self, why: str) -> None:
        self._show_ways(WaysBack(stuck=()))
        self._say(self.tr("No way back"), why)

    def _take_way(self) -> None:
        way = self.ways.way()
        if way is None:
            return
        self._at = _At.SETTLED
        said = self._bridge.session.way_back.choose(way)
        self._bridge.tell(said)
        if said.startswith(NOT_RECORDED):
            self._at = _At.WAYS
            self._say(self.heading.text(), said)
            return
        self._go_to_first()
        self._say(self.tr("On the way back"), said)
        self._turn(self.ways, self.tr("Go on"))
        self.ways.settle()
        self.settled.emit(said)

    def _go_to_first(self) -> None:
        """Have the first step of the way in hand, wherever one goes on from here."""
        chosen = self._bridge.session.way_back.chosen()
        if chosen and chosen[-1].steps:
            self._bridge.choose_steps(chosen[-1].steps[:1])

    # --- how it looks ------------------------------------------------------------------------

    def _say(self, heading: str, hint: str) -> None:
        self.heading.setText(heading)
        self.hint.setText(hint)
        self.hint.setVisible(bool(hint))
        announce(self.heading, heading)

    def _turn(self, to: QWidget, onward: str) -> None:
        """Show the answers or the ways, with the keyboard there."""
        self._pages.setCurrentWidget(to)
        self.go_on.setText(onward)
        self.go_on.setEnabled(True)
        (self.ways.table if to is self.ways else to).setFocus()

    def close_jobs(self) -> None:
        """Wait for what is still looked for."""
        self.desk.close()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.heading.setFont(heading_font(self.font()))
