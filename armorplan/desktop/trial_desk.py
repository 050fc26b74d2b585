"""Learns from a tool that was tried at the bench: asked, kept and laid out off the window's thread."""

from collections.abc import Callable
from typing import NamedTuple, Protocol

from PySide6.QtCore import QObject, Signal, SignalInstance

from armorplan.app.learned_reach import LearnedReach
from armorplan.app.session_protocol import BenchSession
from armorplan.app.trial_sheet import SetBefore, Trial
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.opening import Ready, chosen_again
from armorplan.kernel.errors import ArmorplanError


class TrialBench(Protocol):
    """Each returns at once what may then take its time, in any thread."""

    def sheet(self, session: BenchSession, step: str) -> Callable[[], Trial]:
        """Return what makes the sheet of a step, or of the whole build; ArmorplanError: no joints."""
        ...

    def keep(self, learned: LearnedReach) -> Callable[[], str]:
        """Return what keeps a trial and says so; ArmorplanError where it cannot be kept."""
        ...

    def go_on(self, session: BenchSession) -> Callable[[], Ready]:
        """Return what makes the same build ready with today's tools.

        It is started, and takes over ticks and timers, when it is laid on the bench.
        """
        ...


class _Kept(NamedTuple):
    """What was kept in words, at which build, and what starts it anew, reckoning with that."""

    session: BenchSession
    said: str
    ready: Ready


class Asked(NamedTuple):
    """What is said of a trial."""

    joint: str
    tool: str
    before: SetBefore
    did_reach: bool


class TrialDesk(QObject):
    """Holds the sheet of a step.

    ``shown`` carries a ``Trial``, ``unread`` why there is none, ``served`` a joint and the tool that
    gets to it best, ``told`` a ``TrialTold``, ``kept`` what was kept in words, and ``refused`` why
    nothing follows, or nothing was kept.
    """

    shown = Signal(object)
    unread = Signal(str)
    served = Signal(str, str)
    told = Signal(object)
    kept = Signal(str)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, bench: TrialBench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._bench = bench
        self._trial: Trial | None = None
        self._reader = self._runner(self._take, self.unread)
        self._server = self._runner(lambda found: self.served.emit(*found), self.refused)
        self._asker = self._runner(self.told.emit, self.refused)
        self._keeper = self._runner(self._lay_out, self.refused)
        bridge.opened.connect(self._forget)

    def _runner(self, answered: Callable[..., object], failed: SignalInstance) -> Runner:
        runner = Runner(self)
        runner.answered.connect(answered)
        runner.failed.connect(lambda error: failed.emit(str(error) or type(error).__name__))
        return runner

    @property
    def is_keeping(self) -> bool:
        """Whether something is being kept."""
        return self._keeper.is_busy

    def read(self, step: str) -> None:
        """Read the sheet of a step; of one that sets no joint that of the whole build."""
        work = self._bench.sheet(self._bridge.session, step)
        self._reader.ask(lambda _report, _should_stop: work())

    def ask_best(self, joint: str, before: SetBefore) -> None:
        """Ask which tool by the shapes gets to a joint best."""
        trial = self._trial
        if trial is not None:
            self._server.ask(lambda _report, _should_stop: (joint, trial.best(joint, before)))

    def ask(self, asked: Asked) -> None:
        """Ask what a trial teaches."""
        trial = self._trial
        if trial is None:
            return

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return trial.told(asked.joint, asked.tool, asked.before, did_reach=asked.did_reach)

        self._asker.ask(work)

    def keep(self, learned: LearnedReach) -> None:
        """Keep what was learned, and go on with the build with it."""
        if self._trial is None:
            return
        session = self._bridge.session
        write, make_ready = self._bench.keep(learned), self._bench.go_on(session)

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return _Kept(session, write(), make_ready())

        self._keeper.ask(work)

    def _take(self, trial: Trial) -> None:
        self._trial = trial
        self.shown.emit(trial)

    def _lay_out(self, kept: _Kept) -> None:
        """Lay the build that reckons with it on the bench, with the same chosen."""
        if self._bridge.session is not kept.session:
            later = self.tr(
                "Another build was opened meanwhile; builds started from now on count with it."
            )
            self._say(f"{kept.said} {later}")
            return
        try:
            session = kept.ready()
        except ArmorplanError as error:
            self.refused.emit(f"{kept.said} {error}")
            return
        chosen = self._bridge.selection.steps
        self._bridge.open(session)
        self._bridge.choose_steps(chosen_again(session, chosen))
        self._say(kept.said)

    def _say(self, said: str) -> None:
        self._bridge.said.emit(said)
        self.kept.emit(said)

    def _forget(self) -> None:
        """Another build is at the bench: its own sheet is read, if one was looked at."""
        former, self._trial = self._trial, None
        for runner in (self._reader, self._server, self._asker):
            runner.drop()
        if former is not None:
            again = chosen_again(self._bridge.session, (former.step,))
            self.read(next(iter(again), ""))

    def close(self) -> None:
        """Wait for what is under way."""
        for runner in (self._reader, self._server, self._asker, self._keeper):
            runner.close()
