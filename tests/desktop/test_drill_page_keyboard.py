"""Practice by keys: one who chooses what to practise keeps the keyboard, whatever was left open."""

import threading

import pytest
from desktop.fake_practice import CLOSE, RIGHT, STRAP, TRIM
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.desktop.widgets.drill_answer_foot import At
from armorplan.desktop.widgets.drill_page import PracticePanel
from armorplan.desktop.widgets.panel_page import PanelPage
from armorplan.practice.grades import Grade

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
PLAIN = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def panel(qtbot, bridge, window):
    page = PanelPage(PracticePanel(bridge), "Practice", (984, 728), window)
    qtbot.addWidget(page)
    page.show()
    page.panel.begin()
    settle(qtbot, page.panel)
    yield page.panel
    page.close()


def settle(qtbot, panel):
    qtbot.waitUntil(lambda: not panel.pane.desk.is_busy)


def press(panel, key, modifier=PLAIN):
    """Press a key where the keyboard is."""
    QTest.keyClick(panel.window().focusWidget() or panel, key, modifier)


def hand_in(panel, order):
    panel.pane.view.form.show_answer(order, editable=True)
    press(panel, Qt.Key.Key_Return, CTRL)


def assert_stays_in_the_kinds(qtbot, panel, who):
    """The next keys are the list's of the kinds again: none of them goes into the name."""
    settle(qtbot, panel)
    assert panel.window().focusWidget() is panel.bar.kind
    for key in (Qt.Key.Key_X, Qt.Key.Key_Y, Qt.Key.Key_Tab):
        press(panel, key)
    settle(qtbot, panel)
    assert (panel.who.box.currentText(), panel.who.person) == who


@pytest.mark.parametrize("key", [Qt.Key.Key_Down, Qt.Key.Key_End], ids=["down", "end"])
def test_a_kind_chosen_at_the_second_question_leaves_the_keyboard_there(
    qtbot, panel, session, key
):
    who = (panel.who.box.currentText(), panel.who.person)
    hand_in(panel, RIGHT)
    settle(qtbot, panel)
    assert panel.pane.at is At.WHY
    press(panel, Qt.Key.Key_K, ALT)
    assert panel.window().focusWidget() is panel.bar.kind
    press(panel, key)
    settle(qtbot, panel)
    assert panel.pane.at is At.ASKED
    assert_stays_in_the_kinds(qtbot, panel, who)
    assert [row[3] for row in session.practice.kept] == [Grade.KNEW]


def test_a_kind_chosen_while_an_answer_is_judged_leaves_the_keyboard_there(qtbot, panel, session):
    who = (panel.who.box.currentText(), panel.who.person)
    session.practice.hold = threading.Event()
    hand_in(panel, (CLOSE, STRAP, TRIM))
    assert panel.pane.at is At.JUDGING
    press(panel, Qt.Key.Key_K, ALT)
    press(panel, Qt.Key.Key_End)
    session.practice.hold.set()
    settle(qtbot, panel)
    qtbot.waitUntil(lambda: panel.pane.at is At.ASKED)
    assert_stays_in_the_kinds(qtbot, panel, who)
    assert [row[3] for row in session.practice.kept] == [Grade.MISSED]


def test_a_number_typed_at_the_second_question_leaves_the_keyboard_there(qtbot, panel):
    hand_in(panel, RIGHT)
    settle(qtbot, panel)
    panel.bar.number.setFocus()
    panel.bar.number.selectAll()
    press(panel, Qt.Key.Key_Up)
    settle(qtbot, panel)
    assert panel.bar.number.text() == "Exercise 8"
    assert panel.window().focusWidget() is panel.bar.number


def test_the_second_question_left_by_its_key_gives_the_keyboard_to_what_comes_next(qtbot, panel):
    hand_in(panel, RIGHT)
    settle(qtbot, panel)
    press(panel, Qt.Key.Key_N, CTRL)
    assert panel.pane.at is At.TOLD
    assert panel.window().focusWidget() is panel.pane.view.foot.go_on
