"""Timers in the window: set, answered, stopped, gone to, looked at, told when they were missed."""

from dataclasses import replace
from datetime import timedelta

import pytest
from desktop.fake_session import FakeSession
from desktop.fake_timing import bell, ringing_once
from desktop.test_timers_model import row
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QSystemTrayIcon

from armorplan.app.bells import BellKind
from armorplan.desktop.actions_timing import TIMING
from armorplan.desktop.opening import Opener
from armorplan.desktop.settings import CALM, SOUND
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.learned_bar import LearnedBar
from armorplan.desktop.widgets.missed_page import MissedPage
from armorplan.desktop.widgets.timer_card import TimerCard
from armorplan.desktop.widgets.timer_desk import TimerDesk
from armorplan.kernel.errors import WorkshopError


def resume(build):
    if build == "gone-1":
        message = "There is no build 'gone-1' in this workshop."
        raise WorkshopError(message)
    return lambda: FakeSession.of(30)


@pytest.fixture
def desk(bridge, session, window, settings, monkeypatch):
    monkeypatch.setattr(QSystemTrayIcon, "isSystemTrayAvailable", lambda: False)
    window.resize(900, 200)
    opener = Opener(bridge, lambda *_: None, window, resumer=resume)
    made = TimerDesk(bridge, Ticker(bridge, window), settings, opener, window)
    made.sounder._known.clear()
    window.setCentralWidget(made.strip)
    window.statusBar().addWidget(made.entry, 1)
    made.opener = opener
    yield made
    made.close()
    assert opener.close()


@pytest.fixture
def said(bridge):
    found = []
    bridge.said.connect(found.append)
    return found


def test_while_it_is_typed_the_line_says_how_a_time_is_read(desk, session, qtbot):
    desk.entry.begin()
    words = desk.entry.findChild(QLineEdit, "timer_words")
    told = desk.entry.findChild(QLabel, "timer_told")
    assert told.isVisible()
    assert "30 s is 30 seconds" in told.text()
    qtbot.keyClicks(words, "0:30 glue")
    assert told.text() == "Rings in 30 min."
    words.clear()
    qtbot.keyClicks(words, "1 min 30 s stir")
    assert told.text() == "Rings in 1 min 30 s."
    qtbot.keyClick(words, Qt.Key.Key_Return)
    assert [(r.title, r.planned_min) for r in session.timing.more] == [("stir", 1.5)]


def typed(desk, text, qtbot):
    desk.entry.begin()
    words = desk.entry.findChild(QLineEdit, "timer_words")
    words.setText(text)
    qtbot.keyClick(words, Qt.Key.Key_Return)


def test_a_timer_is_set_in_one_line(desk, session, said, qtbot):
    typed(desk, "12 glue", qtbot)
    assert said[-1] == "Set: glue"
    assert not desk.entry.isVisible()
    card = desk.strip.findChild(TimerCard)
    assert (card.face().left, card.text(), card.row.free) == ("12:00", "glue", True)
    typed(desk, "5", qtbot)
    assert said[-1] == "Set: Timer of 5 min"


def test_nonsense_stays_in_the_line_with_what_would_be_right(desk, session, said, qtbot):
    typed(desk, "glue", qtbot)
    told = desk.entry.findChild(QLabel, "timer_told")
    assert told.isVisible()
    assert "12 glue" in told.text()
    assert session.timing.more == ()
    qtbot.keyClick(desk.entry.findChild(QLineEdit, "timer_words"), Qt.Key.Key_Escape)
    assert not desk.entry.isVisible()
    assert session.timing.more == ()


def test_what_was_set_is_stopped_the_one_with_the_keyboard_first(desk, session, said, qtbot):
    desk.stop()
    assert said[-1] == "No timer was set by hand. F12 sets one."
    typed(desk, "5 stir", qtbot)
    typed(desk, "9 glue", qtbot)
    desk.strip.focus_first()
    qtbot.keyClick(desk.strip.window().focusWidget(), Qt.Key.Key_Right)
    desk.stop()
    assert [r.title for r in session.timing.more] == ["stir"]


def test_a_steps_timer_cannot_be_stopped_and_says_when_it_ends(desk, bridge, session, said, qtbot):
    bridge.start(session.ready_steps()[:1])
    qtbot.keyClick(desk.strip.findChild(TimerCard), Qt.Key.Key_Delete)
    assert said[-1] == "Cut the lower petal: it ends when its step is ticked."


