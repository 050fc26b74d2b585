"""Which of two comes first, in the window: choosers, answer, and the way to what is named."""

import threading
from dataclasses import replace

import pytest
from desktop.fake_between import FakeBetween
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt, QUrl
from PySide6.QtTest import QTest

from armorplan.app.asking_between import BetweenTold
from armorplan.desktop.between_html import between_page, force_sign, force_word
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.widgets.between_panel import BetweenPanel
from armorplan.desktop.widgets.deck import ANSWER_PX, SEEN_PX, Deck
from armorplan.relations.model import Force


@pytest.fixture
def panel(qtbot, bridge):
    made = BetweenPanel(bridge)
    qtbot.addWidget(made)
    made.resize(560, 400)
    made.show()
    yield made
    made.desk.close()
    made.close()


@pytest.fixture
def needed(session):
    """Return a step that needs another, and that one."""
    then = next(s for s in session.steps if s.needs)
    return then.needs[0], then.id


def begun(qtbot, panel, bridge, *steps):
    bridge.choose_steps(steps)
    panel.begin()
    qtbot.waitUntil(lambda: panel.one.count() > 0)


def asked(qtbot, panel, one, other):
    panel.one.take_step(one)
    panel.other.take_step(other)
    qtbot.waitUntil(lambda: "'" in panel.answer.toPlainText())
    return panel.answer.toPlainText()


def test_it_starts_with_the_step_in_hand_and_asks_for_the_other(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge, needed[1])
    assert panel.one.written() == f"step:{needed[1]}"
    assert panel.other.written() == ""
    assert "Choose two" in panel.answer.toPlainText()
    qtbot.waitUntil(panel.other.hasFocus)


def test_two_chosen_steps_are_the_two_that_are_asked_of(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge, *needed)
    qtbot.waitUntil(lambda: "Yes:" in panel.answer.toPlainText())
    assert panel.other.written() == f"step:{needed[1]}"


def test_the_answer_says_how_hard_it_holds_with_numbers_and_source(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge)
    text = asked(qtbot, panel, *needed).replace("\N{LINE SEPARATOR}", "\n")
    assert text.startswith("✖ cannot be otherwise")
    assert "Once both rows are <shut>, no tool gets there." in text
    assert "reach 250 mm; way in 290 mm." in text
    assert "[reach-before-closed] Source: common practice, no source" in text
    assert "Set after it: out of reach." in text


def test_swapped_it_is_asked_the_other_way_and_what_is_overruled_is_shown_so(
    qtbot, panel, bridge, needed
):
    begun(qtbot, panel, bridge)
    asked(qtbot, panel, *needed)
    QTest.mouseClick(panel.swap, Qt.MouseButton.LeftButton)
    assert panel.one.written() == f"step:{needed[1]}"
    qtbot.waitUntil(lambda: "Nothing forces it" in panel.answer.toPlainText())
    text = panel.answer.toPlainText()
    assert text.startswith("✓ nothing forces it")
    assert "⊘ overruled: " in text
    assert "Overruled: a rod was made." in text


def test_a_named_step_leads_to_it_and_lights_what_it_is_held_against(
    qtbot, panel, bridge, session
):
    then = next(s for s in session.steps if s.joints and s.needs)
    begun(qtbot, panel, bridge)
    asked(qtbot, panel, then.needs[0], then.id)
    panel.answer.anchorClicked.emit(QUrl("go:0"))
    lit = session.choose_steps((then.needs[0], then.id))
    assert bridge.selection.steps == (then.needs[0],)
    assert set(bridge.selection.joints) == set(lit.joints) != set()


def test_the_way_to_telling_of_a_tool_is_there_where_a_fastener_is_set(
    qtbot, panel, bridge, session, needed
):
    begun(qtbot, panel, bridge)
    assert "A tool did" not in asked(qtbot, panel, *needed)
    then = next(s for s in session.steps if s.joints and s.needs)
    assert f"get to '{then.title}'" in asked(qtbot, panel, needed[0], then.id)
    with qtbot.waitSignal(panel.tried) as tried:
        panel.answer.anchorClicked.emit(QUrl("try:"))
    assert tried.args == [then.id]


