"""The whole window on the invented build: every action, every control, every key."""

import itertools
from pathlib import Path

import pytest
from desktop.fake_session import FakeSession
from desktop.week_scene import week_plan
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QFileDialog,
    QGraphicsView,
    QHeaderView,
    QLabel,
    QLineEdit,
    QTabBar,
    QTabWidget,
)

from armorplan.app.rows import BenchState
from armorplan.app.week_rows import By
from armorplan.desktop.actions import TABLE
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.settings import ALL_MARKS, GROUPING, READY_ONLY, TEXT_PCT, THEME
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.keys_page import KeysPage
from armorplan.desktop.widgets.main_window import USUAL_SIZE_PX, MainWindow, Means
from armorplan.desktop.widgets.timer_card import TimerCard
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.schedule.problem import Plan, Status

SAMPLES = (Path("elbow_cop"), Path("collar"))
NO_SVG = Finding(code="no-svg", severity=Severity.ERROR, text="No SVG.", remedy="Add one.")


def answer_at_once(_problem, *, hint, on_better, should_stop, at_hand=None):
    return Plan(status=Status.BEST)


def read(folder: Path, _going_on: str):
    if folder.name == "broken":
        raise UnreadableError((NO_SVG,))
    return lambda: FakeSession.of(30)


@pytest.fixture
def window(bridge, settings, qtbot, tmp_path, qapp):
    font, palette = qapp.font(), qapp.palette()
    made = MainWindow(bridge, Means(settings, answer_at_once, read, SAMPLES, tmp_path / "log"))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close()
    qapp.styleHints().setColorScheme(Qt.ColorScheme.Unknown)
    qapp.setFont(font)
    qapp.setPalette(palette)


def press(window, action_id):
    window.actions_by_id[action_id].trigger()


def test_it_opens_on_the_first_ready_step(window, bridge, session):
    assert window.windowTitle() == "Lantern watch, first set"
    assert bridge.selection.steps == session.ready_steps()[:1]
    assert window.focusWidget() is window._checklist.view


def test_it_opens_no_larger_than_the_screen(window):
    room = window.screen().availableGeometry()
    assert room.width() < USUAL_SIZE_PX[0]
    assert room.contains(window.geometry())
    assert window.minimumWidth() < 720


def test_it_fits_half_a_screen_of_900_pixels_with_reach_and_findings_shown(window, bridge, qtbot):
    bridge.open(FakeSession.of(92, (NO_SVG,)))
    press(window, "reach_shown")

    def is_low():
        """Once the lines have left the room, the window takes the size that it is drawn to."""
        window.resize(720, 420)
        return window.height() < 425

    qtbot.waitUntil(is_low)
    assert not window._findings.list.isVisible()
    press(window, "reach_shown")
    window.resize(720, 900)
    assert window._findings.list.isVisible()
    press(window, "reach_shown")
    assert not window._findings.list.isVisible()
    press(window, "reach_shown")
    assert window._findings.list.isVisible()
    press(window, "go_between")
    assert not window._findings.list.isVisible()
    press(window, "go_why")
    assert window._findings.list.isVisible()


def opened_again(window, bridge):
    bridge.open(bridge.session)
    window._checklist.words.setFocus()
    window._checklist.view.setFocus()


def test_with_nothing_ready_it_opens_on_what_is_due_soonest(window, bridge, session, clock):
    late, soon = [s.id for s in session.steps if s.kind == "dry"][:2]
    bridge.done(tuple(s.id for s in session.steps if s.id not in {late, soon}))
    bridge.start((late, soon))
    opened_again(window, bridge)
    assert session.ready_steps() == ()
    expected = min(session.timers(), key=lambda t: t.due_at).step
    assert bridge.selection.steps == (expected,)
    assert window._checklist.view.current_row().id == expected


