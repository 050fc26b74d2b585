"""Opens another pattern: read off the window's thread, shown in it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from armorplan.app.rows import Grouping
from armorplan.app.session_protocol import BenchSession
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner
from armorplan.kernel.errors import ArmorplanError, UnreadableError
from armorplan.kernel.findings import Finding

Ready = Callable[[], BenchSession]
"""The quick second half of opening, called in the window's thread (it may hold a connection)."""
Reader = Callable[[Path, str], Ready]
"""The slow first half: reads a pattern folder; raises ``ArmorplanError`` where it cannot.

The second argument names the build whose work goes on in that folder; it may be empty.
"""

Resumer = Callable[[str], Ready]
"""Likewise for a build of the workshop, by its id, as it was started."""


def where_to_begin(session: BenchSession) -> tuple[str, ...]:
    """Return the first ready step, else the one under way that is due soonest, else none."""
    ready = session.ready_steps()
    if ready:
        return ready[:1]
    mine = (timer for timer in session.timers() if timer.step and not timer.build)
    due = [(t.due_at is None, t.due_at or t.as_of, t.step) for t in mine]
    return (min(due)[2],) if due else ()


def chosen_again(session: BenchSession, steps: tuple[str, ...]) -> tuple[str, ...]:
    """Return steps chosen in another build of the same pattern, as far as this one has them.

    Ids begin with the build; what follows says what a step is.
    """
    here = {
        row.id.partition("/")[2]: row.id
        for row in session.checklist(Grouping.PIECE)
        if row.steps == (row.id,)
    }
    return tuple(here[tail] for step in steps if (tail := step.partition("/")[2]) in here)


class Opener(QObject):
    """Opens pattern folders without holding up the window.

    ``refused`` carries the name of a folder that cannot be read, and its findings (a tuple, frozen).
    """

    refused = Signal(str, object)

    def __init__(
        self,
        bridge: Bridge,
        reader: Reader,
        parent: QObject | None = None,
        *,
        resumer: Resumer | None = None,
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._reader = reader
        self._resumer = resumer
        self._name = ""
        self._step = ""
        self._runner = Runner(self)
        self._runner.answered.connect(self._show)
        self._runner.failed.connect(self._refuse)

    def open(self, folder: Path, going_on: str = "") -> None:
        """Read a folder and show it; what is shown stays where it cannot be read.

        ``going_on`` names the build whose ticks and timers go on there.
        """
        reader = self._reader
        self._begin(folder.name, "")
        self._runner.ask(lambda _report, _should_stop: reader(folder, going_on))

    def open_build(self, build: str, step: str = "") -> None:
        """Show a build of the workshop as it was started, and choose a step of it."""
        resumer = self._resumer
        if resumer is None:
            self._bridge.said.emit(self.tr("There is no workshop here to open {0}.").format(build))
            return
        self._begin(build, step)
        self._runner.ask(lambda _report, _should_stop: resumer(build))

    def _begin(self, name: str, step: str) -> None:
        self._name, self._step = name, step
        self._bridge.said.emit(self.tr("Reading {0} …").format(name))

    def close(self) -> bool:
        """Wait for a reading under way; tell whether it ended in time."""
        return self._runner.close()

    def _show(self, ready: Ready) -> None:
        try:
            session = ready()
        except ArmorplanError as error:
            self._refuse(error)
            return
        self._bridge.open(session)
        if self._step:
            self._bridge.choose_steps((self._step,))
        self._bridge.said.emit(self.tr("Opened: {0}").format(session.title))

    def _refuse(self, error: Exception) -> None:
        findings: tuple[Finding, ...] = ()
        if isinstance(error, UnreadableError):
            findings = error.findings
        first = str(error).splitlines()[0] if str(error) else type(error).__name__
        self._bridge.said.emit(self.tr("Not opened: {0}. {1}").format(self._name, first))
        self.refused.emit(self._name, findings)
