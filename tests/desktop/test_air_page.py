"""The form of the shop's air: what is shown, checked, read of a logger and kept."""

import pytest
from desktop.fake_airs import FakeAirs
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from armorplan.app.shop_air import AirRule, DayNight
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.widgets.air_page import AirPage
from armorplan.workshop.air import Climate, Room

DAY = Climate(temperature_c=18, humidity_pct=55, air_m_s=0.5)
NIGHT = Climate(temperature_c=10, humidity_pct=70)
KEPT = Room(
    usual=DAY,
    by_hour=DayNight(day=DAY, night=NIGHT, day_from_h=7, night_from_h=20).hours(),
    volume_m3=42.0,
)


@pytest.fixture
def airs():
    return FakeAirs(rule=AirRule.KEPT, kept=[KEPT])


@pytest.fixture
def page(qtbot, bridge, air_desk):
    made = AirPage(air_desk, bridge)
    qtbot.addWidget(made)
    made.show()
    air_desk.read()
    qtbot.waitUntil(lambda: made.rule.text() != "")
    yield made
    made.close()


def told(page):
    return page.told.toPlainText()


def test_what_is_kept_is_shown_as_it_was_typed(page):
    assert page.rule.text() == "The air of the shop is kept in the workshop."
    assert (page.day.temperature.text(), page.day.humidity.text()) == ("18", "55")
    assert page.day.fan.currentText().startswith("a fan on low")
    assert page.has_night.isChecked()
    assert page.night.temperature.text() == "10"
    assert [box.value() for box in page.hours] == [7, 20]
    assert page.volume.text() == "42"
    assert told(page).startswith("From 07:00 18 °C")


def test_one_value_for_all_day_is_kept_and_the_build_goes_on_in_it(qtbot, bridge, page, airs):
    former = bridge.session
    page.has_night.setChecked(False)
    assert not page.night.isEnabled()
    page.day.temperature.setText("19,5")
    with qtbot.waitSignal(bridge.aired):
        QTest.keyClick(page.keep, Qt.Key.Key_Space)
    assert airs.kept[-1] == Room(
        usual=Climate(temperature_c=19.5, humidity_pct=55, air_m_s=0.5), volume_m3=42.0
    )
    assert bridge.session is former
    assert former.room == airs.kept[-1]
    assert told(page) == "Kept as the air of the shop."


def test_what_was_mistyped_is_corrected_since_it_was_kept(qtbot, bridge, page, airs):
    mistyped = page.rule.mistyped
    assert mistyped.text().startswith("What was kept on 29 Nov 14:05 was")
    for is_so in (True, False):
        mistyped.setChecked(is_so)
        with qtbot.waitSignal(bridge.aired):
            page.keep.click()
        assert airs.instead is is_so
        assert not mistyped.isChecked()


def test_air_that_another_window_kept_is_gone_on_in(qtbot, bridge, air_desk, airs):
    air_desk.read_along()
    assert not air_desk.is_keeping
    airs.kept.append(Room(usual=NIGHT))
    airs.behind = True
    with qtbot.waitSignals([bridge.aired, air_desk.kept]):
        air_desk.read_along()
    assert bridge.session.room == Room(usual=NIGHT)


def test_fahrenheit_is_asked_about_and_taken_in_celsius(page):
    page.day.temperature.setText("59")
    assert "Is that Fahrenheit?" in told(page)
    assert not page.keep.isEnabled()
    assert page.celsius.isVisible()
    page.celsius.click()
    assert page.day.temperature.text() == "15"
    assert page.keep.isEnabled()
    assert page.celsius.isHidden()


def test_hot_air_may_be_so(page):
    page.day.temperature.setText("46")
    page.stays.click()
    assert page.keep.isEnabled()
    assert "Air of 46 °C is too hot for wet leather" in told(page)
    page.day.temperature.setText("44")
    assert "too hot" not in told(page)
    page.day.temperature.setText("47")
    assert not page.keep.isEnabled()


