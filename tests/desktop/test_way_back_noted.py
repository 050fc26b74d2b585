"""What was told on the way to the ways back: kept where one goes on, taken back where one goes back."""

from dataclasses import replace

import pytest
from desktop.fake_way_back import STUCK
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.app.way_back_rows import WaysBack
from armorplan.desktop.widgets.way_back_panel import WayBackPanel


@pytest.fixture
def panel(qtbot, bridge, session):
    bridge.choose_steps((next(s.id for s in session.steps if s.joints),))
    made = WayBackPanel(bridge)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    yield made
    made.close_jobs()


def key(panel, *keys):
    for one in keys:
        target = panel.answers if panel.answers.isVisible() else panel.ways.table
        QTest.keyClick(target if target.isVisible() else panel.ways.told, one)


def to_ways(qtbot, panel):
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: panel.ways.isVisible() and not panel.desk.is_busy)


def test_going_back_from_the_ways_takes_back_what_was_noted_for_them(
    qtbot, panel, session, bridge, monkeypatch
):
    noted = ["Noted: closed too soon."]
    monkeypatch.setattr(type(session), "can_undo", lambda _self: noted[-1])
    monkeypatch.setattr(bridge, "undo", lambda: noted.append("taken back"))
    to_ways(qtbot, panel)
    key(panel, Qt.Key.Key_Escape)
    assert noted[-1] == "taken back"
    assert panel.heading.text() == "What went wrong?"
    to_ways(qtbot, panel)
    noted.append("Done: Cut the upper petal.")
    key(panel, Qt.Key.Key_Escape)
    assert noted[-1] == "Done: Cut the upper petal."


def test_where_nothing_is_in_the_way_one_goes_on_and_it_stays_noted(
    qtbot, panel, session, bridge, monkeypatch
):
    session.way_back.ways = WaysBack(stuck=())
    monkeypatch.setattr(bridge, "undo", lambda: pytest.fail("taken back"))
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: panel.heading.text() == "Nothing is in the way")
    assert panel.go_on.isEnabled()
    with qtbot.waitSignal(panel.left):
        panel.take()
    assert len(session.way_back.told) == 1


def test_at_the_bench_two_ways_are_seen_at_once_and_reasons_are_below(qtbot, bridge, session):
    panel = WayBackPanel(bridge, big=True)
    qtbot.addWidget(panel)
    font = panel.font()
    font.setPixelSize(31)
    panel.setFont(font)
    panel.resize(1010, 540)
    panel.show()
    session.way_back.stuck_now = (STUCK, replace(STUCK, step="other", title="Rivet 5"))
    panel.begin()
    assert "And 1 more like these." in panel.hint.text()
    to_ways(qtbot, panel)
    assert STUCK.title in panel.hint.text()
    assert "no tool gets there" not in panel.hint.text()
    assert "no tool gets there" in panel.ways.told.toPlainText()
    table = panel.ways.table
    assert table.viewport().height() >= 2 * table.rowHeight(0)
    panel.close_jobs()
