"""What another air, or another leather, would do to a drying: told before and after, used when said so."""

import pytest
from desktop.drying_scene import drying_step, see
from desktop.fake_airs import cold
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.app.drying_choices import WhatIf
from armorplan.app.drying_rows import drying_page
from armorplan.app.shop_air import AirRule
from armorplan.desktop.what_if_words import TypedWhatIf, what_if_of
from armorplan.workshop.air import Climate, Room


@pytest.fixture
def page(drying_view):
    return drying_view


def test_another_air_is_told_before_and_after_and_changes_nothing(
    qtbot, bridge, page, session, airs
):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.temperature.setText("15")
    qtbot.waitUntil(lambda: "instead of Tue 08:00" in page.what_if.said.text())
    assert "to handle instead of 24 h" in page.what_if.said.text()
    assert page._shown.other is not None
    assert page.body.verdict.text().startswith("Dry to handle Tue 08:00")
    assert (airs.kept, bridge.session) == ([], session)
    QTest.mouseClick(page.what_if.as_it_is, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: page._shown.other is None)
    assert page.what_if.said.text() == ""
    assert page.what_if.temperature.text() == ""


def test_the_air_is_used_in_the_plan_when_it_is_said_so(qtbot, bridge, page, session, airs):
    session.room = cold(Room())
    airs.kept, airs.rule = [session.room], AirRule.KEPT
    see(qtbot, bridge, page, drying_step(session))
    assert not page.what_if.use.isEnabled()
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(page.what_if.use.isEnabled)
    with qtbot.waitSignal(bridge.aired):
        QTest.keyClick(page.what_if.use, Qt.Key.Key_Space)
    assert {c.air_m_s for c in airs.kept[-1].by_hour} == {1.5}
    assert {c.temperature_c for c in airs.kept[-1].by_hour} == {23, 9}
    assert bridge.session is session
    qtbot.waitUntil(lambda: page._shown is not None and page._shown.asked.room == airs.kept[-1])
    assert page.what_if.fan.currentIndex() == 0


def test_what_dries_already_is_asked_about_from_now_on(qtbot, bridge, page, session, airs, clock):
    dry = drying_step(session)
    session.done(dry.needs)
    session.start((dry.id,))
    clock.advance(12 * 60)
    see(qtbot, bridge, page, dry)
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(lambda: page._shown.other is not None)
    asked = page._shown.other.handle_min
    assert 12 * 60 < asked < page._shown.page.handle_min
    whole = drying_page(page._shown.page.choice, Room(usual=Climate(air_m_s=1.5))).handle_min
    assert asked == pytest.approx(12 * 60 + whole / 2, abs=5)
    with qtbot.waitSignal(bridge.aired):
        page.what_if.use.click()
    assert (airs.before, airs.kept[-1]) == (Room(), Room(usual=Climate(air_m_s=1.5)))


def test_under_a_shop_file_no_other_air_can_be_the_plans(qtbot, bridge, page, session, airs):
    airs.rule = AirRule.SHOP_FILE
    see(qtbot, bridge, page, drying_step(session))
    qtbot.waitUntil(lambda: "The shop file tells the air" in page.body.rule.text())
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(lambda: page.what_if.what_if.asks)
    assert not page.what_if.use.isEnabled()


def test_air_that_cannot_be_kept_says_why(qtbot, bridge, page, session, airs):
    airs.trouble = "The workshop file cannot be written."
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.humidity.setText("40")
    qtbot.waitUntil(page.what_if.use.isEnabled)
    with qtbot.waitSignal(bridge.said) as said:
        page.what_if.use.click()
    assert said.args == [airs.trouble]
    assert bridge.session is session


def test_thickness_and_faces_are_asked_of_but_are_no_air(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.thickness.setText("6")
    page.what_if.faces.setCurrentIndex(1)
    qtbot.waitUntil(lambda: page.what_if.what_if == WhatIf(thickness_mm=6.0, faces=1))
    assert not page.what_if.use.isEnabled()


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (TypedWhatIf(temperature="70"), "Is that Fahrenheit?"),
        (TypedWhatIf(humidity="120"), "between 0 and 100 %"),
        (TypedWhatIf(thickness="0"), "more than 0"),
        (TypedWhatIf(thickness="thick"), "'thick' was typed"),
    ],
)
def test_what_cannot_be_is_told_in_one_message(typed, says):
    assert says in what_if_of(typed).text


def test_a_fault_is_shown_and_nothing_is_asked(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.humidity.setText("120")
    qtbot.waitUntil(lambda: "between 0 and 100 %" in page.what_if.said.text())
    assert not page.what_if.use.isEnabled()
    assert page._shown.other is None
