"""The window: checklist beside the pictures of the build, timers always in sight."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent, QResizeEvent
from PySide6.QtWidgets import QMainWindow, QSplitter, QVBoxLayout, QWidget

from armorplan.app.rows import Grouping
from armorplan.app.wishes import Wishes
from armorplan.desktop.air_desk import AirBench, AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.opening import Opener, Reader, Resumer, where_to_begin
from armorplan.desktop.planning import PlanDesk, Planner
from armorplan.desktop.settings import (
    ACROSS,
    ALL_MARKS,
    CALM,
    DOWN,
    GROUPING,
    READY_ONLY,
    SOUND,
    WINDOW_PLACE,
    Setting,
    Settings,
)
from armorplan.desktop.strip_fields import StripBench
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.tonight_desk import TonightDesk
from armorplan.desktop.trial_desk import TrialBench
from armorplan.desktop.widgets.bench_door import BenchDoor
from armorplan.desktop.widgets.bench_view import BenchView
from armorplan.desktop.widgets.beside_week import BesideWeek
from armorplan.desktop.widgets.checklist_panel import ChecklistPanel
from armorplan.desktop.widgets.deck import Deck
from armorplan.desktop.widgets.edit_door import EditDoor
from armorplan.desktop.widgets.findings_view import FindingsView
from armorplan.desktop.widgets.looks import Looks
from armorplan.desktop.widgets.notice_line import NoticeLine
from armorplan.desktop.widgets.pattern_doors import PatternDoors
from armorplan.desktop.widgets.plan_bar import PlanBar
from armorplan.desktop.widgets.savers import savers_of
from armorplan.desktop.widgets.timer_desk import TimerDesk
from armorplan.desktop.widgets.window_actions import Switch, WindowActions
from armorplan.desktop.widgets.window_pages import Benches, WindowPages
from armorplan.desktop.widgets.window_slots import Panels, slots_of
from armorplan.desktop.widgets.workshop_keeping import StoreBench, WorkshopKeeping
from armorplan.desktop.window_place import bytes_of, hex_of, within
from armorplan.workshop.shelf import Shelf

USUAL_SIZE_PX = (1280, 800)
USUAL_SHARES_PX = (580, 700)
LOW_PX = 700
"""A window lower than this has its lines for the work."""
ASKING_PX = 1000
"""The same while it is asked which of two comes first: picture and answer are both looked at.

