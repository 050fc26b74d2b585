"""The plan is sought after every action, off the window's thread, and shown if it still fits."""

import threading

import pytest
from desktop.fake_scenario import ORIGIN_AT

from armorplan.app.shown_plan import ShownPlan
from armorplan.desktop import planning
from armorplan.desktop.planning import PlanDesk
from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Plan, Status

FIRST = Plan(status=Status.GOOD, made_by="serial")
LAST = Plan(status=Status.BEST, made_by="search")


class Planning:
    """A planner that can be held up, and remembers what it was asked."""

    def __init__(self):
        self.go_on = threading.Event()
        self.go_on.set()
        self.hints = []
        self.at_hand = []
        self.error = None

    def __call__(self, _problem, *, hint, at_hand, on_better, should_stop):
        self.hints.append(hint)
        self.at_hand.append(at_hand)
        on_better(FIRST)
        while not (self.go_on.wait(0.002) or should_stop()):
            pass
        if self.error:
            raise self.error
        return LAST if self.go_on.is_set() else FIRST


@pytest.fixture
def planner():
    return Planning()


@pytest.fixture
def desk(bridge, planner, monkeypatch):
    monkeypatch.setattr(planning, "SETTLE_MS", 1)
    monkeypatch.setattr(planning, "SHOW_MS", 1)
    made = PlanDesk(bridge, planner)
    yield made
    assert made.close()


def test_an_action_brings_a_new_plan(desk, bridge, session, qtbot):
    with qtbot.waitSignals([desk.begun, desk.ended]):
        bridge.done(session.ready_steps()[:1])
    assert session.plans[-1] is LAST


def test_every_plan_is_checked_off_the_windows_thread(desk, session, monkeypatch, qtbot):
    threads = []

    def check(**said):
        threads.append(threading.current_thread())
        return CheckedPlan(**said)

    monkeypatch.setattr(planning, "CheckedPlan", check)
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    assert session.plans[-1] is LAST
    assert len(threads) == 2
    assert threading.main_thread() not in threads


def test_showing_a_plan_does_not_ask_for_another(desk, session, planner, qtbot):
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    qtbot.wait(30)
    assert len(planner.hints) == 1
    assert not desk.is_busy


def test_what_another_window_did_brings_a_new_plan(desk, session, planner, qtbot):
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    with qtbot.waitSignal(desk.ended):
        session.done(session.ready_steps()[:1])  # not through the bridge
    assert len(planner.hints) == 2


def test_a_start_that_changes_nothing_to_plan_asks_for_none(desk, bridge, planner, qtbot):
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    bridge.choose_steps(bridge.session.ready_steps()[:1])
    bridge.changed.emit()
    qtbot.wait(30)
    assert len(planner.hints) == 1


def test_a_better_plan_is_shown_on_the_way(desk, session, planner, qtbot):
    planner.go_on.clear()
    desk.plan()
    qtbot.waitUntil(lambda: session.plans == [FIRST])
    planner.go_on.set()
    qtbot.waitUntil(lambda: session.plans == [FIRST, LAST])


def test_a_stop_shows_the_best_so_far(desk, session, planner, qtbot):
    planner.go_on.clear()
    with qtbot.waitSignal(desk.ended):
        desk.plan()
        desk.stop()
    assert session.plans[-1] is FIRST


def test_the_former_plan_is_the_hint(desk, session, planner, qtbot):
    for _ in range(2):
        with qtbot.waitSignal(desk.ended):
            desk.plan()
    assert planner.hints == [None, LAST]


def test_a_plan_for_what_has_since_changed_is_not_shown(desk, bridge, session, planner, qtbot):
    planner.go_on.clear()
    desk.plan()
    session.steps = session.steps[:-1]
    planner.go_on.set()
    qtbot.waitUntil(lambda: not desk.is_busy)
    assert session.plans == []


def test_a_lost_solver_is_told_and_the_plan_stays(desk, bridge, session, planner, qtbot):
    planner.error = SolverLostError("the solver went away")
    with qtbot.waitSignal(bridge.said) as said:
        desk.plan()
    assert said.args == ["No new plan: the solver went away. The plan shown still holds."]


def test_plans_keep_to_the_one_that_a_search_ended_with(desk, bridge, session, planner, qtbot):
    session.kept_plan = ShownPlan(plan=LAST, origin_at=ORIGIN_AT)
    with qtbot.waitSignal(desk.ended):
        desk.plan_again()
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    with qtbot.waitSignal(desk.ended):
        desk.plan_again()
    kept = session.kept_plan
    assert planner.at_hand == [None, kept, None]


def test_a_plan_of_the_last_sitting_is_kept_to(bridge, session, planner, qtbot):
    session.kept_plan = ShownPlan(plan=LAST, origin_at=ORIGIN_AT)
    desk = PlanDesk(bridge, planner)
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    assert planner.at_hand == [session.kept_plan]
    assert desk.close()


def test_what_a_plan_moved_is_told(desk, bridge, session, planner, qtbot, monkeypatch):
    monkeypatch.setattr(planning, "replanned_words", lambda *_: "2 steps moved.")
    session.kept_plan = ShownPlan(plan=LAST, origin_at=ORIGIN_AT)
    told = []
    desk.replanned.connect(told.append)
    with qtbot.waitSignal(desk.ended):
        desk.plan_again()
    assert told == []
    with qtbot.waitSignal(desk.ended):
        desk.plan()
    assert told[-1] == "2 steps moved."
