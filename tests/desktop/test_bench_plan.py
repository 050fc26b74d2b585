"""The plan in the bench view: the date always, what moved it for a while, and 'takes longer' on a key."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QFontMetrics, QImage
from PySide6.QtTest import QTest

from armorplan.app.promises import OddsRow, PromiseRow
from armorplan.app.rows import BenchState
from armorplan.desktop.bench_plan import BenchPlan
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.bench_band import BenchHead
from armorplan.desktop.widgets.bench_view import BenchView
from armorplan.desktop.widgets.bench_writing import letters, shrunk

MONDAY_AT = datetime(2026, 11, 30, tzinfo=UTC)
MOVED = "Mara is away until Tue 09:00. 3 steps moved, 20 stay. Moved: Cut the upper petal."


class Told(QObject):
    """What a plan desk and a surety desk say to who follows them."""

    replanned = Signal(str)
    told = Signal()
    row = None

    def of_build(self, _title):
        return self.row


@pytest.fixture
def told(qapp):
    return Told()


@pytest.fixture
def view(bridge, settings, qtbot, told):
    ticker = Ticker(bridge)
    made = BenchView(bridge, ticker, settings, lambda: None)
    qtbot.addWidget(made)
    made.ticker = ticker
    made.plan.follow(told, told)
    made.resize(1024, 768)
    made.come()
    made.show()
    yield made
    made.close()
    made.end_jobs()
    ticker._beat.stop()
    ticker._shot.stop()


def test_the_date_is_always_in_sight_below_what_comes_next(view):
    assert view.page.foot._plan == "To be finished Tue 05:32"
    assert "To be finished Tue 05:32" in view.page.foot.accessibleName()
    view.desk.act(Verb.DONE)
    assert view.page.foot._plan.startswith("To be finished ")
    foot, px = view.page.foot, view.page.laid.body_px
    small = QFontMetrics(letters(foot.font(), round(0.62 * px))).height()
    whole = QFontMetrics(letters(foot.font(), px)).height()
    assert foot.height() >= small + whole - 2


def test_what_moved_the_plan_stands_for_a_while_and_then_the_date_again(view, told, clock):
    told.replanned.emit(MOVED)
    assert view.page.foot._plan == MOVED
    view.ticker.tick()
    assert view.page.foot._plan == MOVED
    clock.advance(11 / 60)
    view.ticker.tick()
    assert view.page.foot._plan.startswith("To be finished ")


def test_how_surely_the_date_is_kept_is_said_with_it(view, told):
    told.row = row_of(due_min=600)
    told.told.emit()
    assert view.page.foot._plan == "To be finished Tue 05:32, its date kept in 96 of 100 runs"
    told.row = row_of(due_min=30)
    told.told.emit()
    assert view.page.foot._plan == "To be finished Tue 05:32, too late for its date"


def row_of(due_min):
    """Return a build that is planned to end after an hour."""
    odds = OddsRow(odds_pct=80, at=None, low_at=None, high_at=None)
    return PromiseRow(
        build="b",
        title="b",
        weight=1,
        due_at=MONDAY_AT + timedelta(minutes=due_min),
        planned_at=MONDAY_AT + timedelta(minutes=60),
        kept_pct=96.4,
        kept_error_pct=2.0,
        spare="",
        usual=(),
        promise=odds,
        causes=(),
    )


def test_while_a_step_runs_a_key_says_that_it_takes_longer(view, session, monkeypatch):
    heard = []
    monkeypatch.setattr(
        type(session), "longer", lambda _self, steps: heard.append(steps) or "Longer."
    )
    assert "L" not in view.page.facts.text().split()
    view.desk.act(Verb.BEGIN)
    assert view.desk.card.state is BenchState.RUNNING
    assert "Takes longer than planned: L" in view.page.facts.text().split("\n")
    QTest.keyClick(view, Qt.Key.Key_L)
    assert heard == [(view.desk.card.step,)]
    assert view.page.head._said == "Longer."


def test_beside_a_question_nothing_is_said_of_what_comes_next(view):
    assert view.page.foot._next.startswith("Next")
    view.desk.act(Verb.AMISS)
    assert view.desk.leaf is not None
    assert view.page.foot._next == ""


@pytest.mark.parametrize("wide", [1024, 760])
def test_the_name_of_the_piece_is_whole_beside_the_state_and_the_strap(qtbot, wide):
    head = BenchHead(None)
    qtbot.addWidget(head)
    head.resize(wide, 56)
    name = "Elbow cop of the left arm"
    head.show_head(px=40, state=BenchState.READY, where=name, progress="56 of 83", share=0.6)
    head.render(QImage(head.size(), QImage.Format.Format_RGB32))
    least = QFontMetrics(letters(head.font(), 25)).horizontalAdvance(name)
    assert QFontMetrics(shrunk(head.font(), name, 40, least)).horizontalAdvance(name) <= least


def test_a_plan_without_a_date_says_nothing(bridge, session, monkeypatch):
    face = replace(session.plan_face(), finish_at=None)
    monkeypatch.setattr(type(session), "plan_face", lambda _self: face)
    assert BenchPlan(bridge).words() == ""
