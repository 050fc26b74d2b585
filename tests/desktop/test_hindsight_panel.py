"""'Do this earlier next time' in two keys, and what a fit showed written into the pattern."""

import pytest
from desktop.fake_dry_fit import fit_plan_of
from desktop.fake_next_version import FakeTeaching
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.desktop.next_version_desk import NextVersionDesk, next_version_desk
from armorplan.desktop.widgets.dry_fit_panel import DryFitPanel
from armorplan.desktop.widgets.hindsight_panel import HindsightPanel


@pytest.fixture
def bench():
    return FakeTeaching()


@pytest.fixture
def desk(bridge, bench):
    made = NextVersionDesk(bridge, bench)
    yield made
    made.close()


@pytest.fixture
def panel(qtbot, bridge, desk, session):
    bridge.done(session.ready_steps()[:3])
    bridge.choose_steps((session.steps[9].id,))
    made = HindsightPanel(bridge)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    yield made
    made.close()


def test_enter_alone_keeps_the_likeliest(qtbot, panel, bench, session):
    assert panel.heading.text() == f"Next time '{session.steps[9].title}' earlier than …"
    with qtbot.waitSignal(panel.desk.told):
        QTest.keyClick(panel.answers, Qt.Key.Key_Return)
    likeliest = session.steps[2].id
    assert bench.taught == [(session.steps[9].id, likeliest)]
    assert panel.said.text() == "From the next build on it comes first."


def test_another_step_can_be_chosen_by_its_number(qtbot, panel, bench, session):
    with qtbot.waitSignal(panel.desk.told):
        QTest.keyClick(panel.answers, Qt.Key.Key_3)
    assert bench.taught == [(session.steps[9].id, session.steps[0].id)]


def test_why_it_is_refused_is_told(qtbot, panel, bench):
    bench.refusal = "It cannot stand before it: the leather is not cut."
    with qtbot.waitSignal(panel.desk.refused):
        panel.take()
    assert panel.said.text() == bench.refusal


def test_where_nothing_was_done_before_it_says_so(qtbot, bridge, desk, session):
    bridge.choose_steps((session.steps[0].id,))
    panel = HindsightPanel(bridge, big=True)
    qtbot.addWidget(panel)
    panel.show()
    panel.begin()
    assert "Nothing was done before" in panel.heading.text()
    assert not panel.go_on.isEnabled()
    panel.take()
    assert not desk.is_busy
    bridge.choose_steps(())
    panel.begin()
    assert "Choose the step" in panel.heading.text()
    panel.close()


def test_without_a_pattern_it_says_so(qtbot, bridge):
    panel = HindsightPanel(bridge)
    qtbot.addWidget(panel)
    panel.begin()
    assert next_version_desk(bridge) is None
    assert "no pattern here" in panel.heading.text()
    panel.close_jobs()


def test_it_leaves_where_another_build_is_opened(qtbot, panel, bridge):
    with qtbot.waitSignal(panel.left):
        bridge.open(FakeSession.of(20))


def test_what_a_fit_showed_is_listed_and_written_in_one_key(qtbot, bridge, desk, bench, session):
    fit = fit_plan_of(session.steps).fits[0]
    bench.findings = ((fit.step, "a gap of 4 mm"), ("another", "pinches"))
    panel = DryFitPanel(bridge)
    qtbot.addWidget(panel)
    panel.show()
    panel.begin()
    qtbot.waitUntil(lambda: bool(panel.lines.lines))
    keys = [line.key for line in panel.lines.lines]
    texts = [line.text for line in panel.lines.lines if line.key.startswith("found:")]
    assert texts == ["\N{BULLET} a gap of 4 mm"]
    panel.lines.setCurrentRow(keys.index("correct"))
    with qtbot.waitSignal(desk.told):
        panel.take()
    assert bench.corrected == 1
    assert panel.heading.text() == "Kept in version 2 of the pattern."
    panel.close_jobs()
    panel.close()