def test_with_everything_done_it_opens_with_nothing_chosen(window, bridge, session):
    bridge.done(tuple(s.id for s in session.steps))
    window._checklist.view.setCurrentIndex(QModelIndex())
    opened_again(window, bridge)
    assert window._checklist.view.hasFocus()
    assert bridge.selection.steps == ()


def test_every_control_has_a_name_to_be_heard(window):
    kinds = (QAbstractButton, QAbstractItemView, QLineEdit, QGraphicsView, QTabWidget)
    controls = itertools.chain.from_iterable(window.findChildren(kind) for kind in kinds)
    nameless = [
        (type(c).__name__, c.objectName(), c.parent().objectName())
        for c in controls
        if not isinstance(c, QHeaderView)  # heard through its sections
        and not isinstance(c.parent(), QTabBar)  # Qt's own arrows
        and not c.objectName().startswith("qt_")
        and not (c.accessibleName() or getattr(c, "text", str)())
    ]
    assert nameless == []


def test_every_action_of_the_table_can_be_reached_and_has_its_keys(window):
    for row in TABLE:
        action = window.actions_by_id[row.id]
        assert [k.toString() for k in action.shortcuts()] == [
            QKeySequence(k).toString() for k in row.keys
        ]
    in_menus = {a for menu in window.menuBar().actions() for a in menu.menu().actions()}
    assert all(a.shortcut().toString() or a.isSeparator() for a in in_menus)


def test_no_two_keys_of_the_window_clash(window):
    keys = [
        k.toString()
        for a in window.findChildren(type(window.actions_by_id["tick"]))
        for k in a.shortcuts()
    ]
    assert len(keys) == len(set(keys))


def test_bench_actions_work_from_anywhere(window, bridge, session):
    step = bridge.selection.steps[0]
    press(window, "start_or_pause")
    assert session.states()[step] is BenchState.RUNNING
    press(window, "tick")
    assert session.states()[step] is BenchState.DONE
    press(window, "take_back")
    assert session.states()[step] is BenchState.RUNNING
    press(window, "restore")
    assert session.states()[step] is BenchState.DONE


def test_what_would_be_taken_back_is_named(window):
    back = window.actions_by_id["take_back"]
    assert not back.isEnabled()
    press(window, "tick")
    assert back.isEnabled()
    assert back.text() == "Take back: Done: Cut the lower petal"
    assert back.iconText() == "Take back\nCtrl+Z"
    said = window.findChild(QLabel, "said")
    assert said.text() == "Done: Cut the lower petal – Ctrl+Z takes it back."
    press(window, "tick")  # another, so that one more could be taken back
    press(window, "take_back")
    assert said.text().endswith("– Ctrl+Shift+Z restores it.")
    assert "Ctrl+Z" not in said.text()
    press(window, "restore")
    assert said.text().startswith("Restored: ")
    assert said.text().endswith("– Ctrl+Z takes it back.")


def test_each_panel_is_reached_by_key(window, bridge):
    bridge.start(bridge.session.ready_steps()[:1])
    window._findings.show_findings((NO_SVG,))
    for action_id, panel in (
        ("go_parts", window._deck.tabs.widget(0)),
        ("go_shapes", window._deck.tabs.widget(1)),
        ("go_assembly", window._deck.tabs.widget(2)),
        ("go_steps", window._deck.tabs.widget(3)),
        ("go_days", window._deck.tabs.widget(4)),
        ("go_drying", window._deck.tabs.widget(5)),
        ("go_needs", window._deck.tabs.widget(6)),
        ("go_why", window._deck.why),
        ("go_timers", window.timing.strip),
        ("go_findings", window._findings),
        ("find_words", window._checklist.words),
        ("go_checklist", window._checklist.view),
    ):
        press(window, action_id)
        focused = window.focusWidget()
        assert focused is panel or panel.isAncestorOf(focused), action_id


