"""A saved file is the old one or the new one, and never written over what another wrote."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from armorplan.files import locking
from armorplan.files.locking import alone
from armorplan.files.saving import ToSave, all_saved, saved, text_hash

NAME = "pattern.toml"
CLOSING = "It is still on the bench."
OLD = text_hash("old = 1\r\n")


@pytest.fixture
def folder(tmp_path):
    (tmp_path / NAME).write_bytes(b"old = 1\r\n")
    return tmp_path


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_it_is_written_as_it_is_with_the_rights_it_had(folder):
    (folder / NAME).chmod(0o640)
    text = "\ufeffnew = 'ä'\r\n"
    assert saved(folder, NAME, text, expected_hash=OLD, closing=CLOSING) is None
    assert (folder / NAME).read_bytes() == text.encode("utf-8")
    assert (folder / NAME).stat().st_mode & 0o777 == 0o640
    assert files(folder) == [NAME]


def test_a_new_file_is_written_and_another_of_its_name_is_not_replaced(folder):
    assert saved(folder, "copy.toml", "a = 1\n", expected_hash=None, closing=CLOSING) is None
    refusal = saved(folder, NAME, "a = 1\n", expected_hash=None, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "changed-meanwhile"
    assert (folder / NAME).read_bytes() == b"old = 1\r\n"


def test_what_somebody_else_wrote_is_not_written_over(folder):
    read = text_hash("old = 1\r\n")
    (folder / NAME).write_text("other = 2\n", encoding="utf-8")
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=read, closing=CLOSING)
    assert refusal is not None
    assert "was changed by another program" in refusal.text
    assert (folder / NAME).read_text(encoding="utf-8") == "other = 2\n"


def test_a_change_while_it_is_brought_to_the_disk_is_seen(folder, monkeypatch):
    sync = os.fsync

    def slowly(handle: int) -> None:
        sync(handle)
        (folder / NAME).write_text("other = 2\n", encoding="utf-8")

    monkeypatch.setattr(os, "fsync", slowly)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "changed-meanwhile"
    assert (folder / NAME).read_text(encoding="utf-8") == "other = 2\n"
    assert files(folder) == [NAME]


def test_a_file_that_is_gone_is_told(folder):
    (folder / NAME).unlink()
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "file-gone"
    assert files(folder) == []


def test_a_read_only_file_stays(folder):
    (folder / NAME).chmod(0o444)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert "may only be read" in refusal.text
    assert (folder / NAME).read_bytes() == b"old = 1\r\n"


@pytest.mark.parametrize(
    ("number", "word"),
    [(errno.ENOSPC, "space"), (errno.EACCES, "ermission"), (errno.EIO, "/output")],
)
def test_a_disk_that_refuses_loses_nothing(folder, monkeypatch, number, word):
    def refuse(_handle: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", refuse)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert word in refusal.text
    assert refusal.remedy.endswith(CLOSING)
    assert "window" not in str(refusal)
    assert "copy" not in str(refusal)
    assert (folder / NAME).read_bytes() == b"old = 1\r\n"
    assert files(folder) == [NAME]


def test_a_folder_that_may_not_be_written_is_told(folder, monkeypatch):
    def refuse(**_asked: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr("armorplan.files.saving.mkstemp", refuse)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "cannot-write"


def test_nothing_outside_the_folder_is_written(folder):
    refusal = saved(folder, "../pattern.toml", "mine = 3\n", expected_hash=None, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "leaves-folder"
    link = folder / "link.toml"
    link.symlink_to(folder.parent / "elsewhere.toml")
    assert (
        saved(folder, "link.toml", "mine = 3\n", expected_hash=None, closing=CLOSING) is not None
    )
    assert not (folder.parent / "elsewhere.toml").exists()


def test_what_a_program_left_that_was_ended_is_swept_by_the_next_saving(folder):
    script = (
        "import os, sys\n"
        "from pathlib import Path\n"
        "from armorplan.files.saving import saved, text_hash\n"
        "os.fsync = lambda _handle: os._exit(9)\n"
        "saved(Path(sys.argv[1]), 'pattern.toml', 'mine = 3\\n',"
        " expected_hash=text_hash('old = 1\\r\\n'), closing='')\n"
    )
    ended = subprocess.run([sys.executable, "-c", script, str(folder)], check=False, timeout=60)
    assert ended.returncode == 9
    assert len(files(folder)) == 2
    others = [".pattern.toml.mine.part", ".pattern.toml.part", ".other.toml.abcd1234.part"]
    for other in others[1:]:
        (folder / other).write_text("x", encoding="utf-8")
    assert saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING) is None
    assert files(folder) == sorted([NAME, *others[1:]])


_SAVE_ONE = """
import sys
from pathlib import Path
from armorplan.files import locking
from armorplan.files.saving import saved, text_hash

if sys.argv[3] == "file":
    def cannot(_folder):
        raise locking._CannotLockError
    locking._by_folder = cannot
