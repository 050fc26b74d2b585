"""Practice: who practises above; an exercise, how far they are, and what they may do, in three tabs."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QHideEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QLabel, QTabWidget, QVBoxLayout, QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_answer import DrillPane
from armorplan.desktop.widgets.drill_answer_foot import At
from armorplan.desktop.widgets.drill_answer_pieces import Pieces, real_pieces
from armorplan.desktop.widgets.drill_page_asked import AskedBar
from armorplan.desktop.widgets.drill_page_asking import Asking, Choosing
from armorplan.desktop.widgets.drill_page_who import WhoField
from armorplan.desktop.widgets.drill_progress import ProgressPane
from armorplan.desktop.widgets.drill_skills import SkillsPane
from armorplan.desktop.widgets.practice_saver import PracticeSaver
from armorplan.desktop.widgets.tab_letters import TabLetters
from armorplan.kernel.errors import ArmorplanError

HELP_PAGE = "practice"


class PracticePanel(QWidget):
    """Worked by ``begin`` and ``asking``; ``left`` says that it is done with."""

    left = Signal()

    def __init__(
        self,
        bridge: Bridge,
        *,
        pieces: Pieces | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("practice")
        self._bridge = bridge
        self._is_stale = True
        self.who = WhoField(self)
        self.said = QLabel(self)
        self.tabs = QTabWidget(self)
        self.exercise = QWidget(self)
        self.bar = AskedBar(self.exercise)
        self.pane = DrillPane(bridge, self.exercise, pieces or real_pieces())
        self.progress = ProgressPane(bridge, self)
        self.skills = SkillsPane(bridge, self)
        self.saver = PracticeSaver(bridge, self)
        choosing = Choosing(self.who, self.bar, self.pane)
        self.asking = Asking(bridge, choosing, self._is_choosing, self)
        self._lay_out()
        self._connect()
        AltLetters(self)

    def _lay_out(self) -> None:
        self.said.setObjectName("practice_said")
        self.said.setAccessibleName(self.tr("What was said"))
        self.said.setWordWrap(True)
        self.tabs.setObjectName("practice_tabs")
        self.tabs.setAccessibleName(self.tr("Practice"))
        down = QVBoxLayout(self.exercise)
        down.addWidget(self.bar)
        down.addWidget(self.pane, 1)
        self.tabs.addTab(self.exercise, self.tr("&Exercise"))
        self.tabs.addTab(self.progress, self.tr("Pr&ogress"))
        self.tabs.addTab(self.skills, self.tr("Signed o&ff"))
        whole = QVBoxLayout(self)
        # Beside the name, so that nothing moves when something is said.
        top = QHBoxLayout()
        top.addWidget(self.who)
        top.addWidget(self.said, 1)
        top.addWidget(self.bar.sheet)
        whole.addLayout(top)
        whole.addWidget(self.tabs, 1)

    def _connect(self) -> None:
        self.who.changed.connect(self._change_person)
        for above in (self.who, self.bar):
            above.taken.connect(self.go_on)
        TabLetters(self.tabs).taken.connect(self.go_on)
        QShortcut(QKeySequence(QKeySequence.StandardKey.HelpContents), self, self._help)
        self.asking.said.connect(self._say)
        self.asking.sheet_asked.connect(self.saver.ask_sheet)
        self.progress.paper_wanted.connect(self.saver.ask_page)
        self.saver.says.connect(self._say)
        self.tabs.currentChanged.connect(self._turn_tab)
        for pane in (self.pane, self.progress, self.skills):
            pane.said.connect(self._say)
        for led in (self.pane.led, self.progress.led):
            led.connect(self._bridge.help_wanted)
        self._bridge.changed.connect(self._follow)
        self._bridge.opened.connect(self._begin_anew)

    # --- the verbs ---------------------------------------------------------------------------

    def begin(self) -> None:
        """Go on with the exercise that is asked; begin one where there is none of this build."""
        self._offer()
        was_dropped = self.pane.at is At.LOOKING and not self.pane.desk.is_busy
        if self._is_stale or was_dropped:
            self._is_stale = False
            self.asking.ask()
            self.asking.stays_above = not self.who.person
            if not self.who.person:
                self.who.box.setFocus()
        else:
            self._take_keys()
        self._show_tab()

    def go_on(self) -> None:
        """Give the keyboard to what a tab is about; of an exercise still being set, once it is."""
        self.asking.stays_above = False
        self._take_keys()

    def close_jobs(self) -> None:
        """Keep what is answered, and wait for what is under way."""
        self.pane.finish()
        self.pane.settle()
        # Nothing is asked anew from here: a page that was closed goes with its panel.
        self.pane.forget()
        self.pane.desk.close()
        self.progress.close_jobs()
        self.skills.close_jobs()
        self.saver.end_jobs()

    # --- who and what ------------------------------------------------------------------------

    def _offer(self) -> None:
        practice = self._bridge.session.practice
        self.bar.offer(practice)
        try:
            self.who.offer(practice.people(), who=practice.who)
        except ArmorplanError as error:
            self._say(str(error))

    def _change_person(self) -> None:
        self._show_tab()
        self.asking.ask()

    def _turn_tab(self) -> None:
        """What was said in another tab is said no more."""
        self._say(self._bridge.session.practice.why_not_kept)
        self._show_tab()
        if not self.tabs.tabBar().hasFocus():
            self._take_keys()

    def _is_choosing(self) -> bool:
        """Tell whether one is still choosing what to practise: the keyboard stays there then."""
        held = self.focusWidget()
        is_above = self.bar.isAncestorOf(held) or self.who.isAncestorOf(held)
        return is_above or self.tabs.currentWidget() is not self.exercise

    def _take_keys(self) -> None:
        """Give the keyboard to what a tab is about."""
        shown = self.tabs.currentWidget()
        if isinstance(shown, ProgressPane | SkillsPane):
            shown.table.setFocus()
        elif self.pane.view.asked_form is not None:
            self.pane.view.begin()
        else:
            # Nothing is typed into a field above while an exercise is being set.
            self.pane.setFocus()

    def _show_tab(self) -> None:
        """Show a tab of who practises as things stand now."""
        shown = self.tabs.currentWidget()
        if not isinstance(shown, ProgressPane | SkillsPane):
            return
        self.pane.settle()
        shown.show_person(self.who.person, self.who.name)

    def _follow(self) -> None:
        """Something was done at the bench, or kept: what is shown of it stands anew."""
        if self.isVisible() and self.tabs.currentWidget() is not self.exercise:
            self._show_tab()

    def _begin_anew(self) -> None:
        """Another build is shown: what is answered of the former one is kept where it was set."""
        self.pane.settle()
        for pane in (self.pane, self.progress, self.skills):
            pane.forget()
        self.asking.forget()
        self._is_stale = True
        if self.isVisible():
            self.begin()

    def _help(self) -> None:
        self._bridge.help_wanted.emit(HELP_PAGE)

    def _say(self, sentence: str) -> None:
        usual = self.tr("A new name may be typed.")
        if not self.who.person:
            usual = self.tr("Nothing is kept until it is said who practises.")
        self.said.setText(sentence or usual)
        announce(self.said, sentence)

    def hideEvent(self, event: QHideEvent) -> None:
        # A window that is only minimized comes back to the question.
        if not event.spontaneous():
            self.pane.settle()
        super().hideEvent(event)
