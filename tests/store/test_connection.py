"""Opening a workshop file: its settings, and every way it can be refused."""

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from shutil import copy
from tempfile import TemporaryDirectory

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry

from armorplan.kernel.errors import WorkshopError
from armorplan.store.connection import APPLICATION_ID, connect
from armorplan.store.migrations import SCHEMA
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def path(tmp_path):
    """A workshop file with a build and 200 entries, closed."""
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.append(tuple(entry(number) for number in range(200)))
    workshop.close()
    return path


def pragma(db, name):
    return db.execute(f"PRAGMA {name}").fetchone()[0]


def refusal(path):
    """Return the message of a refused opening, and hold that the file was left as it is."""
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(WorkshopError) as refused:
        WorkshopFile.open(path, FakeClock())
    assert (path.read_bytes() if path.is_file() else None) == before
    assert str(path) in str(refused.value)
    return str(refused.value)


def test_a_connection_keeps_all_it_acknowledges(path):
    with closing(connect(path)) as db:
        assert pragma(db, "journal_mode") == "wal"
        assert pragma(db, "synchronous") == 2  # FULL
        assert pragma(db, "foreign_keys") == 1
        assert pragma(db, "busy_timeout") == 5000
        assert pragma(db, "application_id") == APPLICATION_ID
        assert pragma(db, "user_version") == SCHEMA.version


def test_opening_again_changes_nothing_in_the_file(path):
    before = path.read_bytes()
    WorkshopFile.open(path, FakeClock()).close()
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"hello", b"PNG\x89" * 2000, b"SQLite format 3\x00" + b"\xff" * 4080]
)
def test_a_file_that_is_no_database_is_left_alone(tmp_path, content):
    path = tmp_path / "notes.txt"
    path.write_bytes(content)
    assert "is not a workshop file" in refusal(path)
    assert [p.name for p in tmp_path.iterdir()] == ["notes.txt"]


def test_an_empty_file_becomes_a_workshop(tmp_path):
    path = tmp_path / "workshop.sqlite"
    path.touch()
    WorkshopFile.open(path, FakeClock()).close()
    with closing(connect(path)) as db:
        assert pragma(db, "user_version") == SCHEMA.version


@pytest.mark.parametrize(
    "statement",
    ["CREATE TABLE songs (title)", "PRAGMA user_version = 7", "PRAGMA application_id = 1"],
)
def test_another_programs_database_is_left_alone(tmp_path, statement):
    path = tmp_path / "songs.sqlite"
    with closing(sqlite3.connect(path)) as plain:
        plain.execute(statement)
        plain.commit()
    assert "another program's database" in refusal(path)


def test_a_file_of_a_newer_program_is_left_alone(path):
    with closing(sqlite3.connect(path)) as plain:
        plain.execute(f"PRAGMA user_version = {SCHEMA.version + 1}")
    message = refusal(path)
    assert f"form {SCHEMA.version + 1}; this program knows up to {SCHEMA.version}" in message
    assert "Install the newer Armorplan" in message


def test_a_folder_of_that_name_is_refused(tmp_path):
    assert "that is a folder" in refusal(tmp_path)


def test_a_place_below_a_file_is_refused(path):
    assert "Mend that, or choose another place" in refusal(path / "inner" / "workshop.sqlite")


def test_a_damaged_file_names_its_latest_backup_and_is_left_alone(path):
    content = bytearray(path.read_bytes())
    page = int.from_bytes(content[16:18], "big")
    content[3 * page : 4 * page] = b"\xa5" * page
    path.write_bytes(content)
    for version in (2, 10):
        path.with_name(f"{path.name}.before-{version}.backup").touch()
    message = refusal(path)
    assert "is damaged" in message
    assert "workshop.sqlite.before-10.backup" in message


