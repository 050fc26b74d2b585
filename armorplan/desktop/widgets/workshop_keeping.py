"""What the window does about the workshop file itself: whose turn it is to write, and its backups."""

from typing import NamedTuple

from PySide6.QtCore import QObject, Qt, SignalInstance
from PySide6.QtWidgets import QMainWindow, QVBoxLayout, QWidget

from armorplan.desktop.backup_watch import BackupWatch
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.opening import Opener
from armorplan.desktop.reading_along import ReadingAlong, WritingTurn
from armorplan.desktop.restore_desk import BackupBench, RestoreDesk
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.bringing_up import bring_up
from armorplan.desktop.widgets.reading_bar import ReadingBar
from armorplan.desktop.widgets.restore_page import RestorePage


class StoreBench(NamedTuple):
    """The workshop file as the command line hands it to the window."""

    turn: WritingTurn
    backups: BackupBench


class WorkshopKeeping(QObject):
    """Looks once a second; a window without a workshop file says so."""

    def __init__(
        self,
        bridge: Bridge,
        bench: StoreBench | None,
        opener: Opener,
        ticker: Ticker,
        parent: QMainWindow,
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._window = parent
        self._page: RestorePage | None = None
        self._reading = ReadingAlong(bridge, bench.turn, self) if bench else None
        self._watch = (
            BackupWatch(bridge, bench.backups, self._reading, opener, self)
            if bench and self._reading
            else None
        )
        self._restoring = RestoreDesk(bench.backups, bridge.zone, self) if bench else None
        if self._reading is not None and self._watch is not None and self._restoring is not None:
            self._watch.made.connect(self._restoring.read)
            ticker.ticked.connect(self._reading.look)
            ticker.ticked.connect(self._watch.look)

    def lay_out(self, turned: SignalInstance) -> None:
        """Put the bar of a window that reads along above all that the window shows.

        ``turned`` says whether that is the bench view now.
        """
        shown = self._window.takeCentralWidget() if self._reading is not None else None
        if self._reading is None or shown is None:
            return
        whole = QWidget(self._window)
        down = QVBoxLayout(whole)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(2)
        bar = ReadingBar(self._reading, whole)
        turned.connect(bar.grow)
        down.addWidget(bar)
        down.addWidget(shown, 1)
        self._window.setCentralWidget(whole)

    def tell_at_start(self) -> None:
        """Say what a maker should know when the window opens."""
        if self._reading is not None:
            self._reading.tell_at_start()

    def write_here(self) -> None:
        """Take over writing."""
        if self._reading is None:
            self._bridge.said.emit(self.tr("There is no workshop here to write in."))
        else:
            self._reading.write_here()

    def show_backups(self) -> None:
        """Show the page of backups."""
        if self._restoring is None:
            self._bridge.said.emit(self.tr("There is no workshop here that is backed up."))
            return
        if self._page is None:
            self._page = page = RestorePage(self._restoring, self._window)
            page.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            page.destroyed.connect(self._forget)
        bring_up(self._page)

    def _forget(self) -> None:
        self._page = None

    def close(self) -> None:
        """Wait for what is still being written."""
        if self._restoring is not None and self._watch is not None:
            self._restoring.close()
            self._watch.close()