def test_by_keys_alone_one_gets_to_a_named_step(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge)
    asked(qtbot, panel, *needed)
    panel.activateWindow()
    panel.answer.setFocus()
    QTest.keyClick(panel.answer, Qt.Key.Key_Tab)
    QTest.keyClick(panel.answer, Qt.Key.Key_Return)
    assert bridge.selection.steps == (needed[0],)


def test_a_part_of_a_name_finds_it_and_enter_takes_it(qtbot, panel, bridge):
    begun(qtbot, panel, bridge)
    line = panel.one.line
    line.selectAll()
    QTest.keyClicks(line, "BOUR WHIS")
    found = panel.one.offers
    assert found.completionCount() == 1
    assert found.currentCompletion() == "Harbour whistle – part"
    panel.one.take("harbour WHISTLE – part")
    assert line.cursorPosition() == 0
    assert panel.one.written() == "part:whistle"


def test_what_is_not_known_is_told_in_the_same_words_as_elsewhere(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge, needed[0])
    QTest.keyClicks(panel.other.line, "nonsense")
    QTest.keyClick(panel.other.line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "is called 'nonsense'" in panel.answer.toPlainText())


def test_the_chosen_step_can_be_taken_into_either(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge, needed[0])
    bridge.choose_steps((needed[1],))
    QTest.mouseClick(panel._takes[1], Qt.MouseButton.LeftButton)
    assert panel.other.written() == f"step:{needed[1]}"
    bridge.choose_steps(())
    with qtbot.waitSignal(bridge.said, check_params_cb=lambda said: "Choose a step" in said):
        QTest.mouseClick(panel._takes[0], Qt.MouseButton.LeftButton)


def test_it_is_asked_off_the_windows_thread(qtbot, panel, bridge, session, needed, monkeypatch):
    seen = []
    plain = FakeBetween.told

    def told(self, one, other) -> BetweenTold:
        seen.append(threading.current_thread() is threading.main_thread())
        return plain(self, one, other)

    monkeypatch.setattr(FakeBetween, "told", told)
    begun(qtbot, panel, bridge)
    asked(qtbot, panel, *needed)
    assert seen == [False]


def test_another_build_brings_its_own_names(qtbot, panel, bridge, needed):
    begun(qtbot, panel, bridge, needed[0])
    former = panel.one.count()
    bridge.session.steps = bridge.session.steps[:20]
    bridge.open(bridge.session)
    qtbot.waitUntil(lambda: panel.one.count() < former)


def test_an_answer_of_the_former_build_is_never_shown_in_the_next(
    qtbot, panel, bridge, needed, monkeypatch
):
    may_tell, told = threading.Event(), []
    plain = FakeBetween.told

    def slow(self, one, other) -> BetweenTold:
        may_tell.wait(10)
        told.append(one)
        return plain(self, one, other)

    begun(qtbot, panel, bridge)
    monkeypatch.setattr(FakeBetween, "told", slow)
    panel.one.take_step(needed[0])
    panel.other.take_step(needed[1])
    panel.hide()
    bridge.open(FakeSession.of(20))
    may_tell.set()
    qtbot.waitUntil(lambda: bool(told))
    qtbot.wait(50)
    assert "Choose two" in panel.answer.toPlainText()
    assert not panel.desk._asker.is_busy


def test_names_of_the_former_build_are_never_offered_in_the_next(
    qtbot, panel, bridge, monkeypatch
):
    may_name, named = threading.Event(), []
    plain = FakeBetween.names

    def slow(self):
        may_name.wait(10)
        named.append(len(self.steps))
        return plain(self)

    monkeypatch.setattr(FakeBetween, "names", slow)
    panel.begin()
    panel.hide()
    bridge.open(FakeSession.of(20))
    may_name.set()
    qtbot.waitUntil(lambda: bool(named))
    qtbot.wait(50)
    assert panel.one.count() == 0
    panel.show()
    panel.begin()
    qtbot.waitUntil(lambda: panel.one.count() > 0)
    assert named[-1] == len(bridge.session.steps)


