"""Tells what a timer rings for: in words, by sound, in the task bar, and to the whole room."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QWidget

from armorplan.app.bells import Bell, BellKind
from armorplan.desktop.bell_glyphs import bell_word
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import CALM, SOUND, Settings
from armorplan.desktop.sounder import Sounder
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.edge_flash import EdgeFlash
from armorplan.desktop.widgets.tray import Tray
from armorplan.desktop.wording import of_build

URGENCY = (BellKind.CLOSES, BellKind.LATE, BellKind.WATCH, BellKind.DUE, BellKind.OPENS)
"""What is heard first where several ring: first what can still be saved."""
UNANSWERED_S = 15
"""From then on the window's rim joins in."""


def urgency(bell: Bell) -> tuple[int, str]:
    """Return a key by which the most urgent bell comes first; of the same kind, the oldest."""
    return URGENCY.index(bell.kind), f"{bell.at.isoformat()} {bell.id}"


def bell_heading(bell: Bell) -> str:
    """Say what rings in a few words: ``Time is up: Dry the strap``."""
    word = bell_word(bell.kind)
    return f"{word[:1].upper()}{word[1:]}: {of_build(bell.build_title, bell.title)}"


def bell_sentence(bell: Bell) -> str:
    """Say what rings, of a window in the sentence that names the step and its times."""
    if bell.kind not in (BellKind.OPENS, BellKind.CLOSES) or not bell.meaning:
        return bell_heading(bell)
    return of_build(bell.build_title, bell.meaning)


class Alarm(QObject):
    """Never sound alone: the timer's card fills and the notice says so as well."""

    def __init__(
        self, bridge: Bridge, ticker: Ticker, settings: Settings, sounder: Sounder, window: QWidget
    ) -> None:
        super().__init__(window)
        self._bridge = bridge
        self._ticker = ticker
        self._settings = settings
        self._window = window
        self._sounder = sounder
        self._said: frozenset[str] = frozenset()
        self._rim = EdgeFlash(window)
        self.tray = Tray(window)
        sounder.mute.connect(self._beep)
        ticker.rang.connect(self._ring)
        ticker.ticked.connect(self._look)

    @property
    def is_bright(self) -> bool:
        """Whether what flashes is bright now: by turns of a second, always with less motion."""
        if self._settings.value(CALM):
            return True
        return int(self._bridge.clock.now().timestamp()) % 2 == 0

    def quiet(self, timer: str = "") -> str:
        """Answer a timer that rings: this one, or the most urgent; return what to say."""
        ringing = sorted(self._ticker.ringing, key=urgency)
        chosen = [bell for bell in ringing if bell.timer == timer] or ringing
        if not chosen:
            return self.tr("No timer rings.")
        self._sounder.hush()
        return self._bridge.session.timing.hush(chosen[0].timer)

    def quiet_all(self) -> str:
        """Answer all that rings; return what to say."""
        ringing = self._ticker.ringing
        if not ringing:
            return self.tr("No timer rings.")
        self._sounder.hush()
        told = [self._bridge.session.timing.hush(bell.timer) for bell in ringing]
        return told[0] if len(told) == 1 else self.tr("Heard: {0} timers.").format(len(told))

    def close(self) -> None:
        """Be silent, and leave the desktop's tray."""
        self._sounder.close()
        self.tray.close()

    def _ring(self, bells: tuple[Bell, ...]) -> None:
        in_turn = sorted(bells, key=urgency)
        kinds = dict.fromkeys(bell.kind for bell in in_turn)
        self._sounder.ring(*kinds)
        QApplication.alert(self._window)
        fresh = [bell for bell in in_turn if bell.id not in self._said]
        self._said |= {bell.id for bell in fresh}
        if fresh:
            self._bridge.said.emit("  ".join(map(bell_sentence, fresh[:3])))
        first = in_turn[0]
        self.tray.tell(bell_heading(first), first.meaning or self.tr("A timer rings."))

    def _look(self) -> None:
        now = self._bridge.clock.now()
        waits = [(now - bell.at).total_seconds() for bell in self._ticker.ringing]
        long = any(wait_s >= UNANSWERED_S for wait_s in waits)
        self._rim.show_it(is_on=long, is_bright=self.is_bright)
        rows = self._ticker.rows
        self.tray.show_it(is_on=bool(rows), tip=rows[0].title if rows else "")

    def _beep(self) -> None:
        if self._settings.value(SOUND):
            QApplication.beep()
