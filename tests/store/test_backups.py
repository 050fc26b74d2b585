"""A backup each day: whole, looked through, and told apart by the number of its making."""

import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry

from armorplan.kernel.errors import WorkshopError
from armorplan.store import backing_up
from armorplan.store.backing_up import back_up, back_up_today
from armorplan.store.backups import (
    DAYS_KEPT,
    MONTHS_KEPT,
    Backup,
    BackupKind,
    backup_folder,
    backup_path,
    backups_of,
    numbered_backups,
    worn_out,
)
from armorplan.store.workshop_file import WorkshopFile

MIDDAY = datetime(2027, 3, 1, 12, tzinfo=UTC)


@pytest.fixture
def clock():
    return FakeClock()


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "work[shop]*.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.append((entry(1), entry(2)))
    workshop.close()
    return path


def names(path):
    return [p.name for p in sorted(backup_folder(path).iterdir())]


def days(path):
    return [b.number for b in numbered_backups(path) if b.kind is BackupKind.DAILY]


def test_one_backup_a_day_holds_what_lies_in_the_log_too(path, clock):
    window = WorkshopFile.open(path, clock)
    window.append((entry(3),))
    made = back_up_today(path, clock)
    assert back_up_today(path, clock) is None
    clock.advance(26 * 3600)
    assert back_up_today(path, clock).number == made.number + 1
    window.close()
    # It is one file without companions, and opens like any workshop.
    assert len(names(path)) == 2
    old = WorkshopFile.open(made.path, clock)
    assert [event.seq for event in old.events(ELBOW.id)] == [1, 2, 3]
    old.close()


def test_a_clock_set_back_stops_no_backup_and_drives_out_no_later_one(path, clock):
    for _ in range(3):
        back_up_today(path, clock)
        clock.advance(24 * 3600)
    clock.set_back(40 * 24 * 3600)
    back = back_up_today(path, clock)
    assert back.number == 4
    assert back_up_today(path, clock) is None
    assert [b.number for b in backups_of(path)] == [1, 2, 3, 4]
    assert back.made_at < backups_of(path)[0].made_at


def kept_after(many, *, first=MIDDAY, step=timedelta(days=1), path=None):
    """Return the numbers of the daily backups kept after one a day for so many days."""
    kept = []
    for number in range(1, many + 1):
        at = first + (number - 1) * step
        kept.append(
            Backup(
                path=backup_path(path, BackupKind.DAILY, number, at),
                kind=BackupKind.DAILY,
                made_at=at,
                number=number,
            )
        )
        kept = [b for b in kept if b not in worn_out(tuple(kept))]
    return kept


def test_the_last_days_are_kept_and_of_each_month_before_them_the_last(path):
    kept = kept_after(450, path=path)
    assert [b.number for b in kept[-DAYS_KEPT:]] == list(range(451 - DAYS_KEPT, 451))
    before = kept[:-DAYS_KEPT]
    assert len(before) == MONTHS_KEPT
    assert len({(b.made_at.year, b.made_at.month) for b in before}) == MONTHS_KEPT
    # Each but the newest is the last day of its month.
    assert all((b.made_at + timedelta(days=1)).day == 1 for b in before[:-1])


def test_one_wrong_date_far_ahead_drives_nothing_out(path):
    wrong = Backup(
        path=path, kind=BackupKind.DAILY, made_at=MIDDAY + timedelta(days=9000), number=0
    )
    right = tuple(
        Backup(path=path, kind=BackupKind.DAILY, made_at=MIDDAY + timedelta(days=n), number=n)
        for n in range(1, DAYS_KEPT + 1)
    )
    assert worn_out((wrong, *right)) == ()
    before = Backup(path=path, kind=BackupKind.RESTORING, made_at=MIDDAY, number=0)
    assert worn_out((before, *right)) == ()


def test_what_is_worn_out_is_taken_away_only_once_a_new_one_stands(path, clock, monkeypatch):
    for _ in range(DAYS_KEPT + 2):
        back_up_today(path, clock)
        clock.advance(24 * 3600)
    # The first sixteen days of one month: its last one before the fourteen stands for it.
    assert days(path) == list(range(2, DAYS_KEPT + 3))
    before = names(path)
    monkeypatch.setattr(backing_up, "_fault", lambda *_: "page 3 is torn")
    with pytest.raises(WorkshopError, match="page 3 is torn"):
        back_up_today(path, clock)
    assert names(path) == before


def test_a_copy_that_lacks_a_row_or_is_torn_is_not_kept(path, clock, monkeypatch):
    def short(db):
        return {table: number + 1 for table, number in real(db).items()}

    real = backing_up.counts
    monkeypatch.setattr(backing_up, "counts", lambda db: real(db) if _is_copy(db) else short(db))
    with pytest.raises(WorkshopError, match="rows are missing in builds, events"):
        back_up(path, BackupKind.DAILY, clock)
    assert names(path) == []


def _is_copy(db):
    return ".partial" in db.execute("PRAGMA database_list").fetchone()[2]


def test_what_a_kill_cut_off_is_no_backup_and_is_swept_up(path, clock):
    folder = backup_folder(path)
    folder.mkdir()
    target = backup_path(path, BackupKind.DAILY, 1, MIDDAY)
    (folder / f"{target.name}.partial").write_bytes(b"half")
    (folder / "notes.txt").write_bytes(b"ours")
    assert backups_of(path) == ()
    made = back_up_today(path, clock)
    assert names(path) == sorted([made.path.name, "notes.txt"])


def test_no_room_for_a_backup_is_told_and_leaves_the_others(path, clock, monkeypatch):
    back_up_today(path, clock)
    clock.advance(24 * 3600)

    def full(*_args):
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(backing_up, "_pour", full)
    with pytest.raises(WorkshopError, match="could not be written as a backup"):
        back_up_today(path, clock)
    assert days(path) == [1]


def test_the_latest_upgrade_backup_is_listed_before_numbered_ones(path, clock):
    back_up_today(path, clock)
    for form in (10, 2):
        path.with_name(f"{path.name}.before-{form}.backup").touch()
    kinds = [(b.kind, b.path.name) for b in backups_of(path)]
    assert [kind for kind, _ in kinds] == [
        BackupKind.UPGRADE,
        BackupKind.UPGRADE,
        BackupKind.DAILY,
    ]
    assert kinds[1][1].endswith("before-10.backup")


def test_a_backup_is_checked_page_by_page(path, clock):
    made = back_up(path, BackupKind.DAILY, clock)
    with closing(sqlite3.connect(made.path)) as db:
        assert db.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert backing_up._fault(db, backing_up.counts(db)) == ""
        db.execute("PRAGMA foreign_keys = OFF")
        db.execute("INSERT INTO plans VALUES ('nobody', '', '')")
        assert "belongs to no build" in backing_up._fault(db, {})


def test_every_table_that_only_grows_is_counted(path, clock):
    """A table left out would not be held against its backup, nor told as lost by a restoring."""
    with closing(sqlite3.connect(path)) as db:
        found = db.execute(
            "SELECT tbl_name FROM sqlite_master WHERE type = 'trigger' AND sql LIKE '%DELETE ON%'"
        ).fetchall()
    assert sorted(row[0] for row in found) == sorted(backing_up.GROWING)