def test_looks_change_and_are_remembered(window, settings, qapp):
    assert settings.value(THEME) == "system"
    press(window, "next_look")
    assert colours_of(qapp.palette()) is LIGHT
    press(window, "next_look")
    assert colours_of(qapp.palette()) is DARK
    assert settings.value(THEME) == "dark"
    before = qapp.font().pointSizeF()
    press(window, "text_larger")
    assert qapp.font().pointSizeF() > before
    assert settings.value(TEXT_PCT) == 110
    press(window, "text_smaller")
    press(window, "text_smaller")
    assert settings.value(TEXT_PCT) == 90
    press(window, "text_usual")
    assert settings.value(TEXT_PCT) == 100


def test_filters_are_remembered(window, settings):
    press(window, "ready_only")
    press(window, "by_day")
    press(window, "all_marks")
    assert settings.value(READY_ONLY) is True
    assert settings.value(ALL_MARKS) is True
    assert settings.value(GROUPING) == "by day"
    assert window.actions_by_id["by_day"].iconText().startswith("✓ By day")


def test_place_and_shares_come_back(bridge, settings, qtbot, tmp_path, qapp):
    def opened():
        means = Means(settings, answer_at_once, read, (), tmp_path / "log")
        made = MainWindow(Bridge(bridge.session, bridge.clock), means)
        qtbot.addWidget(made)
        made.show()
        return made

    first = opened()
    first.resize(780, 700)  # the offscreen screen is hardly wider
    first._split.setSizes([380, 396])
    shares = first._split.sizes()
    first.close()
    second = opened()
    assert (second.width(), second.height()) == (780, 700)
    assert second._split.sizes() == shares
    second.close()


@pytest.mark.parametrize("size", [(1024, 768), (1440, 900), (3840, 2160)])
def test_it_fits_the_screens_it_is_meant_for(window, size, qtbot):
    window.resize(*size)
    assert (window.width(), window.height()) == size
    assert window.minimumSizeHint().width() <= 1024
    assert window.minimumSizeHint().height() <= 768
    assert window.timing.strip.isVisible()
    assert window._checklist.view.viewport().height() > 250


def test_a_plan_is_sought_after_an_action(window, session, qtbot):
    press(window, "tick")
    qtbot.waitUntil(lambda: len(session.plans) == 1)
    press(window, "plan_again")
    qtbot.waitUntil(lambda: len(session.plans) == 2)


def test_details_follow_button_and_menu(window):
    press(window, "plan_details")
    assert window._plan_bar._details.isVisible()
    window._plan_bar.details.click()
    assert not window.actions_by_id["plan_details"].isChecked()


def test_a_sample_opens_in_place_of_the_build(window, bridge, qtbot):
    sample = window.findChild(type(window.actions_by_id["tick"]), "sample_collar")
    assert sample.shortcut().toString() == "Ctrl+Alt+2"
    with qtbot.waitSignal(bridge.opened):
        sample.trigger()
    qtbot.waitUntil(lambda: not window.desk.is_busy)
    assert len(bridge.session.steps) == 30
    assert bridge.selection.steps == bridge.session.ready_steps()[:1]
    assert window._checklist.view.current_row().steps == bridge.selection.steps


def test_a_broken_folder_shows_its_findings(window, bridge, session, qtbot, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: "broken")
    press(window, "open_folder")
    qtbot.waitUntil(window._findings.isVisible)
    assert window._findings.list.item(0).text().endswith("error: No SVG. Add one.")
    assert bridge.session is session


def test_no_folder_chosen_changes_nothing(window, bridge, session, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: "")
    press(window, "open_folder")
    assert bridge.session is session


def test_a_bare_drawing_is_chosen_as_a_file(window, bridge, qtbot, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("petals.svg", ""))
    with qtbot.waitSignal(bridge.opened):
        press(window, "open_drawing")
    qtbot.waitUntil(lambda: not window.desk.is_busy)
    assert len(bridge.session.steps) == 30


def test_a_shop_is_chosen_as_a_file(window, bridge, qtbot, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("harbour/shop.toml", ""))
    with qtbot.waitSignal(bridge.opened):
        press(window, "open_shop")
    qtbot.waitUntil(lambda: not window.desk.is_busy)
    assert len(bridge.session.steps) == 30