def test_a_cut_off_file_is_damaged(path):
    content = path.read_bytes()
    path.write_bytes(content[: len(content) // 2])
    message = refusal(path)
    assert "is damaged" in message
    assert "from your own backups" in message


@pytest.mark.parametrize(
    "statement",
    ["UPDATE events SET kind = 'sung' WHERE seq = 3", "UPDATE events SET at = 'noon'"],
)
def test_an_entry_of_no_known_kind_is_damage_in_words(path, statement):
    with closing(sqlite3.connect(path)) as plain:
        plain.execute("DROP TRIGGER events_never_change")
        plain.execute(statement)
        plain.commit()
    workshop = WorkshopFile.open(path, FakeClock())
    with pytest.raises(WorkshopError, match="is damaged"):
        workshop.events(ELBOW.id)
    workshop.close()


def test_a_full_disk_loses_nothing_recorded_before(path):
    db = connect(path)
    workshop = WorkshopFile(db, path, FakeClock())
    before = workshop.events(ELBOW.id)
    db.execute(f"PRAGMA max_page_count = {pragma(db, 'page_count') + 2}").fetchall()
    many = tuple(entry(number) for number in range(1000, 2000))
    with pytest.raises(WorkshopError, match="the disk is full") as refused:
        workshop.append(many)
    assert str(path) in str(refused.value)
    assert "Free some space" in str(refused.value)
    assert workshop.events(ELBOW.id) == before
    db.execute("PRAGMA max_page_count = 1000000").fetchall()
    stored = workshop.append(many)
    workshop.close()
    again = WorkshopFile.open(path, FakeClock())
    assert again.events(ELBOW.id) == before + stored
    again.close()


def test_a_window_that_waits_too_long_for_another_says_so(path):
    db = connect(path)
    db.execute("PRAGMA busy_timeout = 1")
    workshop = WorkshopFile(db, path, FakeClock())
    with closing(sqlite3.connect(path)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(WorkshopError, match="another window has been writing"):
            workshop.append((entry(1000),))
        other.rollback()
    assert workshop.append((entry(1000),))[0].seq == 201
    workshop.close()


WITHOUT_RIGHTS = """
import os, sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from clocks import FakeClock
from armorplan.kernel.errors import WorkshopError
from armorplan.store.workshop_file import WorkshopFile
if os.geteuid() == 0:
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
try:
    WorkshopFile.open(Path(sys.argv[1]), FakeClock())
except WorkshopError as error:
    print(error)
"""

NO_ROOM = """
import resource, sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry
from armorplan.kernel.errors import WorkshopError
from armorplan.store.workshop_file import WorkshopFile
workshop = WorkshopFile.open(Path(sys.argv[1]), FakeClock())
resource.setrlimit(resource.RLIMIT_FSIZE, (500_000, 500_000))
kept = 200
try:
    while True:
        kept = workshop.append((entry(kept),))[0].seq
except WorkshopError as error:
    print(kept, error, sep="\\n")
"""


def told_by(script, path, tests_folder):
    """Run a script in a process of its own and return what it printed."""
    answer = subprocess.run(
        [sys.executable, "-c", script, path, tests_folder],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert answer.stderr == ""
    return answer.stdout


@pytest.fixture
def tests_folder(request):
    return request.config.rootpath / "tests"


@pytest.fixture
def open_folder():
    """A folder every user may enter: pytest's own are closed to others."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        yield folder
        folder.chmod(0o755)


@pytest.mark.skipif(sys.platform == "win32", reason="rights as Unix has them")
@pytest.mark.parametrize(
    ("file_there", "folder_mode"), [(True, 0o555), (False, 0o555), (True, 0o777)]
)
def test_a_place_without_rights_is_named_at_once_with_what_to_do(
    path, open_folder, tests_folder, file_there, folder_mode
):
    target = open_folder / "workshop.sqlite"
    if file_there:
        copy(path, target)
        target.chmod(0o444)
    open_folder.chmod(folder_mode)
    message = told_by(WITHOUT_RIGHTS, target, tests_folder)
    assert str(target) in message
    assert "could not be opened" in message
    assert "may not be written to" in message or "cannot be opened or made there" in message
    assert not file_there or target.read_bytes() == path.read_bytes()


@pytest.mark.skipif(sys.platform == "win32", reason="limits as Unix has them")
def test_a_disk_that_refuses_to_write_loses_nothing_acknowledged(path, tests_folder):
    """A real write error from the system, in mid-use, not one played by SQLite."""
    kept, message = told_by(NO_ROOM, path, tests_folder).split("\n", 1)
    assert str(path) in message
    assert "could not be written" in message
    assert int(kept) > 210
    workshop = WorkshopFile.open(path, FakeClock())
    assert [e.seq for e in workshop.events(ELBOW.id)] == list(range(1, int(kept) + 1))
    workshop.close()