@pytest.mark.parametrize(
    ("row", "field", "text", "says"),
    [
        ("day", "humidity", "101", "By day: Relative humidity lies between 0 and 100 %"),
        ("night", "humidity", "-3", "By night: Relative humidity"),
        ("night", "temperature", "", "By night: Still to type"),
    ],
)
def test_each_fault_says_where_it_is(page, row, field, text, says):
    getattr(getattr(page, row), field).setText(text)
    assert says in told(page)
    assert not page.keep.isEnabled()


def test_air_that_moves_backwards_and_a_room_of_nothing_are_refused(page):
    page.day.fan.setCurrentText("-1")
    assert "-1 was typed" in told(page)
    page.day.fan.setCurrentText("0.8 m/s")
    assert "air at 0.8 m/s" in told(page)
    page.volume.setText("0")
    assert "A room has more than 0" in told(page)


def test_a_reading_of_now_is_added_and_all_can_be_forgotten(page, airs, clock, qtbot, bridge):
    readings = page.readings
    assert not readings.add.isEnabled()
    readings.now.temperature.setText("16")
    readings.now.humidity.setText("500")
    readings.add.click()
    assert "Reading of now: Relative humidity" in told(page)
    readings.now.humidity.setText("62")
    readings.add.click()
    assert readings.readings[0].at == clock.now()
    assert told(page).startswith("As read 1 time")
    with qtbot.waitSignal(bridge.aired):
        page.keep.click()
    assert airs.kept[-1].readings == readings.readings
    assert airs.kept[-1].volume_m3 == 42
    readings.forget.click()
    assert readings.readings == ()


def test_a_loggers_file_is_read_and_its_findings_are_told(qtbot, page, tmp_path):
    file = tmp_path / "shed.csv"
    rows = ["time,temperature °C,humidity %"]
    rows += [f"2026-05-03T{hour:02d}:00:00Z,{10 + hour / 2},{60}" for hour in range(20)]
    rows += ["2026-05-03T21:00:00Z,14,160"]
    file.write_text("\n".join(rows), encoding="utf-8")
    page.readings.read_log(file)
    qtbot.waitUntil(lambda: len(page.readings.readings) == 20)
    assert "As read 20 times" in told(page)
    assert "160" in told(page)


FAHRENHEIT = "time,temperature,humidity\n" + "".join(
    f"2026-05-03T{hour:02d}:00:00Z,{61 if 8 <= hour < 20 else 50},60\n" for hour in range(24)
)


def test_a_file_in_fahrenheit_is_kept_only_once_it_is_answered_and_then_as_a_whole(
    qtbot, page, airs, tmp_path
):
    file = tmp_path / "shed.csv"
    file.write_text(FAHRENHEIT, encoding="utf-8")
    page.readings.read_log(file)
    qtbot.waitUntil(lambda: "Is that Fahrenheit?" in told(page))
    assert page.readings.readings == ()
    assert not page.keep.isEnabled()
    page.day.humidity.setText("56")
    assert not page.keep.isEnabled()
    assert page.celsius.text() == "Fahrenheit: &take 10 to 16.1 °C"
    assert page.stays.isHidden()  # 61 °C is no air
    page.celsius.click()
    qtbot.waitUntil(lambda: len(page.readings.readings) == 24)
    assert page.keep.isEnabled()
    assert page.celsius.isHidden()
    assert page.leave.isHidden()
    page.keep.click()
    qtbot.waitUntil(lambda: len(airs.kept) == 2)
    assert max(r.climate.temperature_c for r in airs.kept[-1].readings) < 17


