"""Lets a kind of moment be heard, off the window's thread; the same sound never twice at once."""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from armorplan.app.bells import BellKind
from armorplan.desktop.bell_glyphs import bell_word
from armorplan.desktop.jobs import Runner
from armorplan.desktop.playing import ShouldStop, Way, play, ways
from armorplan.desktop.settings import LOUDNESS_PCT, SOUND, Settings
from armorplan.desktop.sounds import wav

STEP_PCT = 20


class Sounder(QObject):
    """Plays as the settings say; ``mute`` tells that this machine has no way to play."""

    mute = Signal()

    def __init__(
        self, settings: Settings, known: Iterable[Way] | None = None, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._settings = settings
        self._known = list(ways() if known is None else known)
        self._runner = Runner(self)
        self._runner.answered.connect(self._hear)

    def ring(self, *kinds: BellKind) -> None:
        """Play the sounds of these kinds in turn, unless sound is off or the former still plays."""
        if not self._settings.value(SOUND) or self._runner.is_busy:
            return
        if not self._known:
            self.mute.emit()
            return
        loudness_pct, known = self._settings.value(LOUDNESS_PCT), self._known

        def work(_report: object, should_stop: ShouldStop) -> bool:
            return all(play(wav(k, loudness_pct), should_stop, known) for k in kinds)

        self._runner.ask(work)

    def hush(self) -> None:
        """End what plays."""
        self._runner.drop()

    def turn(self, *, is_on: bool) -> None:
        """Turn sound on or off, for all timers."""
        self._settings.put(SOUND, is_on)
        if not is_on:
            self.hush()

    def grow(self, steps: int) -> str:
        """Make timers louder or softer by steps, let it be heard, and say how loud."""
        wanted = self._settings.value(LOUDNESS_PCT) + steps * STEP_PCT
        if LOUDNESS_PCT.allows(wanted):
            self._settings.put(LOUDNESS_PCT, wanted)
        loudness_pct = self._settings.value(LOUDNESS_PCT)
        if not self._settings.value(SOUND):
            return self.tr("Sound of timers: {0} %, but it is off.").format(loudness_pct)
        self.hush()
        self.ring(BellKind.DUE)
        return self.tr("Sound of timers: {0} %").format(loudness_pct)

    def demonstrate(self) -> str:
        """Let every sound be heard in turn, and say what each of them tells."""
        if not self._settings.value(SOUND):
            return self.tr("Sound of timers is off. Ctrl+Shift+S turns it on.")
        self.hush()
        self.ring(*BellKind)
        return self.tr("In turn: {0}.").format("; ".join(map(bell_word, BellKind)))

    def close(self) -> bool:
        """End what plays, and wait for it."""
        return self._runner.close()

    def _hear(self, was_heard: object) -> None:
        if not was_heard:
            self.mute.emit()
