"""The plan's face, its details, and the search that can be stopped."""

import threading
from dataclasses import replace
from datetime import timedelta

import pytest
from desktop.wish_bench import SHOP
from schedule.promise.promise_scenes import MONDAY_AT, hands, plan_of, problem_of

from armorplan.app.in_hand import WeekPlan
from armorplan.app.plan_face import PlanFace
from armorplan.app.promises import promises
from armorplan.app.shown_plan import ShownPlan
from armorplan.desktop import odds_desk
from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.tonight_desk import TonightDesk
from armorplan.desktop.widgets.plan_bar import PlanBar
from armorplan.kernel.errors import ArmorplanError
from armorplan.schedule.problem import Job, Plan, Status


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


def test_in_a_wide_window_nothing_is_said_twice(bar):
    bar.make_room(is_tight=False)
    assert "Setting the joints" not in bar._details.text()
    assert "Setting the joints" in bar._effort.text()


def test_of_several_builds_the_finish_names_the_one_it_is_of(bar, bridge, monkeypatch):
    face = replace(
        bridge.session.plan_face(),
        finish_of="Cop",
        all_finish_at=bridge.session.plan_face().finish_at + timedelta(days=1),
    )
    monkeypatch.setattr(type(bridge.session), "plan_face", lambda _self: face)
    bar.refresh()
    assert bar._finish.text() == "Cop: finished Tue 05:32, all builds Wed 05:32"


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


@pytest.fixture
def dated(bridge, monkeypatch):
    """A week of one build that is due, with a little to spare."""
    monkeypatch.setattr(odds_desk, "SETTLE_MS", 0)
    cut = hands("cut", 300, spread=0.3, cause="hands: cut")
    cop = Job(id="cop", title="The cop", activities=("cut",), due_min=800)
    shown = ShownPlan(plan=plan_of(cut=(480, 780, "maker")), origin_at=MONDAY_AT)
    week = WeekPlan(problem=problem_of([cut], jobs=(cop,)), shown=shown)
    monkeypatch.setattr(type(bridge.session), "shop", lambda _self: SHOP, raising=False)
    bridge.session.week_plan = week
    return week


def test_beside_the_plan_stands_how_sure_its_dates_are(bar, bridge, dated, qtbot):
    bridge.changed.emit()
    assert bar._sentence.text().endswith("How sure that is, is reckoned once the plan rests.")
    assert bar.surety.of_build("The cop") is None
    qtbot.waitUntil(lambda: "“The cop” (kept in" in bar._sentence.text())
    assert bar._sentence.text().endswith(": Builds in hand (Ctrl+Shift+D) says why.")
    assert 0 <= bar.surety.of_build("The cop").kept_pct <= 100
    assert bar.surety.of_build("Another") is None
    bar.end_jobs()


def test_while_better_plans_come_the_odds_of_a_former_one_are_not_told(
    bar, bridge, desk, dated, qtbot
):
    bridge.changed.emit()
    qtbot.waitUntil(lambda: "of 100 runs" in bar._sentence.text())
    desk.plan()
    later = plan_of(cut=(490, 790, "maker"))
    bridge.session.week_plan = replace(dated, shown=replace(dated.shown, plan=later))
    bridge.changed.emit()
    assert "of 100 runs" not in bar._sentence.text()
    desk.stop()
    qtbot.waitUntil(lambda: "of 100 runs" in bar._sentence.text())
    bar.end_jobs()


def test_odds_that_come_late_are_not_told_of_the_plan_that_came_meanwhile(
    bar, bridge, dated, qtbot, monkeypatch
):
    held, told = threading.Event(), []

    def slow(problem, plan, *_args, **_more):
        held.wait(5)
        told.append(plan)
        return promises(problem, plan, "UTC", why=None)

    monkeypatch.setattr(odds_desk, "promises", slow)
    bridge.changed.emit()
    qtbot.waitUntil(lambda: bar.surety._odds.plan is dated.shown.plan)
    later = plan_of(cut=(490, 790, "maker"))
    bridge.session.week_plan = replace(dated, shown=replace(dated.shown, plan=later))
    bridge.changed.emit()
    held.set()
    qtbot.waitUntil(lambda: told == [dated.shown.plan, later])
    qtbot.waitUntil(lambda: "of 100 runs" in bar._sentence.text())
    assert bar.surety._of is later
    bar.end_jobs()


def test_odds_that_cannot_be_reckoned_say_so(bar, bridge, dated, qtbot, monkeypatch):
    def broken(*_args, **_more):
        raise ArmorplanError("no draws.")

    monkeypatch.setattr(odds_desk, "promises", broken)
    bridge.changed.emit()
    qtbot.waitUntil(lambda: "could not be reckoned: no draws." in bar._sentence.text())
    bar.end_jobs()


def test_that_tomorrow_is_being_laid_is_seen_and_what_came_of_it_stays(bar, bridge, desk, qtbot):
    tonight = TonightDesk(bridge, desk, None)
    bar.follow(tonight)
    held = threading.Event()
    tonight._runner.answered.disconnect()
    tonight._runner.ask(lambda _report, _stop: held.wait(5))
    assert bar._busy.isVisible()
    assert bar._stop.isVisible()
    assert bar._said.text() == "Tomorrow is laid anew around what runs now …"
    held.set()
    qtbot.waitUntil(lambda: not bar._busy.isVisible())
    tonight.told.emit("Nothing has to move.")
    assert bar._said.isVisible()
    assert bar._said.text() == "Nothing has to move."
    bridge.changed.emit()
    assert bar._said.isVisible()
    bridge.acted.emit()
    assert not bar._said.isVisible()
    assert tonight.close()


def test_the_sentence_has_the_whole_width_below_what_is_finished_when(bar):
    bar.resize(1000, 200)
    bar.layout().activate()
    assert bar._sentence.width() > 950
    assert bar._sentence.y() >= bar._finish.geometry().bottom()