def test_a_file_that_is_asked_about_can_be_left_out_or_taken_as_it_is(qtbot, page, tmp_path):
    file = tmp_path / "shed.csv"
    file.write_text(FAHRENHEIT.replace(",61,", ",52,"), encoding="utf-8")
    page.readings.read_log(file)
    qtbot.waitUntil(page.leave.isVisible)
    page.leave.click()
    assert page.leave.isHidden()
    assert page.keep.isEnabled()
    assert page.readings.readings == ()
    page.readings.read_log(file)
    qtbot.waitUntil(page.stays.isVisible)
    page.stays.click()
    qtbot.waitUntil(lambda: len(page.readings.readings) == 24)
    assert page.readings.readings[0].climate.temperature_c == 50


def test_where_readings_count_and_how_to_get_back_is_said_before_and_after_keeping(
    qtbot, page, airs
):
    assert "Readings count" not in told(page)
    page.readings.now.temperature.setText("14")
    page.readings.now.humidity.setText("60")
    page.readings.add.click()
    says = "at all other times the air typed above does. 'Forget all readings' goes back"
    assert says in told(page)
    page.keep.click()
    qtbot.waitUntil(lambda: len(airs.kept) == 2 and "Kept as the air" in told(page))
    assert says in told(page)
    page.has_night.setChecked(False)
    assert "only where none was read" in told(page)
    page.readings.forget.click()
    assert "Readings count" not in told(page)


def test_a_letter_for_a_greyed_button_is_not_typed_into_a_field(page):
    page.day.humidity.setText("120")
    assert not page.keep.isEnabled()
    for field in (page.day.humidity, page.day.fan.lineEdit(), page.volume):
        field.setFocus()
        before = field.text()
        QTest.keyClick(field, Qt.Key.Key_K, Qt.KeyboardModifier.AltModifier)
        assert field.text() == before
        QTest.keyClick(field, "7")
        assert field.text() != before


def test_humidity_typed_as_a_share_is_asked_about(page):
    page.day.humidity.setText("0.65")
    assert "Is that a share? Then it is 65 %." in told(page)
    assert not page.keep.isEnabled()
    assert page.celsius.text() == "A share: &take 65 %"
    page.celsius.click()
    assert page.day.humidity.text() == "65"
    assert page.keep.isEnabled()


def test_all_that_is_wrong_with_an_air_is_told_at_once(page):
    page.day.temperature.setText("72")
    page.day.humidity.setText("120")
    assert "Is that Fahrenheit?" in told(page)
    assert "120 was typed" in told(page)


def test_nights_begin_at_eight_where_nobody_says(qtbot, bridge):
    desk = AirDesk(bridge, FakeAirs())
    page = AirPage(desk, bridge)
    qtbot.addWidget(page)
    desk.read()
    qtbot.waitUntil(lambda: page.rule.text() != "")
    assert [box.value() for box in page.hours] == [8, 20]
    page.close()
    desk.close()


def test_no_log_at_all_says_so_and_keeps_what_was_there(qtbot, page, tmp_path):
    file = tmp_path / "nothing.csv"
    file.write_text("this is no log\n", encoding="utf-8")
    page.readings.read_log(file)
    qtbot.waitUntil(lambda: "nothing.csv" in told(page) or "no " in told(page).lower())
    page.readings.read_log(tmp_path / "missing.csv")
    qtbot.waitUntil(lambda: "missing.csv" in told(page))
    assert page.readings.readings == ()


def test_a_shop_file_that_rules_is_told(qtbot, bridge):
    desk = AirDesk(bridge, FakeAirs(rule=AirRule.SHOP_FILE, kept=[KEPT]))
    page = AirPage(desk, bridge)
    qtbot.addWidget(page)
    desk.read()
    qtbot.waitUntil(lambda: "rules over the air that is kept" in page.rule.text())
    page.close()
    desk.close()


def test_what_cannot_be_kept_says_why_and_the_form_stays(qtbot, page, airs):
    airs.trouble = "The disk is full."
    page.keep.click()
    qtbot.waitUntil(lambda: "The disk is full." in told(page))
    assert page.day.temperature.text() == "18"
