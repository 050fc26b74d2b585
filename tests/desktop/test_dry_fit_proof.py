"""Rounds of a dry fit stand at once; the solver makes them fewer, or proves them, a moment later."""

from dataclasses import replace

import pytest
from desktop.fake_dry_fit import FakeFits, fit_plan_of

from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.kernel.errors import SolverLostError


class FakeSolver:
    """Counts what it is asked, and is lost where it is told so."""

    def __init__(self, *, is_lost=False):
        self.asked, self.is_lost = 0, is_lost

    def solve(self, _model, **_stop):
        self.asked += 1
        if self.is_lost:
            raise SolverLostError("The solver stopped working.")


def unproved(session, monkeypatch):
    plan = fit_plan_of(session.steps)
    fits = tuple(replace(fit, proved=False) for fit in plan.fits)
    monkeypatch.setattr(FakeFits, "at_once", lambda _fits: replace(plan, fits=fits))


@pytest.mark.parametrize(("is_lost", "rounds"), [(False, 1), (True, 2)])
def test_rounds_stand_at_once_and_are_fewer_once_the_solver_proves_it(
    qtbot, bridge, session, monkeypatch, is_lost, rounds
):
    unproved(session, monkeypatch)
    bridge.solver = solver = FakeSolver(is_lost=is_lost)
    panel = DryFitPanel(bridge)
    qtbot.addWidget(panel)
    plans = []
    panel.desk.planned.connect(plans.append)
    panel.begin()
    qtbot.waitUntil(lambda: len(plans) == 2)
    assert [len(plan.fits[0].rounds) for plan in plans] == [2, rounds]
    assert solver.asked == 1
    panel.close_jobs()
