"""Begins what is left of a shop's orders once its first build is shown, off the window's thread."""

from collections.abc import Callable

from PySide6.QtCore import QObject

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop

Later = Callable[[ShouldStop], None]
"""Begins builds one by one, each kept whole; the session reads along what is there by then."""


class Beginner(QObject):
    """Runs it once; what cannot be begun is among the findings of the session then."""

    def __init__(self, bridge: Bridge, later: Later, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._later = later
        self._runner = Runner(self)
        self._runner.answered.connect(self._show)
        self._runner.failed.connect(self._tell)

    def begin(self) -> None:
        """Begin the other builds."""
        later = self._later

        def work(_report: Report, should_stop: ShouldStop) -> object:
            later(should_stop)
            return None

        self._bridge.said.emit(self.tr("The other builds of this shop are being read."))
        self._runner.ask(work)

    def close(self) -> bool:
        """Leave those that are not begun for another time; tell whether the thread ended in time."""
        return self._runner.close()

    def _show(self) -> None:
        self._bridge.read_along()
        self._bridge.changed.emit()
        self._bridge.said.emit(self.tr("All builds of this shop are read."))

    def _tell(self, error: Exception) -> None:
        why = str(error).rstrip(".") or type(error).__name__
        self._bridge.said.emit(
            self.tr("The other builds of this shop could not be begun: {0}.").format(why)
        )
