"""Changes that a window had not saved when it was ended are offered where the pattern is edited."""

import pytest
from desktop.drafts import open_draft
from desktop.edit_bench import edit_bench
from PySide6.QtWidgets import QMessageBox, QPushButton

from armorplan.app.autosave import KeptDrafts
from armorplan.store.places import drafts_folder

NAME = ("parts", "boss", "name")


@pytest.fixture
def bench(tmp_path, qtbot, qapp, monkeypatch):
    yield from edit_bench(tmp_path, qtbot, monkeypatch)


def leave_unsaved(folder) -> None:
    """Keep an edit aside as a window does that is then ended."""
    opened, kept = open_draft(folder), KeptDrafts(drafts_folder())
    kept.enter(opened)
    kept.keep(opened.draft.put((NAME, "brass boss")), opened.home)
    kept.leave()


def left_files() -> list:
    return list(drafts_folder().rglob("*.json"))


def asked(bench, qtbot) -> QMessageBox:
    page = bench.show(qtbot)
    qtbot.waitUntil(lambda: page.findChild(QMessageBox, "draft_offer") is not None)
    return page.findChild(QMessageBox, "draft_offer")


def button(box, words) -> QPushButton:
    return next(each for each in box.buttons() if words in each.text())


def test_they_are_gone_on_with_and_nothing_is_written_before_saving(bench, qtbot):
    leave_unsaved(bench.folder)
    box = asked(bench, qtbot)
    assert "Elbow cop of the lantern watch" in box.text()
    button(box, "Go on").click()
    qtbot.waitUntil(lambda: bench.desk.draft.entry("parts", "boss")["name"] == "brass boss")
    assert bench.desk.is_dirty
    assert "brass boss" not in (bench.folder / "pattern.toml").read_text(encoding="utf-8")
    bench.door.close()
    assert left_files() == []


def test_they_are_dropped_or_asked_for_another_time(bench, qtbot):
    leave_unsaved(bench.folder)
    button(asked(bench, qtbot), "Later").click()
    assert len(left_files()) == 1
    bench.desk.entered.emit(open_draft(bench.folder))
    qtbot.waitUntil(lambda: bench.page.findChild(QMessageBox, "draft_offer") is not None)
    button(bench.page.findChildren(QMessageBox, "draft_offer")[-1], "Drop").click()
    assert left_files() == []
    assert not bench.desk.is_dirty
