"""The way back in the window: told in a few keys, shown side by side, one of them chosen."""

import threading
from dataclasses import replace

import pytest
from desktop.fake_session import FakeSession
from desktop.fake_way_back import DRILL, FOUND, LEAVE, REMAKE, STUCK, FakeDates
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLabel

from armorplan.app.entries import NOT_RECORDED
from armorplan.app.way_back_rows import WaysBack
from armorplan.desktop.way_back_words import (
    headings,
    way_rows,
)
from armorplan.desktop.widgets.way_back_lists import BIG_TARGET_PX
from armorplan.desktop.widgets.way_back_panel import WayBackPanel
from armorplan.orders.recovery.mistakes import MistakeKind


@pytest.fixture
def panel(qtbot, bridge, session):
    step = next(s for s in session.steps if s.joints)
    bridge.choose_steps((step.id,))
    made = WayBackPanel(bridge)
    qtbot.addWidget(made)
    made.resize(800, 600)
    made.show()
    made.begin()
    yield made
    made.close_jobs()
    made.close()


def key(panel, *keys):
    for one in keys:
        target = panel.answers if panel.answers.isVisible() else panel.ways.table
        QTest.keyClick(target if target.isVisible() else panel.ways.told, one)


def to_ways(qtbot, panel):
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: panel.ways.isVisible() and not panel.desk.is_busy)


def test_two_keys_tell_that_the_chosen_step_was_closed_too_soon(qtbot, panel, session, bridge):
    to_ways(qtbot, panel)
    (mistake,) = session.way_back.told
    assert mistake.kind is MistakeKind.CLOSED
    assert mistake.about == bridge.selection.steps
    assert panel.heading.text() == "Ways back, the best first"
    above = panel.hint.text()
    assert above.startswith("Noted: closed too soon. Going back takes it back; leaving keeps it.")
    assert "1 step cannot be done as things stand." in above
    assert "Rivet 4 of the upper row: The boss &lt;covers&gt; its head" in above


def test_enter_and_arrows_alone_work_it_from_end_to_end(qtbot, panel, session):
    key(panel, Qt.Key.Key_Down, Qt.Key.Key_Return)
    assert panel.heading.text() == "Which hole?"
    key(panel, Qt.Key.Key_Return)
    assert panel.heading.text() == "How far is it from its place?"
    key(panel, Qt.Key.Key_Right, Qt.Key.Key_Space)
    assert panel.heading.text() == "Which way is it out of its place?"
    key(panel, Qt.Key.Key_Return)
    qtbot.waitUntil(panel.ways.isVisible)
    assert session.way_back.told[0].mm == 4.0
    assert session.way_back.told[0].way == ""
    qtbot.waitUntil(lambda: panel.ways.way() is not None)
    key(panel, Qt.Key.Key_Down)
    with qtbot.waitSignal(panel.settled):
        key(panel, Qt.Key.Key_Return)
    assert [way.id for way in session.way_back.picked] == [LEAVE.id]
    with qtbot.waitSignal(panel.left):
        key(panel, Qt.Key.Key_Return)


def test_the_verbs_of_the_bench_go_round_and_do_the_same(qtbot, panel, session):
    count = panel.answers.count()
    panel.step(-1)
    assert panel.answers.currentRow() == count - 1
    panel.step(1)
    panel.take()
    panel.take()
    qtbot.waitUntil(lambda: panel.ways.way() is not None)
    panel.step(1)
    panel.step(1)
    panel.step(1)
    assert panel.ways.way().id == DRILL.id
    panel.take()
    assert [way.id for way in session.way_back.picked] == [DRILL.id]


def test_escape_goes_back_question_by_question_and_then_leaves(qtbot, panel):
    key(panel, Qt.Key.Key_1, Qt.Key.Key_Escape)
    assert panel.heading.text() == "What went wrong?"
    with qtbot.waitSignal(panel.left):
        key(panel, Qt.Key.Key_Escape)


def test_what_is_stuck_is_told_at_once_and_leads_to_the_ways_in_one_key(qtbot, panel, session):
    session.way_back.stuck_now = (STUCK,)
    panel.begin()
    assert "1 step cannot be done as things stand." in panel.hint.text()
    assert "&lt;covers&gt;" in panel.hint.text()
    key(panel, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: panel.ways.way() is not None)
    assert session.way_back.told == []


