"""Backups of the workshop: made each day, listed, tried, and put in place, off the window's thread."""

from collections.abc import Callable
from datetime import tzinfo
from functools import partial
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.restore_words import restored_words
from armorplan.store.backups import Backup
from armorplan.store.restoring import Rehearsal, Restored


class BackupBench(Protocol):
    """The backups of one workshop; all but ``restored`` may be called in any thread."""

    def backups(self) -> tuple[Backup, ...]:
        """Return all backups in the order of their making."""
        ...

    def back_up_today(self) -> Backup | None:
        """Make the backup of this day, once; ArmorplanError where it cannot be made."""
        ...

    def rehearse(self, backup: Backup) -> Rehearsal:
        """Restore it on a copy, on trial; ArmorplanError where that cannot be done."""
        ...

    def restore(self, backup: Backup) -> Restored:
        """Put it in place; ArmorplanError where that cannot be done."""
        ...

    def restored(self) -> str:
        """Return what tells the last restoring of the workshop apart."""
        ...


class RestoreDesk(QObject):
    """One job at a time.

    ``listed`` carries the backups (a tuple), ``rehearsed`` a ``Rehearsal``, ``restored`` what was
    done in words, and ``refused`` why it was not.
    """

    listed = Signal(object)
    rehearsed = Signal(object)
    restored = Signal(str)
    refused = Signal(str)

    def __init__(self, bench: BackupBench, zone: tzinfo, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self.zone = zone
        self._lister = self._runner(self.listed.emit)
        self._trier = self._runner(self.rehearsed.emit)
        self._restorer = self._runner(self._tell)

    def _runner(self, answered: Callable[..., object]) -> Runner:
        runner = Runner(self)
        runner.answered.connect(answered)
        runner.failed.connect(self._refuse)
        return runner

    def read(self) -> None:
        """List the backups."""
        self._lister.ask(_job(self._bench.backups))

    def rehearse(self, backup: Backup) -> None:
        """Try one on a copy."""
        self._trier.ask(_job(partial(self._bench.rehearse, backup)))

    def restore(self, backup: Backup) -> None:
        """Put one in place."""
        if not self._restorer.is_busy:
            self._restorer.ask(_job(partial(self._bench.restore, backup)))

    def close(self) -> bool:
        """Wait for what is under way; tell whether all of it ended in time."""
        ended = [runner.close() for runner in (self._lister, self._trier, self._restorer)]
        return all(ended)

    def _tell(self, done: Restored) -> None:
        self.restored.emit(restored_words(done, self.zone))
        self.read()

    def _refuse(self, error: Exception) -> None:
        self.refused.emit(str(error) or type(error).__name__)


def _job(work: Callable[[], object]) -> Callable[[Report, ShouldStop], object]:
    return lambda _report, _should_stop: work()
