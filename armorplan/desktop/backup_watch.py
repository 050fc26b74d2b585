"""Has the workshop backed up once a day, and notices when another state of it was put in place."""

from datetime import date

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner
from armorplan.desktop.opening import Opener
from armorplan.desktop.reading_along import ReadingAlong
from armorplan.desktop.restore_desk import BackupBench
from armorplan.kernel.errors import WorkshopError


class BackupWatch(QObject):
    """Looks once a second; only the window that writes makes backups.

    ``made`` says that there is a new backup.
    """

    made = Signal()

    def __init__(
        self,
        bridge: Bridge,
        bench: BackupBench,
        reading: ReadingAlong,
        opener: Opener,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._bench = bench
        self._reading = reading
        self._opener = opener
        self._day: date | None = None
        self._restored = ""
        self._restored = self._mark()
        self._runner = Runner(self)
        self._runner.answered.connect(self._tell)
        self._runner.failed.connect(self._refuse)

    def look(self) -> None:
        """See whether a day began, and whether the workshop is still the one that was read."""
        mark = self._mark()
        if mark != self._restored:
            self._restored = mark
            self._bridge.said.emit(
                self.tr("Another state of the workshop was put in place; it is read anew.")
            )
            self._opener.open_build(self._bridge.session.build_id)
        # A clock set back makes another day of it, too; there the bench finds its own answer.
        today = self._bridge.clock.now().astimezone(self._bridge.zone).date()
        if self._reading.writes and today != self._day and not self._runner.is_busy:
            self._day = today
            bench = self._bench
            self._runner.ask(lambda _report, _should_stop: bench.back_up_today())

    def close(self) -> bool:
        """Wait for a backup under way; tell whether it ended in time."""
        return self._runner.close()

    def _mark(self) -> str:
        try:
            return self._bench.restored()
        except WorkshopError:
            # A key press tells why it cannot be read.
            return self._restored

    def _tell(self, made: object) -> None:
        if made is not None:
            self.made.emit()

    def _refuse(self, error: Exception) -> None:
        self._bridge.said.emit(
            self.tr("There is no backup of today: {0}").format(str(error) or type(error).__name__)
        )
