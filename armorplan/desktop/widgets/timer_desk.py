"""What is done about timers in the window: answered, set, stopped, gone to, looked at."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import TimerRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.meant_drying import meant_drying
from armorplan.desktop.opening import Opener
from armorplan.desktop.settings import CALM, Settings
from armorplan.desktop.sounder import Sounder
from armorplan.desktop.timer_acts import Act, Asked
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.alarm import Alarm
from armorplan.desktop.widgets.learned_bar import LearnedBar
from armorplan.desktop.widgets.missed_desk import MissedDesk
from armorplan.desktop.widgets.timer_entry import TimerEntry
from armorplan.desktop.widgets.timer_strip import TimerStrip
from armorplan.desktop.wording import minutes_text, seconds_text

MORE_MIN = 5


class TimerDesk(QObject):
    """Holds the strip, the line to set a timer, and the alarm; each action of the menu is one call."""

    def __init__(
        self,
        bridge: Bridge,
        ticker: Ticker,
        settings: Settings,
        opener: Opener,
        window: QWidget,
    ) -> None:
        super().__init__(window)
        self._bridge = bridge
        self._ticker = ticker
        self._settings = settings
        self._opener = opener
        self._window = window
        self.missed = MissedDesk(bridge, opener, window)
        self._rows: tuple[TimerRow, ...] = ()
        self._page: LearnedBar | None = None
        self.sounder = Sounder(settings, parent=self)
        self.alarm = Alarm(bridge, ticker, settings, self.sounder, window)
        self.entry = TimerEntry(window)
        self.strip = TimerStrip(bridge, ticker, window)
        self._connect()

    def _connect(self) -> None:
        strip = self.strip
        strip.quiet_asked.connect(self.quiet)
        strip.set_asked.connect(self.entry.begin)
        strip.asked.connect(self._do)
        strip.dry_asked.connect(self.look)
        self.entry.wanted.connect(self._set)
        self._ticker.clock_set.connect(self._tell_clock)
        self._ticker.woke.connect(self.missed.tell)
        self._bridge.selected.connect(self._offer_look)
        self._ticker.ticked.connect(self._tick)

    def speak_of(self, page: LearnedBar) -> None:
        """Let looks be about the drying that is in sight on its page."""
        self._page = page
        page.turned.connect(self._offer_look)

    # What the menu does.

    def quiet(self) -> None:
        """Answer the timer with the keyboard, or the most urgent that rings."""
        self._say(self.alarm.quiet(self.strip.cards.focused))

    def quiet_all(self) -> None:
        """Answer all that rings."""
        self._say(self.alarm.quiet_all())

    def stop(self) -> None:
        """Stop the free timer with the keyboard, else the next that was set."""
        free = [row for row in self._ticker.rows if row.free]
        focused = self.strip.cards.focused
        chosen = [row for row in free if row.id == focused] or free
        if chosen:
            self._stop(chosen[0])
        else:
            self._say(self.tr("No timer was set by hand. F12 sets one."))

    def look(self, is_dry: bool) -> None:
        """Say of the drying that is meant that it feels dry, or still damp."""
        step = self._looked_at()
        if step:
            self._bridge.look(step, dry=is_dry)
        else:
            self._say(self.tr("Choose a drying that is under way first."))

    def louder(self, steps: int) -> None:
        """Make timers louder, or softer."""
        self._say(self.sounder.grow(steps))

    def demonstrate(self) -> None:
        """Let the five sounds be heard."""
        self._say(self.sounder.demonstrate())

    def turn_sound(self, is_on: bool) -> None:
        """Let timers be heard, or only be seen."""
        self.sounder.turn(is_on=is_on)

    def be_calm(self, is_calm: bool) -> None:
        """Let what rings stand still, or change its look each second."""
        self._settings.put(CALM, is_calm)

    # What follows.

    def _do(self, asked: Asked) -> None:
        row = asked.row
        {
            Act.GO: self.go_to,
            Act.HUSH: lambda _row: self._say(self.alarm.quiet(row.id)),
            Act.DRY: lambda _row: self._bridge.look(row.step, dry=True),
            Act.DAMP: lambda _row: self._bridge.look(row.step, dry=False),
            Act.MORE: self._lengthen,
            Act.PAUSE: self._pause,
            Act.STOP: self._stop,
        }[asked.act](row)

    def go_to(self, row: TimerRow) -> None:
        """Choose a timer's step; another build's is opened for it."""
        if row.build:
            self._opener.open_build(row.build, row.step)
        elif row.step:
            self._bridge.choose_steps((row.step,))
        else:
            self._say(self.tr("{0}: set by hand, for no step.").format(row.title))

    def farewell(self) -> str:
        """Say what goes on while the program is closed; empty where nothing does."""
        rows = [row for row in self._ticker.rows if row.due_at is not None]
        if not rows:
            return ""
        told = self.tr("Armorplan is closed. A timer goes on: {0}.").format(rows[0].title)
        if len(rows) > 1:
            told = self.tr("Armorplan is closed. {0} timers go on.").format(len(rows))
        return told + " " + self.tr("It rings only while it is open; what passes is told then.")

    def close(self) -> None:
        """Be silent, and out of sight."""
        self.alarm.close()
        self.missed.close()

    def _set(self, minutes: float, title: str) -> None:
        named = title or self.tr("Timer of {0}").format(seconds_text(round(60 * minutes)))
        self._say(self._bridge.session.timing.set_timer(minutes, named))

    def _pause(self, row: TimerRow) -> None:
        if row.free:
            self._say(self._bridge.session.timing.pause_timer(row.id))
        else:
            self._bridge.pause((row.step,))

    def _lengthen(self, row: TimerRow) -> None:
        if row.free:
            self._say(self._bridge.session.timing.add_minutes(row.id, MORE_MIN))
        else:
            self._say(
                self.tr("{0}: only a timer set by hand can be lengthened.").format(row.title)
            )

    def _stop(self, row: TimerRow) -> None:
        if row.free:
            self._say(self._bridge.session.timing.stop_timer(row.id))
        else:
            self._say(self.tr("{0}: it ends when its step is ticked.").format(row.title))

    def _looked_at(self) -> str:
        return meant_drying(
            self._ticker.rows,
            focused=self.strip.cards.focused,
            shown=self._page.shown_step if self._page else "",
            chosen=self._bridge.selection.steps,
            may_look=self._bridge.session.drying.may_look,
        )

    def _tick(self) -> None:
        self.strip.show_brightness(is_bright=self.alarm.is_bright)
        if self._ticker.rows is not self._rows:
            self._rows = self._ticker.rows
            self._offer_look()

    def _offer_look(self, *_selection: object) -> None:
        self.strip.offer_look(is_on=bool(self._looked_at()))

    def _tell_clock(self, ahead_s: float) -> None:
        minutes = round(abs(ahead_s) / 60)
        if not minutes:
            return
        way = self.tr("ahead") if ahead_s > 0 else self.tr("back")
        self._say(
            self.tr("The computer's clock was set {0} by {1}. The timers were read again.").format(
                way, minutes_text(minutes)
            )
        )

    def _say(self, sentence: str) -> None:
        self._bridge.said.emit(sentence)
