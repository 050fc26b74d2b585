"""The backups of a workshop: where they lie, what they are called, and which of them are kept.

They are told apart by the number of their making, not by the clock, which may be set back: the one
with the highest number is the latest, and no wrong date ever drives a good backup out.
"""

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from enum import StrEnum
from pathlib import Path

DAYS_KEPT, MONTHS_KEPT = 14, 12
"""The latest ones all; of those before them the last of each month."""


class BackupKind(StrEnum):
    """Why a backup was made."""

    DAILY = "day"
    RESTORING = "restoring"
    """Of what stood there before another one was put in its place; never taken away."""
    UPGRADE = "upgrade"
    """Before the file was brought to a new form; never taken away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """One backup.

    Attributes:
        path: the file.
        kind: why it was made.
        made_at: when, by the clock of then; aware, in UTC.
        number: the how many-th it is; 0 for those before an upgrade, which count forms.
    """

    path: Path
    kind: BackupKind
    made_at: datetime
    number: int


_NAME = re.compile(r"(\d{6,})-(\d{8}T\d{6})Z-(day|restoring)\.backup")
_STAMP = "%Y%m%dT%H%M%S"


def backup_folder(path: Path) -> Path:
    """Return the folder of a workshop's backups."""
    return path.with_name(f"{path.name}.backups")


def backup_path(path: Path, kind: BackupKind, number: int, at: datetime) -> Path:
    """Return where a backup of this kind is to lie."""
    stamp = at.astimezone(UTC).strftime(_STAMP)
    return backup_folder(path) / f"{number:06}-{stamp}Z-{kind.value}.backup"


def backups_of(path: Path) -> tuple[Backup, ...]:
    """Return all backups of a workshop, in the order in which they were made, as far as is known."""
    return (*_before_upgrades(path), *numbered_backups(path))


def numbered_backups(path: Path) -> tuple[Backup, ...]:
    """Return those of each day and those before a restoring, in the order of their making."""
    folder = backup_folder(path)
    if not folder.is_dir():
        return ()
    found = (_numbered(file) for file in folder.iterdir())
    return tuple(sorted((b for b in found if b is not None), key=lambda b: b.number))


def _numbered(file: Path) -> Backup | None:
    named = _NAME.fullmatch(file.name)
    if named is None:
        return None
    try:
        made_at = datetime.strptime(named[2], _STAMP).replace(tzinfo=UTC)
    except ValueError:
        return None
    return Backup(path=file, kind=BackupKind(named[3]), made_at=made_at, number=int(named[1]))


def _before_upgrades(path: Path) -> tuple[Backup, ...]:
    """Return those made before upgrades, oldest form first."""

    def form(backup: Path) -> int:
        tail = backup.name.removeprefix(head).removesuffix(".backup")
        return int(tail) if tail.isdecimal() else 0

    head = f"{path.name}.before-"
    # Not a glob pattern: a file name may hold brackets or stars.
    found = [p for p in path.parent.iterdir() if p.name.startswith(head)]
    return tuple(
        Backup(
            path=file,
            kind=BackupKind.UPGRADE,
            made_at=datetime.fromtimestamp(file.stat().st_mtime, UTC),
            number=0,
        )
        for file in sorted((p for p in found if p.suffix == ".backup"), key=form)
    )


def worn_out(backups: tuple[Backup, ...]) -> tuple[Backup, ...]:
    """Return the daily backups that are not kept any longer, oldest first."""
    days = sorted((b for b in backups if b.kind is BackupKind.DAILY), key=lambda b: b.number)
    older = days[:-DAYS_KEPT]
    last_of_month = {(b.made_at.year, b.made_at.month): b for b in older}
    kept = sorted(last_of_month.values(), key=lambda b: b.number)[-MONTHS_KEPT:]
    return tuple(b for b in older if b not in kept)