The week has a row for each person and thing that dries; it has the room, too. Reach over the parts has the room of the findings, too."""
LEAST_WIDE_PX = 700
"""Fits, framed, a screen of 1440 by 900 at a scale of 2; how low it can be the panels tell."""


class Means(NamedTuple):
    """What the window works with, made by the command line."""

    settings: Settings
    planner: Planner
    reader: Reader
    samples: tuple[Path, ...]
    log_path: Path
    drafts: DraftReader | None = None
    strips: StripBench | None = None
    trials: TrialBench | None = None
    airs: AirBench | None = None
    resumer: Resumer | None = None
    wishes: Wishes | None = None
    store: StoreBench | None = None
    shelf: Callable[[], Shelf] | None = None


class MainWindow(QMainWindow):
    """Lays out the panels, and hands every action on to the one that does it."""

    def __init__(self, bridge: Bridge, means: Means) -> None:
        super().__init__()
        self.setObjectName("main_window")
        self._bridge = bridge
        self._settings = means.settings
        self._looks = Looks(means.settings)
        self.desk = PlanDesk(bridge, means.planner, self)
        self._tonight = TonightDesk(bridge, self.desk, means.wishes, self)
        self._savers = savers_of(bridge, self)
        self._opener = Opener(bridge, means.reader, self, resumer=means.resumer)
        ticker = Ticker(bridge, self)
        self.keeping = WorkshopKeeping(bridge, means.store, self._opener, ticker, self)
        self._checklist = ChecklistPanel(bridge, ticker, self)
        self._deck = Deck(bridge, self)
        airs = AirDesk(bridge, means.airs, self) if means.airs else None
        benches = Benches(
            means.strips, means.trials, airs, means.wishes, means.drafts, means.settings
        )
        self._pages = WindowPages(bridge, means.log_path, benches, self)
        self._lead_on()
        if airs is not None:
            self._work_in_air(airs, ticker)
        self._edit = EditDoor(bridge, means.drafts, self._opener, self)
        self._own = PatternDoors(bridge, self._opener, means.shelf, means.drafts, self)
        self._plan_bar = PlanBar(bridge, self.desk, self)
        self._findings = FindingsView(bridge, self)
        self.timing = TimerDesk(bridge, ticker, means.settings, self._opener, self)
        self.timing.speak_of(self._deck.drying.learned)
        self._split = QSplitter(Qt.Orientation.Horizontal, self)
        self._beside_week = BesideWeek(self._split, self._deck)
        self._bench = self._bench_door(ticker)
        self.setStatusBar(NoticeLine(bridge, self))
        self.actions_by_id = WindowActions(self, slots_of(self._panels()), self._switches())
        self._bench.keep(self.actions_by_id)
        self.actions_by_id.add_samples(means.samples, self._opener.open)
        self._plan_bar.details.toggled.connect(self.actions_by_id["plan_details"].setChecked)
        self._opener.refused.connect(self._findings.show_refused)
        bridge.changed.connect(self._name_undo)
        bridge.opened.connect(self._begin_build)
        self._restore()
        self._deck.turned.connect(self._turn)
        self._begin_build()

    def _work_in_air(self, airs: AirDesk, ticker: Ticker) -> None:
        self._deck.drying.work_with(airs)
        ticker.ticked.connect(airs.read_along)

    def _lead_on(self) -> None:
        """Have the pictures lead on to the pages they tell of."""
        self._deck.between.tried.connect(self._pages.show_trial)
        self._deck.drying.air.clicked.connect(self._pages.show_air)
        self._deck.week.opening.connect(self._opener.open_build)

    def _lay_out(self) -> QWidget:
        """Return the usual panels, laid out."""
        self._split.setObjectName("across")
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(self._checklist)
        self._split.addWidget(self._deck)
        self._split.setStretchFactor(0, 5)
        self._split.setStretchFactor(1, 6)
        middle = QWidget(self)
        down = QVBoxLayout(middle)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(2)
        for panel in (self._plan_bar, self._findings):
            down.addWidget(panel)
        down.addWidget(self._split, 1)
        down.addWidget(self.timing.entry)
        down.addWidget(self.timing.strip)
        self._plan_bar.follow(self._tonight)
        self._deck.week.kept.connect(self._plan_bar.say)
        return middle

    def _bench_door(self, ticker: Ticker) -> BenchDoor:
        """Return what comes into the bench view, and goes back to the usual panels."""
        view = BenchView(self._bridge, ticker, self._settings, self.timing.quiet, self)
        view.plan.follow(self.desk, self._plan_bar.surety)
        door = BenchDoor(self, self._lay_out(), view, self._settings)
        self.keeping.lay_out(door.turned)
        return door

    def _panels(self) -> Panels:
        return Panels(
            window=self,
            bridge=self._bridge,
            desk=self.desk,
            checklist=self._checklist,
            deck=self._deck,
            timing=self.timing,
            findings=self._findings,
            looks=self._looks,
            pages=self._pages,
            edit=self._edit,
            own=self._own,
            tonight=self._tonight,
            savers=self._savers,
            keeping=self.keeping,
            bench=self._bench,
        )

    def _switches(self) -> dict[str, Switch]:
        """What each action that is on or off does."""
        return {
            "plan_details": self._plan_bar.details.setChecked,
            "ready_only": self._keeping(READY_ONLY, self._checklist.set_ready_only),
            "all_marks": self._keeping(ALL_MARKS, self._deck.parts.canvas.draw_all_marks),
            "reach_shown": self._deck.show_reach,
            "by_day": self._set_by_day,
            "sound_on": self.timing.turn_sound,
            "less_motion": self.timing.be_calm,
        }

    def _begin_build(self) -> None:
        """Name the window after the build, and choose what was chosen or where work begins."""
        self.setWindowTitle(self._bridge.session.title)
        self._name_undo()
        begin = self._edit.way_back() or where_to_begin(self._bridge.session)
        self._bridge.choose_steps(begin)
        # A build that is opened from the week, or read while one looks at it, leaves it the keys.
        if not self._deck.week.isAncestorOf(self.focusWidget()):
            self._checklist.view.setFocus()

    def _name_undo(self) -> None:
        """Say in menus what would be taken back or restored."""
        session = self._bridge.session
        for action_id, text, what in (
            ("take_back", self.tr("Take back"), session.can_undo()),
            ("restore", self.tr("Restore"), session.can_redo()),
        ):
            action = self.actions_by_id[action_id]
            button = action.iconText()
            action.setText(f"{text}: {what}" if what else text)
            action.setIconText(button)
            action.setEnabled(bool(what))

    def _keeping(self, setting: Setting[bool], switch: Switch) -> Switch:
        """Return a switch that is remembered."""

        def turn(wanted: bool) -> None:
            self._settings.put(setting, wanted)
            switch(wanted)

        return turn

    def _set_by_day(self, wanted: bool) -> None:
        self._checklist.set_grouping(grouping := Grouping.DAY if wanted else Grouping.PIECE)
        self._settings.put(GROUPING, grouping.value)

    def _restore(self) -> None:
        """Bring back what the person left: place, shares, filters."""
        self.setMinimumWidth(LEAST_WIDE_PX)
        self.resize(*USUAL_SIZE_PX)
        self._split.setSizes(list(USUAL_SHARES_PX))
        settings = self._settings
        self.restoreGeometry(bytes_of(settings.value(WINDOW_PLACE)))
        if not self.isMaximized() and not self.isFullScreen():
            place = within(self.geometry(), self.screen().availableGeometry())
            self._make_room(place.height())
            self.setGeometry(place)
        self._split.restoreState(bytes_of(settings.value(ACROSS)))
        self._deck.take_heights(bytes_of(settings.value(DOWN)))
        for action_id, setting in (
            ("ready_only", READY_ONLY),
            ("all_marks", ALL_MARKS),
            ("sound_on", SOUND),
            ("less_motion", CALM),
        ):
            self.actions_by_id[action_id].setChecked(settings.value(setting))
        self.actions_by_id["by_day"].setChecked(settings.value(GROUPING) == Grouping.DAY.value)

    def _make_room(self, high_px: int) -> None:
        """In a low window, or beside an answer, lines that are glanced at leave the room to the work."""
        is_low = high_px < LOW_PX
        is_short = high_px < ASKING_PX
        is_tight = is_low or (is_short and (self._deck.is_asking or self._deck.is_week))
        is_looking = is_short and self._deck.parts.closing_desk.is_on
        for panel in (self._plan_bar, self._deck.parts.closing_bar):
            panel.make_room(is_tight=is_tight)
        self._findings.make_room(is_tight=is_tight or is_looking)
        self.timing.strip.make_room(is_low=is_low)

    def _turn(self) -> None:
        """Share the room anew for what is looked at now."""
        self._make_room(self.height())
        self._beside_week.look()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room(self.height())

    def closeEvent(self, event: QCloseEvent) -> None:
        if not self._edit.may_leave():
            event.ignore()
            return
        self._bench.close()
        self._settings.put(WINDOW_PLACE, hex_of(self.saveGeometry()))
        self._settings.put(ACROSS, hex_of(self._beside_week.usual()))
        self._settings.put(DOWN, hex_of(self._deck.heights()))
        self.keeping.close()
        self.desk.close()
        self._tonight.close()
        self._plan_bar.end_jobs()
        self._savers.end_jobs()
        self.timing.close()
        self._edit.close()
        self._own.close()
        self._opener.close()
        self._deck.end_jobs()
        self._pages.end_jobs()
        super().closeEvent(event)
