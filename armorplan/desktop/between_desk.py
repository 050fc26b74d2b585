"""Asks which of two comes first, off the window's thread."""

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop


class BetweenDesk(QObject):
    """Names what can be asked of, and answers: ``named`` carries a tuple of ``WorkName``.

    ``told`` carries a ``BetweenTold``, and ``refused`` why there is no answer.
    """

    named = Signal(object)
    told = Signal(object)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._namer = Runner(self)
        self._namer.answered.connect(self.named)
        self._namer.failed.connect(self._refuse)
        self._asker = Runner(self)
        self._asker.answered.connect(self.told)
        self._asker.failed.connect(self._refuse)
        bridge.opened.connect(self._forget)

    def _forget(self) -> None:
        """Another build is shown: what is still on its way speaks of the former one."""
        self._namer.drop()
        self._asker.drop()

    def read_names(self) -> None:
        """Read what the build at the bench has that can be asked of."""
        asking = self._bridge.session.asking_between()
        self._namer.ask(lambda _report, _should_stop: asking.names())

    def ask(self, one: str, other: str) -> None:
        """Ask whether one comes before the other; an answer that was asked for before is dropped."""
        asking = self._bridge.session.asking_between()

        def work(_report: Report, _should_stop: ShouldStop) -> object:
            return asking.told(one, other)

        self._asker.ask(work)

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)

    def close(self) -> bool:
        """Wait for what is still asked; tell whether it ended in time."""
        return self._asker.close() and self._namer.close()
