"""Writes what a build taught into its pattern's next version, off the window's thread."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.app.next_version import Before
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner


class TeachingBench(Protocol):
    """What a build can teach its pattern. ``app.next_version.NextVersion`` fulfils it."""

    def title(self, session: BenchSession, step: str) -> str:
        """Return what a step is called; empty where there is none."""
        ...

    def befores(self, session: BenchSession, step: str) -> tuple[Before, ...]:
        """Return before which steps another may be put, the likeliest first."""
        ...

    def earlier(self, session: BenchSession, step: str, before: str) -> Callable[[], str]:
        """Return what writes that a step comes before another next time, in any thread."""
        ...

    def found(self, session: BenchSession) -> tuple[tuple[str, str], ...]:
        """Return what the fits showed: the fit's step, and what was found in words."""
        ...

    def correcting(self, session: BenchSession) -> Callable[[], str]:
        """Return what writes what the fits showed into the pattern, in any thread."""
        ...


class NextVersionDesk(QObject):
    """``told`` carries what was written, ``refused`` why nothing was.

    What is written is told even where another build was opened meanwhile: it is in the pattern.
    """

    told = Signal(str)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, bench: TeachingBench) -> None:
        super().__init__(bridge)
        self._bridge = bridge
        self._bench = bench
        self._writer = Runner(self)
        self._writer.answered.connect(self._tell)
        self._writer.failed.connect(self._refuse)

    @property
    def is_busy(self) -> bool:
        """Whether something is being written."""
        return self._writer.is_busy

    def title(self, step: str) -> str:
        """Return what a step is called; empty where there is none."""
        return self._bench.title(self._bridge.session, step)

    def befores(self, step: str) -> tuple[Before, ...]:
        """Return before which steps another may be put, the likeliest first."""
        return self._bench.befores(self._bridge.session, step)

    def found(self, fit: str) -> tuple[str, ...]:
        """Return in words what a fit showed."""
        told = self._bench.found(self._bridge.session)
        return tuple(words for step, words in told if step == fit)

    def earlier(self, step: str, before: str) -> None:
        """Write that a step comes before another from the next build on."""
        self._write(self._bench.earlier(self._bridge.session, step, before))

    def correct(self) -> None:
        """Write what the fits of the build showed into its pattern."""
        self._write(self._bench.correcting(self._bridge.session))

    def _write(self, work: Callable[[], str]) -> None:
        # One write is never heard no more because another one follows: it is refused.
        if self.is_busy:
            self.refused.emit(self.tr("Something is being written yet. Press again in a moment."))
        else:
            self._writer.ask(lambda _report, _should_stop: work())

    def _tell(self, said: str) -> None:
        self._bridge.said.emit(said)
        self.told.emit(said)

    def _refuse(self, error: Exception) -> None:
        said = str(error) or type(error).__name__
        self._bridge.said.emit(said)
        self.refused.emit(said)

    def close(self) -> None:
        """Wait for what is still being written."""
        self._writer.close()


def next_version_desk(bridge: Bridge) -> NextVersionDesk | None:
    """Return the desk of a bridge; ``None``: nothing can be written here."""
    return bridge.findChild(NextVersionDesk)