def test_a_card_chooses_its_step_and_quiet_answers_it(desk, bridge, session, clock, said):
    step = session.ready_steps()[0]
    bridge.start((step,))
    card = desk.strip.findChild(TimerCard)
    card.click()
    assert bridge.selection.steps == (step,)
    clock.advance(7)
    desk._ticker.tick()
    assert said[-1] == "Time is up: Cut the lower petal"
    desk.strip.findChild(QPushButton, "timers_quiet").click()
    assert said[-1] == "Heard: Cut the lower petal"
    assert not card.face().is_filled


def test_another_builds_card_opens_that_build_at_its_step(desk, bridge, session, qtbot):
    step = FakeSession.of(30).steps[3].id
    timer = row(step=step, build="collar-2", build_title="Collar")
    session.timing.more = (ringing_once(timer),)
    desk._ticker.refresh()
    with qtbot.waitSignal(bridge.opened):
        desk.strip.findChild(TimerCard).click()
    assert bridge.session is not session
    assert bridge.selection.steps == (step,)


def test_a_build_that_is_gone_is_told(desk, bridge, session, said, qtbot):
    session.timing.more = (ringing_once(row(build="gone-1", build_title="Gone")),)
    desk._ticker.refresh()
    with qtbot.waitSignal(desk.opener.refused):
        desk.strip.findChild(TimerCard).click()
    assert said[-1] == "Not opened: gone-1. There is no build 'gone-1' in this workshop."
    assert bridge.session is session


def test_a_look_is_told_of_the_drying_that_is_meant(desk, bridge, session, said):
    desk.look(True)
    assert said[-1] == "Choose a drying that is under way first."
    one, other = [s.id for s in session.steps if s.kind == "dry"][:2]
    bridge.start((one,))
    desk.look(True)
    assert session.drying.pressed == [("dry", one)]
    bridge.start((other,))
    bridge.choose_steps(())
    desk.look(False)
    assert len(session.drying.pressed) == 1
    bridge.choose_steps((other,))
    assert desk.strip.findChild(QPushButton, "timers_still_damp").isVisible()
    desk.strip.findChild(QPushButton, "timers_still_damp").click()
    assert session.drying.pressed[1:] == [("damp", other)]
    bridge.choose_steps(session.ready_steps()[:1])
    assert not desk.strip.findChild(QPushButton, "timers_still_damp").isVisible()


def test_a_look_is_about_the_drying_in_sight_also_where_several_dry(
    qtbot, desk, bridge, session, said
):
    one, other = [s.id for s in session.steps if s.kind == "dry"][:2]
    for step in (one, other):
        bridge.start((step,))
    bridge.choose_steps(())
    page = LearnedBar(bridge)
    qtbot.addWidget(page)
    desk.speak_of(page)
    still_damp = desk.strip.findChild(QPushButton, "timers_still_damp")
    page.show_choice(next(c for c in session.dryings().steps if c.step == other))
    page.show()
    assert still_damp.isVisible()
    desk.look(True)
    desk.look(False)
    assert session.drying.pressed == [("dry", other), ("damp", other)]
    page.hide()
    assert still_damp.isHidden()
    desk.look(True)
    assert said[-1] == "Choose a drying that is under way first."


def test_a_look_is_told_from_the_card_of_a_drying(desk, bridge, session):
    dry = next(s.id for s in session.steps if s.kind == "dry")
    bridge.start((dry,))
    actions = desk.strip.findChild(TimerCard).menu().actions()
    assert [a.text() for a in actions[1:]] == ["Dry now", "Still damp"]
    actions[2].trigger()
    actions[1].trigger()
    assert session.drying.pressed == [("damp", dry), ("dry", dry)]


def test_what_rings_is_answered_from_its_card(desk, bridge, session, clock, said):
    bridge.start(session.ready_steps()[:1])
    clock.advance(7)
    desk._ticker.tick()
    actions = desk.strip.findChild(TimerCard).menu().actions()
    assert actions[1].text() == "Quiet: I heard it"
    actions[1].trigger()
    assert said[-1] == "Heard: Cut the lower petal"


def test_a_window_is_not_looked_at(desk, session, said):
    timer = row(drying=True)
    session.timing.more = (ringing_once(timer, BellKind.CLOSES),)
    desk._ticker.refresh()
    desk.look(True)
    assert said[-1] == "Choose a drying that is under way first."


def test_keys_that_are_named_in_sentences_are_those_of_the_table():
    keys = {action.id: action.keys for action in TIMING}
    assert (keys["quiet"][0], keys["set_timer"][0]) == ("F5", "F12")


def test_settings_are_kept(desk, settings):
    desk.turn_sound(False)
    desk.be_calm(True)
    assert settings.value(SOUND) is False
    assert settings.value(CALM) is True


