"""One key lays tomorrow anew; what happens meanwhile goes first."""

import pytest
from desktop.wish_bench import SERIAL, WeekSession, bridge_on

from armorplan.desktop.planning import PlanDesk
from armorplan.desktop.tonight_desk import TonightDesk
from armorplan.schedule.problem import Plan, Status


@pytest.fixture
def desks(qapp, clock):
    bridge = bridge_on(WeekSession, clock)
    sought = []

    def planner(problem, **_):
        sought.append(problem)
        return Plan(status=Status.GOOD)

    plans = PlanDesk(bridge, planner)
    tonight = TonightDesk(bridge, plans, SERIAL)
    assert qapp is not None
    yield bridge, plans, tonight, sought
    assert tonight.close()
    assert plans.close()


def test_tomorrow_is_laid_and_said(desks, qtbot):
    bridge, _, tonight, sought = desks
    with qtbot.waitSignal(tonight.told) as told:
        tonight.arrange()
    assert told.args[0].startswith("Nothing is drying by now. Nothing has to move: 18 steps stay")
    assert bridge.session.planned_from_now
    assert bridge.session.plans[-1].placed
    assert sought == []


def test_without_solver_or_plan_it_says_so(desks, qtbot):
    bridge, plans, _, _ = desks
    bare = TonightDesk(bridge, plans, None)
    with qtbot.waitSignal(bare.told) as told:
        bare.arrange()
    assert "no plan yet" in told.args[0]


def test_what_happened_meanwhile_goes_first(desks, qtbot, monkeypatch):
    bridge, _, tonight, _ = desks
    monkeypatch.setattr(bridge.session, "take_plan", lambda _answer: False)
    with qtbot.waitSignal(tonight.told) as told:
        tonight.arrange()
    assert "Something happened meanwhile" in told.args[0]


def test_a_stop_ends_the_search_for_a_plan_too(desks, monkeypatch):
    _, plans, tonight, _ = desks
    stopped = []
    monkeypatch.setattr(plans, "stop", lambda: stopped.append("plans"))
    monkeypatch.setattr(tonight._runner, "stop", lambda: stopped.append("tonight"))
    tonight.stop()
    assert stopped == ["plans", "tonight"]