def test_the_first_step_of_the_way_chosen_is_in_hand_then(qtbot, panel, bridge):
    to_ways(qtbot, panel)
    panel.take()
    assert bridge.selection.steps == (STUCK.step,)


def test_what_the_disk_refuses_is_told_and_can_be_tried_again(qtbot, panel, session, bridge):
    way_back = session.way_back
    tell, choose = way_back.tell, way_back.choose
    refused = f"{NOT_RECORDED} The disk is full."
    way_back.tell = lambda _mistake: refused
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    assert panel.hint.text() == refused
    assert panel.answers.isVisible()
    way_back.tell, way_back.choose = tell, lambda _way: refused
    key(panel, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: panel.ways.way() is not None)
    panel.take()
    assert panel.hint.text() == refused
    way_back.choose = choose
    panel.take()
    assert [way.id for way in way_back.picked] == [DRILL.id]


def kinds(panel):
    rows = [panel.answers.item(row).text() for row in range(panel.answers.count())]
    return [row for row in rows if int(row.partition(" ")[0]) <= len(MistakeKind)]


def test_a_way_that_was_chosen_is_dropped_behind_a_question_and_no_digit_changes(panel, session):
    before = kinds(panel)
    session.way_back.picked = [DRILL]
    session.way_back.stuck_now = (STUCK,)
    panel.begin()
    assert kinds(panel) == before
    last = panel.answers.item(panel.answers.count() - 1).text()
    assert last == "8  Drop the way back: Drill out the boss"
    key(panel, Qt.Key.Key_8)
    assert panel.heading.text() == "Drop the way back: Drill out the boss?"
    key(panel, Qt.Key.Key_1)
    assert session.way_back.picked == [DRILL]
    key(panel, Qt.Key.Key_8, Qt.Key.Key_Escape)
    assert session.way_back.picked == [DRILL]
    assert panel.heading.text() == "What went wrong?"
    key(panel, Qt.Key.Key_8, Qt.Key.Key_2)
    assert session.way_back.picked == []
    assert panel.heading.text() == "What went wrong?"


def test_a_digit_that_stands_before_no_answer_does_nothing(panel, session):
    assert panel.answers.row_of(3) == -1
    key(panel, Qt.Key.Key_3)
    assert panel.heading.text() == "What went wrong?"
    assert session.way_back.told == []


def test_ways_stand_side_by_side_with_all_that_is_asked(qtbot, panel):
    panel.resize(1400, 600)
    to_ways(qtbot, panel)
    table = panel.ways.table
    qtbot.waitUntil(lambda: not table.isColumnHidden(6))
    shown = [n for n in range(len(headings())) if not table.isColumnHidden(n)]
    assert shown == list(range(len(headings())))
    drill, leave, remake = way_rows(FOUND.ways)
    assert drill.cells == (
        "✓ Drill out the boss",
        "13 min",
        "none",
        "1 × rivet 11 mm",
        "little risk,\n6 %",
        "yes",
        "",
    )
    assert remake.cells[4] == "▲ a high risk,\n25 %"
    assert "Risk: little risk, 6 %" in drill.spoken
    two_lines = 2 * panel.fontMetrics().lineSpacing()
    assert table.verticalHeader().defaultSectionSize() >= two_lines
    assert "The cheapest" in drill.spoken
    assert leave.cells[0] == "Live with it"
    assert leave.cells[5] == "yes"


def test_what_it_does_to_the_date_follows_with_the_same_way_in_hand(qtbot, panel, session):
    may_date = threading.Event()
    session.way_back.dating = lambda found: FakeDates(found, may_date)
    to_ways(qtbot, panel)
    panel.step(1)
    assert panel.ways.table.isColumnHidden(6)
    may_date.set()
    qtbot.waitUntil(lambda: "Finished 20 min later" in panel.ways.told.toPlainText())
    assert panel.ways.way().id == LEAVE.id


