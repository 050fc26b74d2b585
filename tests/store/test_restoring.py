"""Restoring is tried on a copy first, says what would be lost, and loses nothing that stood there."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from shutil import copy

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.keepsakes import THE_BUILD, Keepsake
from armorplan.store import restoring
from armorplan.store.backing_up import back_up
from armorplan.store.backups import Backup, BackupKind, backups_of
from armorplan.store.connection import connect
from armorplan.store.gate import OnlyReads, ReadsAlongError
from armorplan.store.migrations import SCHEMA
from armorplan.store.restoring import rehearse, restore
from armorplan.store.troubles import DamagedError
from armorplan.store.workshop_file import WorkshopFile

COLLAR = replace(ELBOW, id="collar-1", name="Lantern watch, collar")
GOLDEN = Path(__file__).parent / "golden"


@pytest.fixture
def clock():
    return FakeClock()


@pytest.fixture
def path(tmp_path):
    """A workshop with two entries, a backup of them, and then more."""
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.append((entry(1), entry(2)))
    back_up(path, BackupKind.DAILY, FakeClock())
    workshop.append((entry(3), entry(4), entry(5)))
    workshop.add_build(COLLAR, (entry(6, build=COLLAR.id),))
    at = datetime(2027, 3, 1, 9, tzinfo=UTC)
    workshop.keepsakes.add(Keepsake(build=ELBOW.id, about=THE_BUILD, at=at, text="gap"))
    workshop.close()
    return path


def seqs(path, build=ELBOW.id):
    with closing(WorkshopFile.open(path, FakeClock())) as workshop:
        return [event.seq for event in workshop.events(build)]


def spoil(path):
    content = bytearray(path.read_bytes())
    page = int.from_bytes(content[16:18], "big")
    content[3 * page : 4 * page] = b"\xa5" * page
    path.write_bytes(content)


def test_a_rehearsal_tells_what_it_holds_and_what_would_be_lost_and_changes_nothing(path, clock):
    (backup,) = backups_of(path)
    before, folder = path.read_bytes(), sorted(p.name for p in path.parent.iterdir())
    told = rehearse(path, backup, clock)
    assert told.holds.builds == (ELBOW.name,)
    assert (told.holds.entries, told.holds.keepsakes) == (2, 0)
    assert told.holds.last_at == entry(2).at
    assert told.lost.builds == (COLLAR.name,)
    assert told.lost.entries == ((ELBOW.name, 3), (COLLAR.name, 1))
    assert told.lost.since_at == entry(3).at
    assert dict(told.lost.rows) == {"builds": 1, "events": 4, "keepsakes": 1}
    assert path.read_bytes() == before
    assert sorted(p.name for p in path.parent.iterdir()) == folder


def test_restoring_is_seen_by_windows_that_stand_open_and_may_be_taken_back(path, clock):
    (backup,) = backups_of(path)
    window = WorkshopFile.open(path, clock)
    reader = WorkshopFile.open(path, clock)
    assert window.restored() == ""
    mark, sight = reader.mark(), reader.events(ELBOW.id)
    done = restore(path, backup, clock)
    assert reader.mark() != mark
    assert [e.seq for e in reader.events(ELBOW.id)] == [1, 2]
    assert window.restored() == reader.restored() != ""
    assert window.append((entry(9),))[0].seq == 3
    # What stood there is a backup like any other: it brings all of it back.
    kept = next(b for b in backups_of(path) if b.kind is BackupKind.RESTORING)
    assert kept.path == done.kept_as
    first = window.restored()
    told = rehearse(path, kept, clock)
    # Compared by what they say, not by their numbers: of the entries only the ninth is not there.
    assert told.lost.entries == ((ELBOW.name, 1),)
    restore(path, kept, clock)
    assert reader.events(ELBOW.id) == sight
    assert window.restored() not in ("", first)
    assert reader.keepsakes.of(ELBOW.id)[0].text == "gap"
    window.close()
    reader.close()
    assert len(backups_of(path)) == 3


def test_a_damaged_workshop_is_moved_aside_whole_and_the_backup_stands_in_its_place(path, clock):
    spoil(path)
    spoilt = path.read_bytes()
    with pytest.raises(DamagedError, match=r"backups/000001-"):
        WorkshopFile.open(path, clock)
    (backup,) = backups_of(path)
    with closing(sqlite3.connect(path)) as open_still:
        open_still.execute("SELECT count(*) FROM sqlite_master").fetchone()
        log = path.with_name(f"{path.name}-wal")
        assert log.exists()
        told = rehearse(path, backup, clock)
        assert told.lost is None
        done = restore(path, backup, clock)
        assert done.kept_as.name == "workshop.sqlite.damaged-1"
        assert done.kept_as.read_bytes() == spoilt
        assert path.with_name(f"{done.kept_as.name}-wal").exists()
        assert not log.exists()
    assert seqs(path) == [1, 2]
    spoil(path)
    assert restore(path, backup, clock).kept_as.name == "workshop.sqlite.damaged-2"


def test_a_workshop_whose_head_is_overwritten_counts_as_damaged(path, clock):
    path.write_bytes(b"x" * 40_000)
    (backup,) = backups_of(path)
    restore(path, backup, clock)
    assert seqs(path) == [1, 2]


def test_a_damaged_backup_is_refused_by_name_and_nothing_is_touched(path, clock):
    (backup,) = backups_of(path)
    spoil(backup.path)
    before = path.read_bytes()
    for act in (rehearse, restore):
        with pytest.raises(WorkshopError, match="choose another backup") as refused:
            act(path, backup, clock)
        assert str(backup.path) in str(refused.value)
        assert ".rehearsal-" not in str(refused.value)
    assert path.read_bytes() == before


def test_a_backup_of_a_newer_program_is_refused(path, clock):
    (backup,) = backups_of(path)
    with closing(sqlite3.connect(backup.path)) as plain:
        plain.execute(f"PRAGMA user_version = {SCHEMA.version + 1}")
    with pytest.raises(WorkshopError, match="newer Armorplan"):
        rehearse(path, backup, clock)


def test_a_workshop_of_a_newer_program_is_not_written_over(path, clock):
    (backup,) = backups_of(path)
    with closing(sqlite3.connect(path)) as plain:
        plain.execute(f"PRAGMA user_version = {SCHEMA.version + 1}")
    before = path.read_bytes()
    with pytest.raises(WorkshopError, match="newer Armorplan"):
        restore(path, backup, clock)
    assert path.read_bytes() == before


def test_a_backup_of_an_older_form_is_brought_to_the_present_one(path, clock):
    old = path.with_name(f"{path.name}.before-2.backup")
    copy(GOLDEN / "workshop-form-1.sqlite", old)
    backup = backups_of(path)[0]
    assert backup.kind is BackupKind.UPGRADE
    told = rehearse(path, backup, clock)
    assert told.holds.entries == 16
    before = old.read_bytes()
    restore(path, backup, clock)
    assert len(seqs(path)) == 15
    assert old.read_bytes() == before


def test_a_window_that_reads_along_restores_nothing(path, clock):
    (backup,) = backups_of(path)
    before = path.read_bytes()
    with pytest.raises(ReadsAlongError):
        restore(path, backup, clock, OnlyReads(path))
    assert path.read_bytes() == before
    assert len(backups_of(path)) == 1


def test_what_cannot_be_kept_is_not_restored(path, clock, monkeypatch):
    def full(*_args):
        raise WorkshopError("the disk is full")

    monkeypatch.setattr(restoring, "back_up", full)
    before = path.read_bytes()
    with pytest.raises(WorkshopError, match="the disk is full"):
        restore(path, backups_of(path)[0], clock)
    assert path.read_bytes() == before


def test_copies_that_a_kill_left_behind_are_swept_up_later(path, clock):
    left = path.with_name(".rehearsal-abc")
    left.mkdir()
    (left / "workshop.sqlite").write_bytes(b"half")
    os.utime(left, (clock.now().timestamp() - 7200,) * 2)
    rehearse(path, backups_of(path)[0], clock)
    assert not left.exists()


RESTORE_FOREVER = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from clocks import FakeClock
from armorplan.store.backups import BackupKind, backups_of
from armorplan.store.restoring import restore
path = Path(sys.argv[1])
few = next(b for b in backups_of(path) if b.kind is BackupKind.DAILY)
print("ready", flush=True)
while True:
    print(restore(path, few, FakeClock()).kept_as, flush=True)
    many = next(b for b in backups_of(path) if b.kind is BackupKind.RESTORING)
    print(restore(path, many, FakeClock()).kept_as, flush=True)
"""


@pytest.mark.parametrize("wait_s", [0.03, 0.07])
def test_a_kill_in_the_middle_leaves_the_one_or_the_other(path, tmp_path, request, wait_s):
    tests = str(request.config.rootpath / "tests")
    process = subprocess.Popen(
        [sys.executable, "-c", RESTORE_FOREVER, str(path), tests], stdout=subprocess.PIPE
    )
    with process:
        process.stdout.readline()
        with pytest.raises(subprocess.TimeoutExpired):
            process.wait(wait_s)
        process.kill()
    with closing(connect(path)) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert seqs(path) in ([1, 2], [1, 2, 3, 4, 5])
    assert all(rehearse(path, b, FakeClock()).holds.entries in (2, 6) for b in backups_of(path))


def test_a_backup_that_is_gone_is_told(path, clock):
    gone = Backup(
        path=path.with_name("none.backup"), kind=BackupKind.DAILY, made_at=clock.now(), number=9
    )
    with pytest.raises(WorkshopError, match=r"none\.backup"):
        rehearse(path, gone, clock)
