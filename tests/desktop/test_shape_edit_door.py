"""The drawing table and the page of texts work on one draft; what is saved lies on the bench."""

import pytest
from desktop.edit_bench import edit_bench
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QPushButton

from armorplan.desktop.shape_edit_choice import Choice

SIDES = ("left", "right")
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def bench(tmp_path, qtbot, qapp, monkeypatch):
    yield from edit_bench(tmp_path, qtbot, monkeypatch)


def test_one_draft_for_both_windows_and_the_bench(bench, qtbot, monkeypatch):
    bench.choose("rivet/left_row_2")
    bench.window.actions_by_id["edit_shapes"].trigger()
    qtbot.waitUntil(lambda: bench.door.table is not None)
    table = bench.door.table
    qtbot.waitUntil(lambda: bool(table.canvas.choice.holes))
    assert set(table.canvas.choice.holes) == {"left_2", "middle_left_2"}
    qtbot.keyClick(table.canvas, Qt.Key.Key_Left, CONTROL)
    qtbot.waitUntil(lambda: bench.desk.stack.count() == 1)
    page = bench.show(qtbot)
    page.findChild(QPushButton, "edit_undo").click()
    assert not bench.desk.is_dirty
    page.findChild(QPushButton, "edit_redo").click()
    with qtbot.waitSignal(bench.bridge.opened):
        qtbot.keyClick(table, Qt.Key.Key_S, CONTROL)
    assert bench.build == "elbow_cop-2"
    assert table.isVisible()
    table.doing.choose(Choice(("hole:right_2",)))
    qtbot.keyClick(table.canvas, Qt.Key.Key_Left, CONTROL)
    save = QMessageBox.StandardButton.Save
    monkeypatch.setattr(QMessageBox, "question", lambda *_given: save)
    assert bench.window.close()
    written = (bench.folder / "pattern.toml").read_text(encoding="utf-8")
    assert "version = 2" in written
    assert all(f"{side} petal: 1 hole moved by up to 1.0 mm." in written for side in SIDES)
