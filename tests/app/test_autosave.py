"""What is not saved is kept aside: brought back after a crash, gone once saved, never shared."""

import os
import signal
import sys
from contextlib import suppress
from pathlib import Path

import pytest
from folders_cli import copy_sample

from armorplan.app.autosave import KeptDrafts, brought_back
from armorplan.app.draft import Bench, Draft, drafted
from armorplan.app.drafting import Home, OpenDraft, save
from armorplan.files.catalogue import read_shelf
from armorplan.files.source import read_folder
from armorplan.workshop.shop import one_maker

BENCH = Bench(shelf=read_shelf(), shop=one_maker("UTC"))
NAME = ("parts", "boss", "name")


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def aside(tmp_path):
    return tmp_path / "aside"


def read(folder: Path) -> OpenDraft:
    draft = drafted(read_folder(folder), BENCH, is_hasty=True)
    return OpenDraft(draft=draft, home=Home(folder=folder, saved_texts=draft.texts))


def edited(opened: OpenDraft, name: str = "brass boss") -> Draft:
    made = opened.draft.put((NAME, name))
    assert isinstance(made, Draft)
    return made


@pytest.mark.skipif(sys.platform == "win32", reason="kills a fork of itself")
def test_what_a_killed_program_had_not_saved_is_offered_and_goes_on(folder, aside):
    opened = read(folder)
    child = os.fork()
    if child == 0:
        with suppress(BaseException):  # whatever goes wrong, the fork never runs on as a test
            kept = KeptDrafts(aside)
            kept.enter(opened)
            if kept.keep(edited(opened), opened.home) == "":
                os.kill(os.getpid(), signal.SIGKILL)
        os._exit(1)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    opened, kept = read(folder), KeptDrafts(aside)
    assert kept.enter(opened) is False
    (left,) = kept.left_over(opened)
    assert not left.is_old
    back = brought_back(opened, left)
    assert back.draft.entry("parts", "boss")["name"] == "brass boss"
    assert not back.home.is_saved(back.draft)
    assert kept.keep(back.draft, back.home) == ""
    kept.drop(left)
    home = save(back.draft, back.home)
    assert isinstance(home, Home)
    assert kept.keep(back.draft, home) == ""
    kept.leave()
    assert not any(aside.iterdir())
    assert KeptDrafts(aside).left_over(read(folder)) == ()


def test_another_window_is_told_and_its_draft_is_let_be(folder, aside):
    opened = read(folder)
    one, two = KeptDrafts(aside), KeptDrafts(aside)
    assert one.enter(opened) is False
    assert one.keep(edited(opened), opened.home) == ""
    assert two.enter(opened) is True
    assert two.left_over(opened) == ()
    one.leave()
    assert [dict(left.texts) for left in two.left_over(opened)] == [dict(edited(opened).texts)]
    three = KeptDrafts(aside)
    assert three.enter(opened) is True
    two.leave()
    three.leave()
    assert two.enter(opened) is False
    two.leave()


def test_what_was_made_of_another_state_of_the_files_is_marked(folder, aside):
    opened = read(folder)
    one = KeptDrafts(aside)
    one.enter(opened)
    one.keep(edited(opened), opened.home)
    one.leave()
    assert isinstance(save(edited(opened, "tin boss"), opened.home), Home)
    (left,) = KeptDrafts(aside).left_over(read(folder))
    assert left.is_old
    KeptDrafts(aside).drop(left)
    assert KeptDrafts(aside).left_over(read(folder)) == ()


def test_what_is_broken_or_of_another_folder_is_not_offered(folder, aside, tmp_path):
    opened = read(folder)
    one = KeptDrafts(aside)
    one.enter(opened)
    one.keep(edited(opened), opened.home)
    one.leave()
    elsewhere = OpenDraft(draft=opened.draft, home=Home(folder=tmp_path, saved_texts=()))
    assert KeptDrafts(aside).left_over(elsewhere) == ()
    (file,) = aside.rglob("*.json")
    whole = file.read_text(encoding="utf-8")
    file.write_text(whole[: len(whole) // 2], encoding="utf-8")
    assert KeptDrafts(aside).left_over(opened) == ()
    assert not list(aside.rglob("*.json"))


def test_where_nothing_can_be_kept_that_is_said(folder, tmp_path):
    taken = tmp_path / "a file"
    taken.write_text("", encoding="utf-8")
    opened, kept = read(folder), KeptDrafts(taken)
    assert kept.enter(opened) is False
    assert "Not a directory" in kept.keep(edited(opened), opened.home)