def test_shown_again_after_another_build_was_opened_it_is_asked_of_that_one(
    qtbot, panel, bridge, needed
):
    begun(qtbot, panel, bridge)
    asked(qtbot, panel, *needed)
    panel.hide()
    bridge.open(FakeSession.of(92))
    assert "Choose two" in panel.answer.toPlainText()
    panel.show()
    qtbot.waitUntil(lambda: "Yes:" in panel.answer.toPlainText())


def test_every_force_has_a_sign_and_a_word_of_its_own():
    forces = [*Force, ""]
    assert len({force_sign(force) for force in forces}) == len(forces)
    assert len({force_word(force) for force in forces}) == len(forces)


def test_usual_practice_that_costs_minutes_is_called_dearer(session, needed):
    told = FakeBetween(steps=session.steps).told(f"step:{needed[0]}", f"step:{needed[1]}")
    for price_min, word in ((0.0, "only usual practice"), (1.5, "otherwise only dearer")):
        row = replace(told.row, force=Force.USUAL, price_min=price_min)
        assert word in between_page(replace(told, row=row), LIGHT).html


def test_names_out_of_patterns_are_escaped(session, needed):
    told = FakeBetween(steps=session.steps).told(f"step:{needed[0]}", f"step:{needed[1]}")
    for colours in (LIGHT, DARK):
        html = between_page(told, colours).html
        assert "&lt;shut&gt;" in html
        assert colours.alarm in html


def test_the_deck_turns_to_it_and_back(qtbot, bridge):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(700, 700)
    deck.show()
    bridge.choose_steps(bridge.session.ready_steps()[:1])
    deck.go_between()
    assert deck.between.isVisible()
    assert not deck.why.isVisible()
    qtbot.waitUntil(lambda: bool(deck.between.one.written()))
    deck.go_why()
    assert deck.why.isVisible()
    # As low and narrow as it was without it, but for the line of tabs.
    bare = deck.tabs.minimumSizeHint()
    assert deck.minimumSizeHint().width() <= 380
    assert deck.minimumSizeHint().height() - bare.height() < 120
    deck.end_jobs()
    deck.close()


def test_beside_the_answer_the_parts_stay_large_enough_to_be_seen(qtbot, bridge):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(560, 560)
    deck.show()
    deck.go(1)
    deck.show_reach(True)
    assert deck.parts.isVisible()
    bar = deck.parts.closing_bar
    qtbot.waitUntil(lambda: bar.place.text().startswith("0 of"))
    bar.make_room(is_tight=True)
    deck.go_between()
    qtbot.waitUntil(lambda: deck.parts.canvas.height() >= SEEN_PX - 5)
    bar.fold.setChecked(True)
    qtbot.waitUntil(bar.key.isVisible)
    qtbot.waitUntil(lambda: deck.parts.canvas.height() >= SEEN_PX - 5)
    assert deck.reasons.height() >= ANSWER_PX - 10
    deck.end_jobs()
    deck.close()


def test_in_a_low_window_reach_has_the_room_of_the_reasons_until_they_are_wanted(qtbot, bridge):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(380, 300)
    deck.show()
    deck.show_reach(True)
    assert deck.reasons.isHidden()
    deck.go_why()
    assert deck.reasons.isVisible()
    deck.show_reach(False)
    assert deck.reasons.isVisible()
    deck.show_reach(True)
    deck.resize(380, 600)
    assert deck.reasons.isVisible()
    deck.end_jobs()
    deck.close()


def test_where_there_is_no_room_for_both_the_picture_makes_way_until_it_is_wanted(qtbot, bridge):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(380, 350)
    deck.show()
    deck.go_between()
    assert deck.between.isVisible()
    assert not deck.tabs.isVisible()
    deck.go_why()
    assert deck.tabs.isVisible()
    deck.go_between()
    deck.go(0)
    assert deck.tabs.isVisible()
    deck.end_jobs()
    deck.close()


def test_tab_goes_from_the_one_name_to_the_other_and_on_to_the_answer(
    qtbot, panel, bridge, needed
):
    begun(qtbot, panel, bridge, needed[1])
    panel.one.setFocus()
    for expected in (panel.other, panel.answer):
        QTest.keyClick(panel.focusWidget(), Qt.Key.Key_Tab)
        assert panel.focusWidget() is expected
