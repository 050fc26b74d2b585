"""What is said of backups and of restoring one."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QCoreApplication

from armorplan.store.backups import Backup, BackupKind
from armorplan.store.holdings import Holdings, Lacking
from armorplan.store.restoring import Rehearsal, Restored

_KINDS = {
    BackupKind.DAILY: "each day",
    BackupKind.RESTORING: "before a restoring",
    BackupKind.UPGRADE: "before an upgrade",
}
_ROWS = {
    "timer_entries": ("{0} entry about timers", "{0} entries about timers"),
    "absences": ("{0} absence", "{0} absences"),
    "air_kept": ("{0} state of the air", "{0} states of the air"),
    "fresh_starts": ("{0} fresh start of learning", "{0} fresh starts of learning"),
    "promises": ("{0} promised plan", "{0} promised plans"),
    "keepsakes": (
        "{0} note, measurement or photo",
        "{0} notes, measurements and photos",
    ),
    "keepsakes_withdrawn": ("{0} withdrawal of one", "{0} withdrawals of some"),
    "cut_settings": ("{0} trial of a machine", "{0} trials of machines"),
    "drills": ("{0} answered exercise", "{0} answered exercises"),
    "skills": ("{0} word on a skill", "{0} words on skills"),
}
"""What is counted besides builds and entries; that something was restored is no loss."""


def _said(text: str) -> str:
    return QCoreApplication.translate("restoring", text)


def _many(count: int, one: str, more: str) -> str:
    return _said(one if count == 1 else more).format(count)


def _named(count: int, name: str) -> str:
    text = "{0} entry of '{1}'" if count == 1 else "{0} entries of '{1}'"
    return _said(text).format(count, name)


def _instant(at: datetime, zone: tzinfo) -> str:
    return f"{at.astimezone(zone):%d %b %Y %H:%M}"


def backup_words(backup: Backup, zone: tzinfo) -> str:
    """Name a backup in a list: when it was made, and why."""
    return f"{_instant(backup.made_at, zone)} – {_said(_KINDS[backup.kind])}"


def rehearsal_words(told: Rehearsal, zone: tzinfo) -> tuple[str, ...]:
    """Say what a backup holds and what would be lost, a paragraph each."""
    kept = _said(
        "What stands there now is kept as a backup first and stands in this list, so this can be "
        "taken back in the same way. Photos stay where they are."
    )
    if told.lost is None:
        kept = _said("The damaged file is kept beside the workshop. Photos stay where they are.")
    return (
        _said("It was restored on a copy, on trial: all of it can be read."),
        _holds(told.holds, zone),
        _lost(told.lost, zone),
        kept,
    )


def _holds(holds: Holdings, zone: tzinfo) -> str:
    parts = [
        _many(len(holds.builds), "{0} build", "{0} builds"),
        _many(holds.entries, "{0} entry of the ledger", "{0} entries of the ledger"),
    ]
    counted = (("keepsakes", holds.keepsakes), ("promises", holds.promises))
    parts += [_many(many, *_ROWS[table]) for table, many in counted if many]
    last = ""
    if holds.last_at is not None:
        last = " " + _said("The last entry is of {0}.").format(_instant(holds.last_at, zone))
    return _said("It holds {0}.").format(", ".join(parts)) + last


def _lost(lost: Lacking | None, zone: tzinfo) -> str:
    if lost is None:
        return _said(
            "What would be lost cannot be told: the workshop as it stands is too damaged to be read."
        )
    parts = [_said("the build '{0}'").format(name) for name in lost.builds]
    parts += [_named(many, name) for name, many in lost.entries]
    parts += [_many(many, *_ROWS[table]) for table, many in lost.rows if table in _ROWS]
    if not parts:
        return _said("Nothing would be lost: all that stands in the workshop is in it.")
    since = ""
    if lost.since_at is not None:
        since = " " + _said("The first of those entries is of {0}.").format(
            _instant(lost.since_at, zone)
        )
    return _said("It lacks {0}.").format(", ".join(parts)) + since


def restored_words(done: Restored, zone: tzinfo) -> str:
    """Say that a backup was put in place, and where what stood there is."""
    return _said("Restored: the workshop as of {0}. What stood there is kept: {1}.").format(
        _instant(done.rehearsal.backup.made_at, zone), done.kept_as
    )
