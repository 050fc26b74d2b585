"""The bench view: one step at a time over the whole window, read from where the maker stands."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bench_commits import BenchCommits
from armorplan.desktop.bench_content import LEAF_KEY, LONGER_KEY, BenchContent
from armorplan.desktop.bench_desk import FRESH_S, BenchDesk
from armorplan.desktop.bench_fits import BenchFits
from armorplan.desktop.bench_keys import BenchKeys
from armorplan.desktop.bench_layout import Band
from armorplan.desktop.bench_plan import BenchPlan
from armorplan.desktop.bench_said import BenchSaid
from armorplan.desktop.bench_shown import BenchShown
from armorplan.desktop.bench_verbs import Verb, key_name
from armorplan.desktop.bench_walk import WalkPage
from armorplan.desktop.bench_words import said_in_full
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import CALM, Settings
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.alarm import urgency
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.bench_leaves import BenchLeaves
from armorplan.desktop.widgets.bench_page import BenchPage
from armorplan.desktop.widgets.bench_panels import Asks
from armorplan.desktop.widgets.bench_sight import sight_of
from armorplan.desktop.widgets.bench_writing import capital_share
from armorplan.desktop.wording import clock_text

SETTING_KEY, EARLIER_KEY, FIT_KEY = "S", "E", "F"
"""Fits the view to the bench; has the step earlier next time; opens the whole of the dry fits."""
HELD_WITH = Qt.KeyboardModifier.KeypadModifier | Qt.KeyboardModifier.ShiftModifier
"""What may be held with a key of the view: with others it is a key of the window."""


class BenchView(QWidget):
    """Shows what the desk holds, and hands keys and presses on to it.

    ``left`` says that the maker goes back to the other views.
    """

    left = Signal()

    def __init__(
        self,
        bridge: Bridge,
        ticker: Ticker,
        settings: Settings,
        quiet: Callable[[], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("bench_view")
        self.setAccessibleName(self.tr("Bench view"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAutoFillBackground(True)
        self._bridge, self._ticker, self._settings = bridge, ticker, settings
        self._said = BenchSaid(bridge.clock)
        self.desk = BenchDesk(bridge, self)
        self.commits = BenchCommits(bridge, self)
        self.plan = BenchPlan(bridge, self)
        self._shown = BenchShown(bridge, self.desk, self.commits, self.plan)
        self.fits = BenchFits(bridge, self._is_read, self)
        self.page = BenchPage(bridge, self)
        self.leaves = BenchLeaves(bridge, self.desk, settings, self._is_read, self)
        self.keys = BenchKeys(self.desk, settings, _own_keys(self))
        self.page.foot.clicked.connect(quiet)
        self.page.plates.pressed.connect(self.desk.act)
        for signal in (self.desk.turned, self.commits.told, self.plan.told, self.fits.planned):
            signal.connect(self.refresh)
        self.page.resized.connect(self.refresh)
        self.desk.amiss_asked.connect(lambda _step: self.leaves.amiss(self.fits))
        bridge.said.connect(self._hear)
        ticker.ticked.connect(self._tick)

    # --- coming and going -------------------------------------------------------------------

    def come(self) -> None:
        """Come into sight with the step that is chosen, or where work begins."""
        self._said.clear()
        self.desk.begin()
        self.setFocus()

    def go(self) -> None:
        """Go out of sight."""
        self.leaves.panels.close()
        self.desk.end()

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned."""
        self.commits.close()
        self.fits.close()
        self.leaves.panels.end_jobs()

    # --- what is shown ----------------------------------------------------------------------

    def _body_px(self) -> int:
        """Return how large letters are wanted, in pixels."""
        return sight_of(self, self._settings).body_px(capital_share(self.font()))

    def content(self) -> BenchContent:
        """Return what is to be seen now."""
        return self._shown.content()

    def _is_read(self, page: WalkPage) -> bool:
        """Tell whether a page can be read at full size."""
        content = self._shown.with_page(page)
        return content is None or (
            self.page.laid_out(content, self._body_px(), rings=False).share >= 1
        )

    def refresh(self) -> None:
        """Show what there is to be seen anew, in letters that fit the distance."""
        if not self.desk.place.is_on:
            return
        self.desk.walk = self.fits.walk_of(self.desk.card)
        rings = bool(self._ticker.ringing)
        content = self.content()
        notice = said_in_full(self._said.text)
        wanted_px = self._body_px()
        self.page.show_content(content, wanted_px, rings=rings, notice=notice)
        laid = self.page.laid
        if laid is not None:
            for verb, plate in self.page.plates.by_verb.items():
                plate.show_key(self.keys.shown(verb), laid.body_px)
            head, foot = laid.boxes[Band.HEAD], laid.boxes[Band.FOOT]
            room = QRect(0, head.high, self.width(), foot.y - head.high)
            self.leaves.panels.take_room(room, min(laid.body_px, wanted_px))
        self._tick()

    def _tick(self) -> None:
        """Show what time alone changes."""
        if not self.desk.place.is_on:
            return
        clock, page = self._bridge.clock, self.page
        now = clock.now()
        page.head.show_clock(clock_text(now, now, self._bridge.zone))
        self.plan.lapse()
        is_high = said_in_full(self._said.text)
        if self._said.lapse() and is_high:
            self.refresh()
            return
        page.head.say(self._said.text)
        rings = sorted(self._ticker.ringing, key=urgency)
        is_calm = self._settings.value(CALM)
        is_bright = is_calm or int(now.timestamp()) % 2 == 0
        was_ringing = page.foot.isEnabled()
        page.foot.show_timers(self._ticker.rows, rings[0] if rings else None, is_bright=is_bright)
        if self.desk.leaf is not None:
            page.plates.show_words(self.desk.leaf.words(), is_going=False)
        fresh = 0.0 if self.desk.leaf else self.desk.fresh_s / FRESH_S
        page.plates.by_verb[Verb.TAKE_BACK].show_fresh(float(fresh > 0) if is_calm else fresh)
        if bool(rings) != was_ringing:
            self.refresh()

    def _hear(self, sentence: str) -> None:
        if self.desk.place.is_on and sentence:
            self._said.hear(sentence)
            announce(self, sentence)
            self.desk.turn()

    # --- keys -------------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.modifiers() & ~HELD_WITH:
            super().keyPressEvent(event)
        elif not event.isAutoRepeat():
            self.keys.press(key_name(event.key()))

    def leave(self) -> None:
        """Close what lies over the view; where nothing does, go back to the other views."""
        if self.desk.leaf is None:
            self.left.emit()
        else:
            self.leaves.close()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.page.setGeometry(self.rect())

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.PaletteChange):
            self.refresh()


def _own_keys(view: BenchView) -> dict[str, Callable[[], None]]:
    """Return what keys do that speak no verb."""
    leaves = view.leaves
    return {
        LEAF_KEY: lambda: leaves.read(view.commits),
        LONGER_KEY: view.desk.take_longer,
        SETTING_KEY: leaves.fit,
        EARLIER_KEY: lambda: leaves.ask(Asks.EARLIER),
        FIT_KEY: lambda: leaves.ask(Asks.FIT),
        "Esc": view.leave,
    }