folder, mine = Path(sys.argv[1]), sys.argv[2]
for number in range(20):
    while True:
        was = (folder / "pattern.toml").read_bytes().decode()
        text = was + f"{mine}_{number} = 1\\n"
        refusal = saved(folder, "pattern.toml", text, expected_hash=text_hash(was), closing="")
        if refusal is None:
            break
        assert refusal.code == "changed-meanwhile", refusal
"""


@pytest.mark.parametrize("lock", ["folder", "file"])
def test_many_programs_at_once_lose_nothing(folder, lock):
    command = [sys.executable, "-c", _SAVE_ONE, str(folder)]
    running = [subprocess.Popen([*command, f"p{at}", lock]) for at in range(4)]
    assert [each.wait(timeout=120) for each in running] == [0] * 4
    lines = (folder / NAME).read_text(encoding="utf-8").split()
    kept = {line for line in lines if line.startswith("p")}
    assert kept == {f"p{at}_{number}" for at in range(4) for number in range(20)}
    assert files(folder) == [NAME]


def test_who_is_kept_out_too_long_is_told(folder, monkeypatch):
    monkeypatch.setattr("armorplan.files.locking.MOST_WAIT_S", 0.05)
    with alone(folder / NAME):
        refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "busy"
    assert files(folder) == [NAME]
    assert saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING) is None


def test_a_lock_left_over_is_taken_away_and_a_fresh_one_is_not(folder, monkeypatch):
    def cannot(_folder: Path) -> None:
        raise locking._CannotLockError

    monkeypatch.setattr(locking, "_by_folder", cannot)
    monkeypatch.setattr(locking, "MOST_WAIT_S", 0.05)
    lock = folder / f".{NAME}.lock"
    lock.touch()
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING)
    assert refusal is not None
    assert refusal.code == "busy"
    long_ago = lock.stat().st_mtime - 2 * locking.LEFT_OVER_S
    os.utime(lock, (long_ago, long_ago))
    assert saved(folder, NAME, "mine = 3\n", expected_hash=OLD, closing=CLOSING) is None
    assert files(folder) == [NAME]


_KILLED_IN_EACH_PLACE = """
import os, signal, sys
from pathlib import Path
from armorplan.files.saving import ToSave, all_saved

def killed_at(call):
    left, sync = [call], os.fsync
    def dying(handle):
        left[0] -= 1
        if left[0] == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        sync(handle)
    os.fsync = dying

files = [ToSave(name=name, text="new", former="old") for name in ("a.svg", "b.svg", "c.toml")]
for call in (1, 2, 3):
    child = os.fork()
    if child == 0:
        killed_at(call)
        all_saved(Path(sys.argv[1]), files, closing="")
        os._exit(0)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    print(*(Path(sys.argv[1], file.name).read_text() for file in files))
assert all_saved(Path(sys.argv[1]), files, closing="") is None
print(*(path.name for path in sorted(Path(sys.argv[1]).iterdir())))
"""


def three(folder: Path, texts: tuple[str, str, str] = ("new", "new", "new")) -> list[ToSave]:
    """Write three files into a folder, and return what they shall hold."""
    names = ("a.svg", "b.svg", "c.toml")
    for name in names:
        (folder / name).write_text("old", encoding="utf-8")
    return [
        ToSave(name=name, text=text, former="old") for name, text in zip(names, texts, strict=True)
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="kills a fork of itself")
def test_several_files_are_all_old_where_the_program_is_killed_while_it_writes(tmp_path):
    three(tmp_path)
    command = [sys.executable, "-c", _KILLED_IN_EACH_PLACE, str(tmp_path)]
    ended = subprocess.run(command, check=True, timeout=60, capture_output=True, text=True)
    assert ended.stdout.splitlines() == ["old old old"] * 3 + ["a.svg b.svg c.toml"]


def test_where_a_later_file_cannot_get_its_place_those_before_are_put_back(tmp_path, monkeypatch):
    wanted, put = three(tmp_path), Path.replace

    def refuse(half: Path, path: Path) -> Path:
        if path.name == "c.toml":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return put(half, path)

    monkeypatch.setattr(Path, "replace", refuse)
    refusal = all_saved(tmp_path, wanted, closing=CLOSING)
    assert refusal is not None
    assert (refusal.code, refusal.place.file) == ("cannot-write", "c.toml")
    assert "put back" not in refusal.text
    assert [path.read_text() for path in sorted(tmp_path.iterdir())] == ["old"] * 3


def test_a_file_that_stays_as_it_is_must_still_be_what_it_was(tmp_path):
    wanted = three(tmp_path, ("new", "old", "new"))
    (tmp_path / "b.svg").write_text("another's", encoding="utf-8")
    refusal = all_saved(tmp_path, wanted, closing=CLOSING)
    assert refusal is not None
    assert (refusal.code, refusal.place.file) == ("changed-meanwhile", "b.svg")
    assert (tmp_path / "a.svg").read_text() == "old"
    (tmp_path / "b.svg").write_text("old", encoding="utf-8")
    (tmp_path / "b.svg").chmod(0o444)
    assert all_saved(tmp_path, wanted, closing=CLOSING) is None
    assert [path.read_text() for path in sorted(tmp_path.iterdir())] == ["new", "old", "new"]
