"""A tool tried at a joint, in the window: what it teaches, kept or not, and the build that goes on."""

from itertools import pairwise

import pytest
from desktop.fake_session import FakeSession
from desktop.fake_trials import BECOMES_MM, FakeTrials
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox

from armorplan.app.trial_sheet import SetBefore
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.settings import Settings
from armorplan.desktop.theme import palette_of
from armorplan.desktop.trial_desk import TrialDesk
from armorplan.desktop.trial_words import before_words, told_html
from armorplan.desktop.widgets.main_window import MainWindow, Means
from armorplan.desktop.widgets.trial_page import TrialPage
from armorplan.schedule.problem import Plan, Status


@pytest.fixture
def trials():
    return FakeTrials()


@pytest.fixture
def desk(bridge, trials):
    made = TrialDesk(bridge, trials)
    yield made
    made.close()


@pytest.fixture
def page(qtbot, desk):
    made = TrialPage(desk)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.close()


@pytest.fixture
def setting(session):
    return next(s for s in session.steps if s.joints)


def read(qtbot, page, step):
    page._desk.read(step.id)
    qtbot.waitUntil(lambda: page.step.text() == step.title)


def say(page, *, tool=0, did_reach=True):
    page.tool.setCurrentIndex(tool)
    page.tool.activated.emit(tool)
    (page.did if did_reach else page.did_not).click()


def test_whether_it_did_reach_is_never_answered_for_the_maker(qtbot, page, setting, trials):
    read(qtbot, page, setting)
    assert not page.did.isChecked()
    assert not page.did_not.isChecked()
    assert not page.keep.isEnabled()
    assert trials.asked == []


def test_the_tool_that_gets_there_best_is_filled_in_until_one_is_chosen(qtbot, page, setting):
    read(qtbot, page, setting)
    qtbot.waitUntil(lambda: page.tool.currentData() == "rod")
    assert "Filled in is the tool" in page.told.toPlainText()
    page.before.setCurrentIndex(1)
    qtbot.waitUntil(lambda: page.tool.currentData() == "press")
    page.tool.setCurrentIndex(0)
    page.tool.activated.emit(0)
    assert "Choose the tool that was used" in page.told.toPlainText()
    page.before.setCurrentIndex(0)
    page.before.setCurrentIndex(1)
    qtbot.wait(100)
    assert page.tool.currentData() == "rod"


def test_without_a_step_that_sets_one_all_joints_can_be_chosen_by_their_names(
    qtbot, page, setting, session, trials
):
    page._desk.read("")
    qtbot.waitUntil(lambda: page.joint.count() > 0)
    assert page.step.text() == "Any joint of the build"
    assert page.joint.count() == sum(len(s.joints) for s in session.steps)
    assert page.joint.currentIndex() == -1
    assert "Choose the joint" in page.told.toPlainText()
    page.activateWindow()
    qtbot.waitUntil(page.joint.hasFocus)
    page.did.click()
    assert trials.asked == []
    page.joint.setCurrentIndex(1)
    assert page.joint.currentText().startswith("Rivet")
    qtbot.waitUntil(page.keep.isEnabled)
    assert trials.asked[-1][0] == page.joint.currentData()


def test_what_would_change_and_flip_is_read_before_it_is_kept(qtbot, page, setting, trials):
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    text = page.told.toPlainText()
    assert "at least 290 mm" in text
    assert "Keeping it will write reach_mm = 290 in tools.toml; it is 250 now." in text
    assert "● 'boss' before both rows: only easier." in text
    assert trials.asked == [(setting.joints[0], "rod", SetBefore.ORDER, True)]
    assert trials.kept == []


def test_what_teaches_nothing_cannot_be_kept(qtbot, page, setting):
    read(qtbot, page, setting)
    say(page, did_reach=False)
    qtbot.waitUntil(lambda: "Nothing follows." in page.told.toPlainText())
    assert not page.keep.isEnabled()
    say(page, tool=1)
    qtbot.waitUntil(lambda: "No reach is known of 'press'" in page.told.toPlainText())
    assert page.told.toPlainText().startswith("✖")
    assert not page.keep.isEnabled()


def test_what_was_set_before_can_be_said(qtbot, page, setting, trials):
    read(qtbot, page, setting)
    assert [page.before.itemText(n) for n in range(3)][1:] == [
        "All that there is: 30 other joints",
        "Nothing",
    ]
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    page.before.setCurrentIndex(1)
    qtbot.waitUntil(lambda: len(trials.asked) == 2 and page.keep.isEnabled())
    assert trials.asked[-1][2] is SetBefore.ALL


def test_kept_the_build_goes_on_with_what_was_chosen_and_ticked(
    qtbot, page, setting, trials, bridge, session
):
    bridge.done(session.ready_steps()[:2])
    bridge.choose_steps((setting.id,))
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    with qtbot.waitSignal(bridge.opened):
        page.keep.click()
    assert trials.kept == [BECOMES_MM]
    assert bridge.session.build_id == "watch-2"
    assert bridge.session.states() == session.states()
    assert bridge.selection.steps == (setting.id,)
    assert page.kept.text() == "Kept for Long rod: reach_mm = 290; it was 250."
    assert page.kept.isVisible()


def test_a_tick_made_while_it_is_kept_goes_over_too(qtbot, page, setting, trials, bridge, session):
    trials.may_start.clear()
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    page.keep.click()
    assert not page.keep.isEnabled()
    ticked = session.ready_steps()[0]
    bridge.done((ticked,))
    trials.may_start.set()
    with qtbot.waitSignal(bridge.opened):
        pass
    assert trials.kept == [BECOMES_MM]
    assert len(trials.started) == 1
    assert ticked in bridge.session._bench.done


