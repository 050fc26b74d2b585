"""'Somebody is away': one key says who and for how long."""

from datetime import timedelta

import pytest
from desktop.fake_absences import FakeAbsences
from desktop.fake_scenario import ORIGIN_AT
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.app.absence_choices import absence_choices
from armorplan.app.absences import AwayRow
from armorplan.desktop.widgets.away_panel import AwayPanel

HERE = AwayRow(person="mate", name="Mate", from_at=None, until_at=None)


@pytest.fixture
def panel(qtbot, bridge, session):
    session.absences = FakeAbsences((HERE,))
    made = AwayPanel(bridge)
    qtbot.addWidget(made)
    made.show()
    made.begin()
    return made


def test_a_number_says_that_somebody_is_away_for_the_rest_of_the_day(panel, bridge, session):
    said = []
    bridge.said.connect(said.append)
    QTest.keyClick(panel.answers, Qt.Key.Key_2)
    ((person, until_at),) = session.absences.told
    assert person == "mate"
    assert until_at.astimezone(bridge.zone).hour == 0
    assert timedelta(0) < until_at - bridge.clock.now() <= timedelta(days=1)
    assert said == ["Mate is away."]


def test_who_is_away_is_first_said_to_be_there_again(qtbot, panel, bridge, session):
    session.absences.people = (
        AwayRow(person="mate", name="Mate", from_at=ORIGIN_AT, until_at=ORIGIN_AT),
    )
    panel.begin()
    assert panel.answers.item(0).text() == "1  Mate is there again"
    with qtbot.waitSignal(panel.left):
        panel.take()
    ((_, until_at),) = session.absences.told
    assert until_at == bridge.clock.now()


def test_escape_says_nothing(qtbot, panel, session):
    with qtbot.waitSignal(panel.left):
        QTest.keyClick(panel.answers, Qt.Key.Key_Escape)
    assert session.absences.told == []


def test_days_end_at_the_midnight_of_the_shop(bridge):
    spans = absence_choices((HERE,), ORIGIN_AT, bridge.zone)
    days = [choice.until_at.astimezone(bridge.zone) for choice in spans[1:]]
    assert [at.hour for at in days] == [0, 0, 0]
    assert (days[1] - days[0]).days == 1
    assert (days[2] - days[0]).days == 6
