"""Looks for ways back off the window's thread; what was asked of another state or build is dropped."""

from PySide6.QtCore import QObject, Signal

from armorplan.app.way_back_rows import WaysBack
from armorplan.desktop.bridge import Bridge, solve_with
from armorplan.desktop.jobs import Report, Runner, ShouldStop


class WayBackDesk(QObject):
    """``found`` carries a ``WaysBack``, ``refused`` why there is none, ``busy`` whether it looks.

    ``dated`` carries the same ways each time it is known of one more what it does to the date.
    """

    found = Signal(object)
    dated = Signal(object)
    refused = Signal(str)
    busy = Signal(bool)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._asker = Runner(self)
        self._asker.begun.connect(lambda: self.busy.emit(True))
        self._asker.ended.connect(lambda: self.busy.emit(False))
        self._asker.answered.connect(self._take)
        self._asker.failed.connect(self._refuse)
        self._dater = Runner(self)
        self._dater.better.connect(self.dated)
        bridge.opened.connect(self.drop)

    @property
    def is_busy(self) -> bool:
        """Whether it looks for ways back."""
        return self._asker.is_busy

    def ask(self) -> None:
        """Look for the ways back from how the build stands now; what was asked before is dropped."""
        self._dater.drop()
        stops: list[ShouldStop] = []
        solve = solve_with(self._bridge.solver, lambda: any(stop() for stop in stops))
        asking = self._bridge.session.way_back.asking(solve)

        def work(_report: Report, should_stop: ShouldStop) -> object:
            stops.append(should_stop)
            return asking()

        self._asker.ask(work)

    def drop(self) -> None:
        """Want no answer any more."""
        self._asker.drop()
        self._dater.drop()

    def _take(self, found: WaysBack) -> None:
        """Tell the ways at once; what they do to the date takes some plans."""
        self.found.emit(found)
        if found.ways:
            dates = self._bridge.session.way_back.dating(found)

            def work(report: Report, should_stop: ShouldStop) -> None:
                for dated in dates.told(should_stop):
                    report(dated)

            self._dater.ask(work)

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)

    def close(self) -> bool:
        """Wait for what is still asked; tell whether it ended in time."""
        return self._asker.close() and self._dater.close()
