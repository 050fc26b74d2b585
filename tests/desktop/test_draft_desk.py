"""Edits wait their turn, can be taken back, and none is lost."""

import errno
import os
import shutil
from threading import Event

import pytest
from desktop.drafts import open_draft
from folders_cli import copy_sample

from armorplan.app.draft import refused
from armorplan.app.drafting import Home
from armorplan.desktop.draft_desk import DraftDesk

NAME = ("parts", "boss", "name")


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def desk(qapp, folder):
    made = DraftDesk()
    made.open(open_draft(folder))
    yield made
    assert made.close()


def named(name):
    return lambda draft: draft.put((NAME, name))


def name_of(desk):
    return desk.draft.entry("parts", "boss")["name"]


def test_an_edit_is_made_off_the_windows_thread_and_can_be_taken_back(desk, qtbot):
    with qtbot.waitSignal(desk.shown):
        desk.edit(named("brass boss"), "Name of boss")
    assert name_of(desk) == "brass boss"
    assert desk.is_dirty
    assert desk.stack.undoText() == "Name of boss"
    desk.undo()
    assert name_of(desk) == "boss"
    assert not desk.is_dirty
    desk.redo()
    assert name_of(desk) == "brass boss"


def test_edits_made_in_a_hurry_come_one_after_the_other(desk, qtbot):
    for number in range(4):
        desk.edit(
            lambda draft, n=number: draft.put(
                (NAME, f"{draft.entry('parts', 'boss')['name']}{n}")
            ),
            f"edit {number}",
        )
    qtbot.waitUntil(lambda: desk.stack.count() == 4)
    assert name_of(desk) == "boss0123"


def test_taking_back_and_saving_wait_for_what_is_under_way_and_do_not_hold_the_window(
    desk, folder, qtbot
):
    may_edit = Event()

    def slow(draft):
        may_edit.wait(10)
        return named("one")(draft)

    desk.edit(slow, "one")
    desk.edit(named("two"), "two")
    desk.undo()
    desk.save()
    desk.redo()
    desk.back_to_saved()
    assert name_of(desk) == "boss"  # it came back at once, with nothing made yet
    assert desk.is_dirty
    with qtbot.waitSignal(desk.saved):
        may_edit.set()
    assert 'name = "one"' in (folder / "pattern.toml").read_text(encoding="utf-8")
    assert desk.stack.undoText() == "back to what is saved"
    desk.undo()
    assert name_of(desk) == "two"


def test_what_is_refused_is_told_and_changes_nothing(desk, qtbot):
    with qtbot.waitSignal(desk.refused) as told:
        desk.edit(lambda _draft: refused("No.", "Do not."), "an edit", about=NAME)
    about, refusal = told.args
    assert about == NAME
    assert refusal.words == "No. Do not."
    assert desk.stack.count() == 0


def test_an_edit_that_fails_in_its_thread_is_told(desk, qtbot):
    def fail(_draft):
        raise ArithmeticError("a fault inside")

    with qtbot.waitSignal(desk.refused) as told, qtbot.captureExceptions():
        desk.edit(fail, "an edit")
    assert "a fault inside" in told.args[1].words


def test_saving_writes_what_was_typed_just_before(desk, folder, qtbot):
    desk.edit(named("brass boss"), "name")
    with qtbot.waitSignal(desk.saved) as saved:
        desk.save()
    assert saved.args == [folder]
    assert 'name = "brass boss"' in (folder / "pattern.toml").read_text(encoding="utf-8")
    assert not desk.is_dirty
    desk.undo()
    assert desk.is_dirty


def test_an_edit_of_the_former_draft_never_lands_in_the_next(desk, folder, tmp_path, qtbot):
    may_edit, edited = Event(), []

    def slow(draft):
        may_edit.wait(10)
        edited.append(draft)
        return named("brass boss")(draft)

    desk.edit(slow, "Name of boss")
    other = tmp_path / "other"
    shutil.copytree(folder, other)
    desk.open(open_draft(other))
    may_edit.set()
    qtbot.waitUntil(lambda: bool(edited))
    qtbot.wait(50)
    assert name_of(desk) == "boss"
    assert not desk.is_dirty
    desk.edit(named("tin boss"), "name")
    qtbot.waitUntil(lambda: name_of(desk) == "tin boss")


def test_where_another_draft_is_open_by_then_a_saving_leaves_it_its_own_home(
    desk, folder, tmp_path, qtbot
):
    other = tmp_path / "other"
    shutil.copytree(folder, other)
    heard = []
    desk.saved.connect(heard.append)
    desk.save(tmp_path / "mine")
    desk.open(open_draft(other))
    qtbot.waitUntil(lambda: not desk._keeper.is_busy)
    assert (tmp_path / "mine" / "pattern.toml").exists()
    assert desk.home.folder == other
    assert heard == []


def test_a_full_disk_keeps_the_draft(desk, folder, qtbot, monkeypatch):
    def full(_handle):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    desk.edit(named("brass boss"), "name")
    monkeypatch.setattr(os, "fsync", full)
    with qtbot.waitSignal(desk.unsaved) as told:
        desk.save()
    assert "space" in told.args[0].text
    assert desk.is_dirty
    assert name_of(desk) == "brass boss"
    assert 'name = "boss"' in (folder / "pattern.toml").read_text(encoding="utf-8")


def test_a_copy_becomes_the_new_home(desk, folder, qtbot):
    desk.edit(named("brass boss"), "name")
    with qtbot.waitSignal(desk.saved):
        desk.save(folder.parent / "mine")
    assert desk.home == Home(folder=folder.parent / "mine", saved_texts=desk.draft.texts)
    assert 'name = "boss"' in (folder / "pattern.toml").read_text(encoding="utf-8")


def test_all_changes_can_be_dropped_and_brought_back(desk):
    desk.edit(named("one"), "one")
    desk.edit(lambda draft: draft.drop_entry("own_steps", "none"), "nothing")
    desk.back_to_saved()
    desk.settle()
    assert not desk.is_dirty
    desk.undo()
    assert name_of(desk) == "one"


def test_without_a_draft_there_is_nothing_to_lose(qapp):
    desk = DraftDesk()
    assert not desk.is_open
    assert not desk.is_dirty
    with pytest.raises(LookupError):
        _ = desk.draft