def test_where_another_build_was_opened_meanwhile_none_is_started(
    qtbot, page, setting, trials, bridge
):
    trials.may_start.clear()
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    page.keep.click()
    other = FakeSession.of(60)
    bridge.open(other)
    heard = []
    bridge.said.connect(heard.append)
    trials.may_start.set()
    qtbot.waitUntil(lambda: bool(heard))
    assert trials.kept == [BECOMES_MM]
    assert "Another build was opened meanwhile" in heard[0]
    assert bridge.session is other
    assert trials.started == []
    assert page.kept.text() == heard[0]


def test_a_sheet_of_the_former_build_gives_way_to_one_of_the_build_that_is_opened(
    qtbot, page, setting, trials, bridge, desk
):
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    bridge.open(FakeSession.of(60))
    desk.keep(page._learned)
    assert not desk.is_keeping
    qtbot.waitUntil(lambda: len(trials.asked) > 1 and page.keep.isEnabled())
    assert trials.kept == []


def test_what_could_not_be_kept_is_said_and_the_build_stays(
    qtbot, page, setting, trials, bridge, session
):
    trials.fault = "The folder cannot be made: refused. Nothing was kept."
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    page.keep.click()
    qtbot.waitUntil(lambda: "Nothing was kept." in page.told.toPlainText())
    assert bridge.session is session
    assert not page.kept.isVisible()


def test_a_step_that_sets_nothing_leads_to_all_joints(qtbot, page, setting, session):
    read(qtbot, page, setting)
    page._desk.read(next(s for s in session.steps if not s.joints).id)
    qtbot.waitUntil(lambda: page.step.text() == "Any joint of the build")
    assert (page.joint.currentIndex(), page.tool.count()) == (-1, 0)


def test_a_build_without_joints_says_so_and_leaves_no_other_sheet_standing(
    qtbot, page, setting, session
):
    read(qtbot, page, setting)
    session.steps = tuple(s for s in session.steps if not s.joints)
    page._desk.read("")
    qtbot.waitUntil(lambda: "sets a joint" in page.told.toPlainText())
    assert (page.step.text(), page.joint.count(), page.tool.count()) == ("", 0, 0)


def test_another_step_is_asked_of_anew(qtbot, page, setting, session):
    read(qtbot, page, setting)
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    read(qtbot, page, [s for s in session.steps if s.joints][-1])
    assert not page.did.isChecked()
    assert not page.keep.isEnabled()


def test_everything_has_a_name_and_is_reached_by_tab(qtbot, page, setting):
    read(qtbot, page, setting)
    for control in (*page.findChildren(QComboBox), *page.findChildren(QAbstractButton)):
        assert control.accessibleName() or control.text()
    say(page)
    qtbot.waitUntil(page.keep.isEnabled)
    page.activateWindow()
    page.joint.setFocus()
    chain = (page.joint, page.tool, page.before, page.did, page.told, page.keep)
    for one, other in pairwise(chain):
        QTest.keyClick(one, Qt.Key.Key_Tab)
        assert other.hasFocus(), other.objectName()


@pytest.mark.parametrize("colours", [LIGHT, DARK])
def test_names_are_escaped_and_coloured_by_the_theme(session, setting, trials, colours):
    trial = trials.sheet(session, setting.id)()

    class Told:
        sentences = ("Long <rod>", "It did.")
        change = "Keeping <it>"
        flips = ("1 order:", "<boss>")

    assert trial.title
    html = told_html(Told, colours)
    assert "Long &lt;rod&gt;" in html
    assert "&lt;boss&gt;" in html
    assert colours.running in html


def test_the_rounds_stand_out_from_the_ground_in_both_themes(page):
    for colours in (LIGHT, DARK):
        page.setPalette(palette_of(colours))
        ground = page.did.palette().color(QPalette.ColorRole.Base).name()
        assert ground == (colours.line if colours.dark else colours.panel)
        dot = page.did.palette().color(QPalette.ColorRole.Text).name()
        assert dot == (colours.window if colours.dark else colours.text)


def test_no_joint_set_before_is_nothing():
    assert before_words(SetBefore.ORDER, 0) == "What the order sets before it: nothing"
    assert before_words(SetBefore.TICKED, 1) == "What is ticked: 1 other joint"


def test_the_window_opens_it_by_its_key_and_from_the_answer(
    qtbot, bridge, trials, setting, tmp_path
):
    def planner(_problem, *, hint, on_better, should_stop):
        return Plan(status=Status.BEST)

    settings = Settings(tmp_path / "settings.json")
    means = Means(settings, planner, None, (), tmp_path / "log", trials=trials)
    window = MainWindow(bridge, means)
    qtbot.addWidget(window)
    window.show()
    bridge.choose_steps(())
    window.actions_by_id["tell_trial"].trigger()
    page = window.findChild(TrialPage)
    qtbot.waitUntil(lambda: page.joint.count() > 1)
    bridge.choose_steps((setting.id,))
    window.actions_by_id["tell_trial"].trigger()
    qtbot.waitUntil(lambda: page.step.text() == setting.title)
    other = [s for s in bridge.session.steps if s.joints][-1]
    window._deck.between.tried.emit(other.id)
    qtbot.waitUntil(lambda: page.step.text() == other.title)
    window.close()