def test_what_is_folded_away_in_a_narrow_panel_is_told_below(qtbot, panel):
    panel.resize(420, 600)
    to_ways(qtbot, panel)
    assert panel.ways.table.isColumnHidden(3)
    text = panel.ways.told.toPlainText()
    assert "It uses up 1 × rivet 11 mm." in text
    assert "Stays for good: The boss's hole is 0.5 mm wider." in text
    assert "Wear eye protection; clamp the piece." in text


def test_it_is_looked_for_off_the_windows_thread(qtbot, panel, session):
    seen = []

    def asking():
        seen.append(threading.current_thread() is threading.main_thread())
        return FOUND

    session.way_back.asking = lambda _solver: asking
    to_ways(qtbot, panel)
    assert seen == [False]


def test_an_answer_of_the_former_build_is_dropped(qtbot, panel, session, bridge):
    may_tell, told = threading.Event(), []

    def asking():
        may_tell.wait(10)
        told.append(1)
        return FOUND

    session.way_back.asking = lambda _solver: asking
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    bridge.open(FakeSession.of(20))
    may_tell.set()
    qtbot.waitUntil(lambda: bool(told))
    qtbot.wait(30)
    assert panel.heading.text() == "What went wrong?"
    assert panel.answers.isVisible()


def test_put_away_it_asks_nothing_of_another_build(panel, bridge):
    panel.hide()
    other = FakeSession.of(20)
    asked = []
    other.diagram = lambda: asked.append(1)
    bridge.open(other)
    assert asked == []


def test_what_is_ticked_meanwhile_has_the_ways_looked_for_anew(qtbot, panel, session, bridge):
    to_ways(qtbot, panel)
    session.way_back.ways = replace(FOUND, ways=(REMAKE,))
    bridge.done(session.ready_steps()[:1])
    qtbot.waitUntil(lambda: panel.ways.way() is not None and panel.ways.way().id == REMAKE.id)


def test_where_nothing_leads_back_it_says_so_and_nothing_can_be_chosen(qtbot, panel, session):
    session.way_back.ways = WaysBack(stuck=(STUCK,), told="Nothing leads back.")
    to_ways(qtbot, panel)
    assert panel.heading.text() == "No way back"
    assert "Nothing leads back." in panel.ways.told.toPlainText()
    assert panel.go_on.text() == "Go on"
    panel.take()
    assert session.way_back.picked == []


def test_where_nothing_is_wrong_any_more_it_says_so(qtbot, panel, session, bridge):
    to_ways(qtbot, panel)
    session.way_back.ways = WaysBack(stuck=())
    bridge.done(session.ready_steps()[:1])
    qtbot.waitUntil(lambda: panel.heading.text() == "Nothing is in the way")


def test_an_error_is_told_in_its_words(qtbot, panel, session):
    def asking():
        raise ValueError("The drawing is gone.")

    session.way_back.asking = lambda _solver: asking
    key(panel, Qt.Key.Key_1, Qt.Key.Key_1)
    qtbot.waitUntil(lambda: panel.hint.text() == "The drawing is gone.")


def test_big_targets_are_as_high_as_a_knuckle_wants_them(qtbot, bridge):
    big = WayBackPanel(bridge, big=True)
    qtbot.addWidget(big)
    font = big.font()
    font.setPixelSize(35)
    big.setFont(font)
    big.resize(1024, 700)
    big.show()
    big.begin()
    assert all(
        b.height() >= BIG_TARGET_PX for b in big.findChildren(QAbstractButton) if b.isVisible()
    )
    rows = range(big.answers.count())
    assert all(big.answers.sizeHintForRow(row) >= BIG_TARGET_PX for row in rows)
    assert big.heading.font().pixelSize() > 35
    big.take()
    big.take()
    qtbot.waitUntil(lambda: big.ways.way() is not None)
    assert big.ways.table.rowHeight(0) >= BIG_TARGET_PX
    big.close_jobs()
    big.close()


def test_every_control_has_a_name(qtbot, panel):
    to_ways(qtbot, panel)
    for widget in (panel.answers, panel.ways.table, panel.ways.told):
        assert widget.accessibleName()
    for label in panel.findChildren(QLabel):
        assert label.objectName()
