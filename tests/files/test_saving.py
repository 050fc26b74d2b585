"""A saved file is the old one or the new one, and never written over what another wrote."""

import errno
import os
from pathlib import Path

import pytest

from armorplan.files.saving import saved, text_hash

NAME = "pattern.toml"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / NAME).write_bytes(b"old = 1\r\n")
    return tmp_path


def files(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_it_is_written_as_it_is_with_the_rights_it_had(folder):
    (folder / NAME).chmod(0o640)
    text = "\ufeffnew = 'ä'\r\n"
    assert saved(folder, NAME, text, expected_hash=text_hash("old = 1\r\n")) is None
    assert (folder / NAME).read_bytes() == text.encode("utf-8")
    assert (folder / NAME).stat().st_mode & 0o777 == 0o640
    assert files(folder) == [NAME]


def test_a_new_file_is_written_and_another_of_its_name_is_not_replaced(folder):
    assert saved(folder, "copy.toml", "a = 1\n", expected_hash=None) is None
    refusal = saved(folder, NAME, "a = 1\n", expected_hash=None)
    assert refusal is not None
    assert refusal.code == "changed-meanwhile"
    assert (folder / NAME).read_bytes() == b"old = 1\r\n"


def test_what_somebody_else_wrote_is_not_written_over(folder):
    read = text_hash("old = 1\r\n")
    (folder / NAME).write_text("other = 2\n", encoding="utf-8")
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=read)
    assert refusal is not None
    assert "was changed by another program" in refusal.text
    assert (folder / NAME).read_text(encoding="utf-8") == "other = 2\n"


def test_a_change_while_it_is_brought_to_the_disk_is_seen(folder, monkeypatch):
    sync = os.fsync

    def slowly(handle: int) -> None:
        sync(handle)
        (folder / NAME).write_text("other = 2\n", encoding="utf-8")

    monkeypatch.setattr(os, "fsync", slowly)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=text_hash("old = 1\r\n"))
    assert refusal is not None
    assert refusal.code == "changed-meanwhile"
    assert (folder / NAME).read_text(encoding="utf-8") == "other = 2\n"
    assert files(folder) == [NAME]


def test_a_file_that_is_gone_is_told(folder):
    (folder / NAME).unlink()
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=text_hash("old = 1\r\n"))
    assert refusal is not None
    assert refusal.code == "file-gone"
    assert files(folder) == []


def test_a_read_only_file_stays(folder):
    (folder / NAME).chmod(0o444)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=text_hash("old = 1\r\n"))
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
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=text_hash("old = 1\r\n"))
    assert refusal is not None
    assert word in refusal.text
    assert "still in the window" in refusal.remedy
    assert (folder / NAME).read_bytes() == b"old = 1\r\n"
    assert files(folder) == [NAME]


def test_a_folder_that_may_not_be_written_is_told(folder, monkeypatch):
    def refuse(**_asked: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr("armorplan.files.saving.mkstemp", refuse)
    refusal = saved(folder, NAME, "mine = 3\n", expected_hash=text_hash("old = 1\r\n"))
    assert refusal is not None
    assert refusal.code == "cannot-write"


def test_nothing_outside_the_folder_is_written(folder):
    refusal = saved(folder, "../pattern.toml", "mine = 3\n", expected_hash=None)
    assert refusal is not None
    assert refusal.code == "leaves-folder"
    link = folder / "link.toml"
    link.symlink_to(folder.parent / "elsewhere.toml")
    assert saved(folder, "link.toml", "mine = 3\n", expected_hash=None) is not None
    assert not (folder.parent / "elsewhere.toml").exists()
