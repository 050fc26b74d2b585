"""Looks through the dry fits of a pattern's builds off the window's thread, and keeps what is accepted."""

from collections.abc import Callable, Collection
from datetime import date
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.app.corrections_desk import Corrections, corrections_asked, keep_accepted
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.jobs import Runner
from armorplan.kernel.errors import ArmorplanError


class CorrectionsBench(Protocol):
    """What the page asks; ``PatternCorrections`` fulfils it."""

    def asking(self, session: BenchSession) -> Callable[[], Corrections]:
        """Return what looks through all builds of the pattern, in any thread."""
        ...

    def keep(self, asked: Corrections, keys: Collection[str], *, note: str, on: date) -> str:
        """Write what is accepted, in any thread; return what was kept. ArmorplanError: nothing was."""
        ...


class PatternCorrections:
    """Reads patterns as drafts."""

    def __init__(self, drafts: DraftReader) -> None:
        self._drafts = drafts

    def asking(self, session: BenchSession) -> Callable[[], Corrections]:
        """Return what looks through all builds of the pattern, in any thread."""
        return corrections_asked(session, self._drafts(session))

    def keep(self, asked: Corrections, keys: Collection[str], *, note: str, on: date) -> str:
        """Write what is accepted, in any thread; return what was kept. ArmorplanError: nothing was."""
        return keep_accepted(asked, keys, note=note, on=on)


class CorrectionsDesk(QObject):
    """``shown`` carries ``Corrections``, ``said`` a sentence, ``busy`` whether something is under way."""

    shown = Signal(object)
    said = Signal(str)
    busy = Signal(bool)

    def __init__(
        self, bridge: Bridge, bench: CorrectionsBench, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._bench = bench
        self._asker, self._keeper = Runner(self), Runner(self)
        self._asker.answered.connect(self.shown)
        self._keeper.answered.connect(self._tell_kept)
        for runner in (self._asker, self._keeper):
            runner.failed.connect(self._tell)
            runner.begun.connect(lambda: self.busy.emit(True))
            runner.ended.connect(lambda: self.busy.emit(self.is_busy))

    @property
    def is_busy(self) -> bool:
        """Whether builds are looked through, or something is written."""
        return self._asker.is_busy or self._keeper.is_busy

    def ask(self) -> None:
        """Look through the builds of the pattern at the bench."""
        try:
            work = self._bench.asking(self._bridge.session)
        except (ArmorplanError, TypeError) as error:
            self._tell(error)
            return
        self._asker.ask(lambda _report, _should_stop: work())

    def keep(self, asked: Corrections, keys: Collection[str], note: str) -> None:
        """Write what is accepted as the pattern's next version; one writing at a time."""
        if self._keeper.is_busy:
            return
        bench, on = self._bench, self._bridge.clock.now().astimezone(self._bridge.zone).date()
        self._keeper.ask(lambda _report, _should_stop: bench.keep(asked, keys, note=note, on=on))

    def _tell_kept(self, words: str) -> None:
        self._bridge.said.emit(words)
        self.said.emit(words)
        self.ask()

    def _tell(self, error: Exception) -> None:
        self.said.emit(str(error) or type(error).__name__)

    def close(self) -> bool:
        """Wait for what runs; tell whether it ended in time."""
        return all([self._asker.close(), self._keeper.close()])
