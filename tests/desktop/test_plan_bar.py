"""The plan's face, its details, and the search that can be stopped."""

import threading

import pytest

from armorplan.app.in_hand import WeekPlan
from armorplan.app.rows import PlanFace
from armorplan.app.shown_plan import ShownPlan
from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.widgets.plan_bar import PlanBar
from armorplan.schedule.problem import Plan, Status


@pytest.fixture
def held_up():
    return threading.Event()


@pytest.fixture
def desk(bridge, held_up):
    def planner(_problem, *, hint, on_better, should_stop):
        while not (held_up.wait(0.002) or should_stop()):
            pass
        return Plan(status=Status.STOPPED)

    made = PlanDesk(bridge, planner)
    yield made
    assert made.close()


@pytest.fixture
def bar(bridge, desk, qtbot):
    made = PlanBar(bridge, desk)
    qtbot.addWidget(made)
    made.show()
    return made


def test_the_face_shows_the_sentence_and_when_it_is_ready(bar):
    assert bar._sentence.text() == "Ready in good time; a shorter plan might save 2 h."
    assert bar._finish.text() == "Finished Tue 05:32"


def test_what_setting_the_joints_takes_stands_under_it(bar, bridge, monkeypatch):
    assert bar._effort.isVisible()
    assert bar._effort.text() == "Setting the joints takes 92 minutes in this order."
    monkeypatch.setattr(type(bridge.session), "effort_told", lambda _self: "")
    bridge.open(bridge.session)
    assert not bar._effort.isVisible()


def test_in_a_low_window_it_stands_in_the_details_only(bar):
    bar.make_room(is_tight=True)
    assert not bar._effort.isVisible()
    assert "Setting the joints takes 92 minutes" in bar._details.text()
    bar.make_room(is_tight=False)
    assert bar._effort.isVisible()


def test_search_words_stay_behind_details(bar):
    assert not bar._details.isVisible()
    assert "bound" not in bar._sentence.text()
    bar.details.click()
    assert bar._details.isVisible()
    assert "bound 3090 min" in bar._details.text()


def test_a_plan_without_a_finish_shows_none(bar, bridge, session, monkeypatch):
    face = PlanFace(sentence="No plan yet.", details="", finish_at=None)
    monkeypatch.setattr(type(session), "plan_face", lambda _self: face)
    bridge.changed.emit()
    assert not bar._finish.isVisible()


def test_planning_shows_and_can_be_stopped(bar, desk, qtbot):
    assert not bar._busy.isVisible()
    desk.plan()
    assert bar._busy.isVisible()
    bar._stop.click()
    qtbot.waitUntil(lambda: not bar._busy.isVisible())
    assert not bar._stop.isVisible()


def test_where_no_plan_is_possible_it_says_where_to_ask_what_would_free_it(bar, bridge):
    plan = Plan(status=Status.NONE, conflict="Nobody is there.")
    shown = ShownPlan(plan=plan, origin_at=bridge.clock.now())
    bridge.session.week_plan = WeekPlan(problem=bridge.session.problem(), shown=shown)
    bar.refresh()
    assert bar._sentence.text().endswith(" Ctrl+U says what would free it.")
