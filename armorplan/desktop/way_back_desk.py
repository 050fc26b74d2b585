"""Looks for ways back off the window's thread; what was asked of another state or build is dropped."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner


class WayBackDesk(QObject):
    """``found`` carries a ``WaysBack``, ``refused`` why there is none, ``busy`` whether it looks."""

    found = Signal(object)
    refused = Signal(str)
    busy = Signal(bool)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._asker = Runner(self)
        self._asker.begun.connect(lambda: self.busy.emit(True))
        self._asker.ended.connect(lambda: self.busy.emit(False))
        self._asker.answered.connect(self.found)
        self._asker.failed.connect(self._refuse)
        bridge.opened.connect(self.drop)

    @property
    def is_busy(self) -> bool:
        """Whether it looks for ways back."""
        return self._asker.is_busy

    def ask(self) -> None:
        """Look for the ways back from how the build stands now; what was asked before is dropped."""
        asking: Callable[[], object] = self._bridge.session.way_back.asking()
        self._asker.ask(lambda _report, _should_stop: asking())

    def drop(self) -> None:
        """Want no answer any more."""
        self._asker.drop()

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)

    def close(self) -> bool:
        """Wait for what is still asked; tell whether it ended in time."""
        return self._asker.close()