def missed(session, clock, **changes):
    timer = row(step=session.steps[2].id)
    at = clock.now() - timedelta(hours=9)
    return bell(
        timer, BellKind.LATE, at, meaning="Strap: too dry to shape. Case again.", **changes
    )


def test_what_passed_while_it_was_closed_is_told_with_what_it_means(
    desk, bridge, session, clock, window, qtbot
):
    desk.missed.tell()
    assert window.findChild(MissedPage) is None
    session.timing.passed = (missed(session, clock),)
    desk.missed.tell()
    page = window.findChild(MissedPage)
    assert not page.isModal()
    words = " ".join(label.text() for label in page.findChildren(QLabel))
    assert "One moment passed while the program was closed or the computer slept." in words
    assert "Dry the strap – late since" in words
    assert "too dry to shape. Case again." in words
    go = page.findChild(QPushButton, "missed_go")
    assert go.minimumHeight() >= 48
    go.click()
    assert bridge.selection.steps == (session.steps[2].id,)
    assert session.timing.told == 0
    qtbot.keyClick(page, Qt.Key.Key_Escape)
    assert not page.isVisible()
    assert session.timing.told == 1
    desk.missed.tell()
    assert not [p for p in window.findChildren(MissedPage) if p.isVisible()]
    desk.missed.show()
    again = next(p for p in window.findChildren(MissedPage) if p.isVisible())
    assert again.findChild(QPushButton, "missed_go")


def test_what_a_suspend_slept_through_is_told_when_it_wakes(desk, session, clock, window):
    session.timing.passed = (missed(session, clock),)
    clock.advance(1 / 60)
    desk._ticker.tick()
    assert window.findChild(MissedPage) is None
    clock.advance(500)
    desk._ticker.tick()
    assert window.findChild(MissedPage).isVisible()


def test_a_doubtful_clock_is_told(desk, session, said):
    session.timing.doubt = "Is the computer's clock right?"
    desk.missed.tell()
    assert said == ["Is the computer's clock right?"]


def test_a_timer_set_by_hand_is_lengthened_and_paused(desk, session, said, qtbot):
    typed(desk, "5 stir", qtbot)
    card = desk.strip.findChild(TimerCard)
    qtbot.keyClick(card, Qt.Key.Key_Plus)
    assert card.face().left == "10:00"
    card.menu().actions()[2].trigger()
    assert said[-1] == "Paused."
    assert card.face().small[0] == "paused"


def test_a_steps_timer_is_paused_from_its_card_but_not_lengthened(
    desk, bridge, session, said, qtbot
):
    bridge.start(session.ready_steps()[:1])
    card = desk.strip.findChild(TimerCard)
    qtbot.keyClick(card, Qt.Key.Key_Plus)
    assert said[-1] == "Cut the lower petal: only a timer set by hand can be lengthened."
    card.menu().actions()[1].trigger()
    assert session.timing.rows[0].running_since is None


def test_the_page_opens_again_by_its_action_and_enter_closes_it(desk, window, qtbot):
    desk.missed.show()
    page = window.findChild(MissedPage)
    assert "Nothing passed" in page.findChild(QLabel, "missed_count").text()
    qtbot.keyClick(page, Qt.Key.Key_Return)
    assert not page.isVisible()


def test_a_missed_moment_of_another_build_leads_there(desk, bridge, session, clock, window, qtbot):
    step = f"collar-2/{FakeSession.of(30).steps[0].id.partition('/')[2]}"
    there = replace(missed(session, clock), step=step, build_title="Collar")
    session.timing.passed = (there,)
    desk.missed.tell()
    asked = []
    desk.opener.open_build = lambda build, at: asked.append((build, at))
    window.findChild(MissedPage).findChild(QPushButton, "missed_go").click()
    assert asked == [("collar-2", step)]


def test_the_clock_set_ahead_is_told(desk, clock, said, monkeypatch):
    boot_s = clock.boot_seconds()
    monkeypatch.setattr(clock, "boot_seconds", lambda: boot_s + 1)
    clock.advance(60)
    desk._ticker.tick()
    told = "The computer's clock was set ahead by 1 h. The timers were read again."
    assert told in said


def test_leaving_says_what_goes_on(desk, bridge, session):
    assert desk.farewell() == ""
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    assert desk.farewell().startswith("Armorplan is closed. A timer goes on: Cut the lower petal.")
    bridge.start((second,))
    assert desk.farewell().startswith("Armorplan is closed. 2 timers go on.")


def test_a_timer_set_by_hand_has_no_step_to_go_to(desk, said, qtbot):
    typed(desk, "5 stir", qtbot)
    desk.strip.findChild(TimerCard).click()
    assert said[-1] == "stir: set by hand, for no step."