def test_no_drawing_chosen_changes_nothing(window, bridge, session, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    press(window, "open_drawing")
    assert bridge.session is session


def test_the_keys_page_opens_beside_the_bench(window, qtbot):
    press(window, "show_keys")
    page = window.findChild(KeysPage)
    assert page.isVisible()
    assert not page.isModal()
    page.close()


def test_the_notice_of_what_it_is_not_is_always_in_sight(window):
    notice = window.findChild(QLabel, "costume_notice")
    assert notice.isVisible()
    assert notice.text() == "Costume, not protective equipment."


def test_what_rings_is_answered_from_the_pages_beside_the_window_as_well(
    window, bridge, clock, qtbot
):
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(7)
    window.timing._ticker.tick()
    assert len(window.timing._ticker.ringing) == 1
    press(window, "show_keys")
    page = window.findChild(KeysPage)
    page.activateWindow()
    qtbot.waitUntil(page.isActiveWindow)
    qtbot.keyClick(page, Qt.Key.Key_F5)
    assert window.timing._ticker.ringing == ()
    page.close()


def test_timers_stay_in_sight_in_every_view(window, bridge):
    bridge.start(bridge.session.ready_steps()[:1])
    for action_id in (
        "go_parts",
        "go_shapes",
        "go_assembly",
        "go_steps",
        "go_days",
        "go_drying",
        "go_needs",
        "go_between",
        "reach_shown",
    ):
        press(window, action_id)
        assert not window.findChild(TimerCard).visibleRegion().isEmpty(), action_id


def test_leaving_closes_and_stops_the_threads(window):
    press(window, "leave")
    assert not window.isVisible()
    assert not window.desk.is_busy


def test_the_week_has_the_room_of_what_is_glanced_at(window, bridge):
    bridge.open(FakeSession.of(92, (NO_SVG,)))
    window.resize(1024, 768)
    press(window, "go_parts")
    assert window._findings.list.isVisible()
    press(window, "go_days")
    assert not window._findings.list.isVisible()
    assert not window._plan_bar._effort.isVisible()
    press(window, "go_parts")
    assert window._findings.list.isVisible()
    assert window._plan_bar._effort.isVisible()


def test_the_week_takes_its_letters_as_soon_as_it_is_gone_to(window, qtbot):
    press(window, "go_days")
    assert window.focusWidget() is window._deck.week.canvas
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_L)
    assert window._deck.week.week.by is By.PLACE


def test_a_build_opened_while_one_looks_at_the_week_leaves_it_the_keys(window, bridge):
    press(window, "go_days")
    bridge.open(FakeSession.of(30))
    assert window.focusWidget() is window._deck.week.canvas
    press(window, "go_parts")
    bridge.open(FakeSession.of(30))
    assert window.focusWidget() is window._checklist.view


def test_what_was_done_with_the_plan_stands_beside_it(window, bridge):
    bridge.session.week_plan = week_plan()
    press(window, "keep_promise")
    assert window._plan_bar._said.text() == "The plan as it stands is kept as promised."
    assert window._plan_bar._said.isVisible()


def test_beside_the_week_the_list_is_narrower_and_as_wide_again_beside_the_rest(window):
    window.resize(1440, 900)
    press(window, "go_parts")
    wide = window._split.sizes()
    press(window, "go_days")
    narrow = window._split.sizes()
    assert narrow[0] < wide[0] * 0.9
    press(window, "go_drying")
    assert window._split.sizes() == wide
    press(window, "go_days")
    assert window._split.sizes() == narrow


def test_where_it_is_drawn_by_hand_beside_the_week_it_stays(window):
    window.resize(1440, 900)
    press(window, "go_days")
    window._split.splitterMoved.emit(500, 1)
    drawn = window._split.sizes()
    press(window, "go_parts")
    assert window._split.sizes() == drawn
