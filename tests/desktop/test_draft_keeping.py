"""Unsaved edits are kept aside a moment after they are made, and gone with saving or closing."""

import pytest
from desktop.drafts import open_draft
from folders_cli import copy_sample

from armorplan.app.autosave import KeptDrafts
from armorplan.desktop.draft_desk import DraftDesk
from armorplan.desktop.draft_keeping import DraftKeeping

NAME = ("parts", "boss", "name")


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def aside(tmp_path):
    return tmp_path / "aside"


@pytest.fixture
def desk(qtbot):
    desk = DraftDesk()
    yield desk
    desk.close()


def kept_files(aside) -> list[str]:
    return [path.read_text(encoding="utf-8") for path in sorted(aside.rglob("*.json"))]


def test_an_edit_is_kept_until_it_is_saved(qtbot, desk, folder, aside):
    keeping = DraftKeeping(desk, KeptDrafts(aside))
    desk.open(open_draft(folder))
    desk.edit(lambda draft: draft.put((NAME, "brass boss")), "name")
    qtbot.waitUntil(lambda: len(kept_files(aside)) == 1)
    assert "brass boss" in kept_files(aside)[0]
    with qtbot.waitSignal(desk.saved):
        desk.save()
    qtbot.waitUntil(lambda: kept_files(aside) == [])
    assert keeping.close()
    assert not any(aside.iterdir())


def test_what_was_left_is_offered_taken_up_and_can_be_taken_back(qtbot, desk, folder, aside):
    opened, other = open_draft(folder), KeptDrafts(aside)
    other.enter(opened)
    other.keep(opened.draft.put((NAME, "brass boss")), opened.home)
    other.leave()
    keeping = DraftKeeping(desk, KeptDrafts(aside))
    with qtbot.waitSignal(keeping.offered) as offered:
        desk.open(opened)
    keeping.take_up(offered.args[0])
    qtbot.waitUntil(lambda: desk.draft.entry("parts", "boss")["name"] == "brass boss")
    assert desk.is_dirty
    qtbot.waitUntil(lambda: len(kept_files(aside)) == 1 and not offered.args[0].path.exists())
    desk.undo()
    assert not desk.is_dirty
    qtbot.waitUntil(lambda: kept_files(aside) == [])
    assert keeping.close()


def test_another_window_on_the_pattern_is_told(qtbot, desk, folder, aside):
    opened, other = open_draft(folder), KeptDrafts(aside)
    other.enter(opened)
    keeping = DraftKeeping(desk, KeptDrafts(aside))
    with qtbot.waitSignal(keeping.told) as told:
        desk.open(opened)
    assert "open in another window" in told.args[0]
    other.leave()
    assert keeping.close()


def test_that_nothing_can_be_kept_is_told_once(qtbot, desk, folder, tmp_path):
    blocked = tmp_path / "blocked"
    blocked.write_text("", encoding="utf-8")
    keeping = DraftKeeping(desk, KeptDrafts(blocked))
    desk.open(open_draft(folder))
    with qtbot.waitSignal(keeping.told) as told:
        desk.edit(lambda draft: draft.put((NAME, "brass boss")), "name")
    assert "cannot be kept aside" in told.args[0]
    with qtbot.assertNotEmitted(keeping.told, wait=0):
        keeping._tell_kept("Not a directory")
    assert keeping.close()
