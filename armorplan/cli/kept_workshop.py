"""The workshop file of a window: opened, or rescued from a backup where it is too damaged for that."""

from dataclasses import dataclass
from pathlib import Path

from armorplan.kernel.clock import Clock
from armorplan.store.backing_up import back_up_today
from armorplan.store.backups import Backup, backups_of
from armorplan.store.gate import Gate
from armorplan.store.restoring import Rehearsal, Restored, rehearse, restore
from armorplan.store.troubles import DamagedError
from armorplan.store.workshop_file import WorkshopFile


@dataclass(slots=True, kw_only=True)
class Backups:
    """Fulfils ``restore_desk.BackupBench`` for one workshop.

    Attributes:
        path: the workshop file.
        clock: tells when.
        gate: says whether this window writes.
        workshop: open in the window's thread; ``None`` while it cannot be opened.
    """

    path: Path
    clock: Clock
    gate: Gate
    workshop: WorkshopFile | None = None

    def backups(self) -> tuple[Backup, ...]:
        """Return all backups in the order of their making."""
        return backups_of(self.path)

    def back_up_today(self) -> Backup | None:
        """Make the backup of this day, once."""
        return back_up_today(self.path, self.clock)

    def rehearse(self, backup: Backup) -> Rehearsal:
        """Restore it on a copy, on trial."""
        return rehearse(self.path, backup, self.clock)

    def restore(self, backup: Backup) -> Restored:
        """Put it in place."""
        return restore(self.path, backup, self.clock, self.gate)

    def restored(self) -> str:
        """Return what tells the last restoring of the workshop apart."""
        return "" if self.workshop is None else self.workshop.restored()


def opened_workshop(backups: Backups) -> WorkshopFile:
    """Open the workshop of a window; where it is damaged, offer its backups first.

    Raises:
        WorkshopError: it cannot be opened, and no backup was put in place.
    """
    try:
        found = WorkshopFile.open(backups.path, backups.clock, backups.gate)
    except DamagedError:
        if not backups.backups() or not _rescued(backups):
            raise
        found = WorkshopFile.open(backups.path, backups.clock, backups.gate)
    backups.workshop = found
    return found


def _rescued(backups: Backups) -> bool:
    from tzlocal import get_localzone

    from armorplan.desktop.rescue import offer_backups

    why = (
        f"The workshop file {backups.path} is damaged and cannot be opened. Choose a backup and put "
        "it in place; close this window, and all stays as it is."
    )
    return offer_backups(backups, why, get_localzone())
