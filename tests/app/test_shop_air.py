"""The shop's own air: what rules over what, how it is kept, told and checked."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.air_form import (
    AirFault,
    TypedAir,
    read_air,
    read_air_speed,
    read_humidity,
    read_temperature,
    read_volume,
)
from armorplan.app.air_sheet import RoomFault, TypedRoom, room_of, shown_days
from armorplan.app.air_texts import room_from, room_text
from armorplan.app.shop_air import (
    MOST_READINGS,
    AirRule,
    DayNight,
    day_night,
    room_words,
    rule_words,
    shop_air,
    with_air,
    with_reading,
    with_readings,
)
from armorplan.files.limits import AIR_C, AIR_SPEED, HUMIDITY, PLAUSIBLE_C, ROOM_M3
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.air import AirReading, Climate, Pace, Room
from armorplan.workshop.shop import one_maker

COLD = Climate(temperature_c=10, humidity_pct=70)
MILD = Climate(temperature_c=18, humidity_pct=55, air_m_s=0.5)
AT = datetime(2026, 11, 29, 18, 0, tzinfo=UTC)
PACE = Pace(treatment="dye", factor=1.3, spread=0.1, observations=5)


def reading(minutes, celsius=15.0):
    climate = Climate(temperature_c=celsius, humidity_pct=60)
    return AirReading(at=AT + timedelta(minutes=minutes), climate=climate)


def test_without_any_told_air_the_usual_one_counts():
    air = shop_air(one_maker("Europe/Lisbon"), None, is_told=False)
    assert air.rule is AirRule.USUAL
    assert air.room == Room(zone="Europe/Lisbon")
    assert "Nobody has told" in rule_words(air)


def test_kept_air_counts_with_the_zone_and_the_paces_of_the_shop():
    shop = one_maker("Europe/Lisbon")
    shop = replace(shop, room=replace(shop.room, paces=(PACE,)))
    air = shop_air(shop, Room(usual=COLD, volume_m3=40.0), is_told=False)
    assert air.rule is AirRule.KEPT
    assert with_air(shop, air).room == Room(
        usual=COLD, volume_m3=40.0, zone="Europe/Lisbon", paces=(PACE,)
    )


def test_a_shop_file_rules_over_kept_air_and_says_so():
    shop = one_maker("UTC")
    air = shop_air(shop, Room(usual=COLD, volume_m3=40.0), is_told=True)
    assert (air.rule, air.room.usual) == (AirRule.SHOP_FILE, shop.room.usual)
    assert air.room.volume_m3 == 40
    assert rule_words(air).endswith("rules over the air that is kept in the workshop.")


def test_a_room_is_kept_whole_but_for_its_paces():
    by_hour = DayNight(day=MILD, night=COLD, day_from_h=7, night_from_h=19).hours()
    room = Room(usual=MILD, by_hour=by_hour, readings=(reading(0), reading(30)), volume_m3=33.5)
    assert room_from(room_text(replace(room, paces=(PACE,)))) == room


@pytest.mark.parametrize("text", ["", "[]", "{}x", '{"usual": 3}', '{"by_hour": [1, 2]}'])
def test_air_that_is_damaged_is_told_and_not_taken(text):
    with pytest.raises(WorkshopError, match="Keep the air anew"):
        room_from(text)


@pytest.mark.parametrize(("day_h", "night_h"), [(8, 18), (0, 12), (22, 6), (23, 0)])
def test_day_and_night_are_found_again_in_the_hours(day_h, night_h):
    two = DayNight(day=MILD, night=COLD, day_from_h=day_h, night_from_h=night_h)
    hours = two.hours()
    assert (hours[day_h], hours[night_h]) == (MILD, COLD)
    assert hours.count(MILD) == (night_h - day_h) % 24
    assert day_night(Room(by_hour=hours)) == two


def test_hours_of_many_kinds_are_no_day_and_night_but_shown_as_one():
    hours = tuple(Climate(temperature_c=10 + hour % 5, humidity_pct=50) for hour in range(24))
    assert day_night(Room(by_hour=hours)) is None
    assert shown_days(Room(by_hour=hours)) == DayNight(day=hours[13], night=hours[3])
    assert "10 to 14 °C" in room_words(Room(by_hour=hours))


def test_readings_stand_in_order_and_close_ones_as_their_mean():
    room = with_readings(Room(), (reading(40), reading(0, 10.0), reading(5, 20.0)))
    assert [r.at for r in room.readings] == [AT + timedelta(minutes=5), AT + timedelta(minutes=40)]
    assert room.readings[0].climate.temperature_c == 15
    assert with_reading(room, reading(40, 3.0)).readings[1].climate.temperature_c == 3
    many = with_readings(room, [reading(15 * at) for at in range(MOST_READINGS + 9)])
    assert len(many.readings) == MOST_READINGS
    assert many.readings[-1].at == AT + timedelta(minutes=15 * (MOST_READINGS + 8))


def test_a_room_is_told_in_words():
    assert room_words(Room(usual=COLD)) == ("10 °C, 70 %, still air, day and night alike.")
    two = DayNight(day=MILD, night=COLD)
    assert room_words(Room(by_hour=two.hours())) == (
        "From 08:00 18 °C, 55 %, a fan on low; from 20:00 10 °C, 70 %, still air."
    )
    read = Room(readings=(reading(0), reading(90)))
    assert room_words(read).startswith("As read 2 times from 29 Nov 18:00 to 29 Nov 19:30")


# --- what is typed --------------------------------------------------------------------------


@pytest.mark.parametrize("humidity", ["-1", "101", "nan", "inf", "", "damp", "1e999"])
def test_humidity_that_cannot_be_gets_one_message(humidity):
    fault = read_humidity(humidity)
    assert isinstance(fault, AirFault)
    assert fault.field == "humidity"
    assert "humidity" in fault.text


def test_a_share_typed_as_per_cent_is_asked_about():
    fault = read_humidity("0.65")
    assert isinstance(fault, AirFault)
    assert (fault.pct, fault.is_question) == (65, True)
    assert read_humidity("1.5") == 1.5
    assert read_humidity("0") == 0


def test_fahrenheit_typed_as_celsius_is_asked_about():
    fault = read_temperature("68")
    assert isinstance(fault, AirFault)
    assert "68 °F are 20 °C" in fault.text
    assert (fault.celsius, fault.may_stay) == (20.0, False)
    warm = read_temperature("50")
    assert isinstance(warm, AirFault)
    assert (warm.celsius, warm.may_stay) == (10.0, True)
    assert read_temperature("50", is_sure=True) == 50
    assert read_temperature("18,5") == 18.5
    assert read_temperature("\N{MINUS SIGN}3") == -3


@pytest.mark.parametrize("text", ["-21", "500", "warm", "", "1,234"])
def test_no_temperature_of_a_shop(text):
    fault = read_temperature(text, is_sure=True)
    assert isinstance(fault, AirFault)
    assert fault.celsius is None


def test_air_does_not_move_backwards():
    fault = read_air_speed("-0.5")
    assert isinstance(fault, AirFault)
    assert "-0.5 was typed" in fault.text
    assert read_air_speed("0") == 0


def test_a_volume_may_be_left_out_but_not_be_nothing():
    assert read_volume(" ") is None
    assert read_volume("42,5") == 42.5
    assert isinstance(read_volume("0"), AirFault)
    assert isinstance(read_volume("big"), AirFault)


@pytest.mark.parametrize(
    ("bounds", "reads"),
    [(AIR_SPEED, read_air_speed), (ROOM_M3, read_volume), (HUMIDITY, read_humidity)],
)
def test_the_page_takes_what_a_shop_file_takes_and_no_more(bounds, reads):
    assert reads(f"{bounds.most}") == bounds.most
    assert isinstance(reads(f"{bounds.most + 1}"), AirFault)


def test_the_page_asks_about_fahrenheit_from_where_a_shop_file_does():
    assert read_temperature(f"{PLAUSIBLE_C}") == PLAUSIBLE_C
    assert isinstance(read_temperature(f"{PLAUSIBLE_C + 0.1}"), AirFault)
    assert read_temperature(f"{AIR_C.most}", is_sure=True) == AIR_C.most
    assert isinstance(read_temperature(f"{AIR_C.most + 1}", is_sure=True), AirFault)
    assert read_temperature(f"{AIR_C.least}") == AIR_C.least


def test_every_fault_of_an_air_is_told():
    fault = read_air(TypedAir(temperature="18", humidity="140", air="-1"))
    assert isinstance(fault, AirFault)
    assert fault.field == "humidity"
    assert "140 was typed" in fault.text
    assert "-1 was typed" in fault.text
    typed = TypedAir(temperature="18", humidity="55", air="0.5")
    assert read_air(typed) == MILD


def typed_room(**changes):
    told = TypedRoom(
        has_night=True,
        day=TypedAir(temperature="18", humidity="55", air="0.5"),
        night=TypedAir(temperature="10", humidity="70"),
        day_from_h=8,
        night_from_h=18,
        volume="40",
    )
    return replace(told, **changes)


def test_a_form_becomes_a_room_that_keeps_its_readings():
    before = Room(readings=(reading(0),), zone="Europe/Lisbon", paces=(PACE,))
    room = room_of(typed_room(), before)
    assert room == Room(
        usual=MILD,
        by_hour=DayNight(day=MILD, night=COLD, night_from_h=18).hours(),
        readings=(reading(0),),
        zone="Europe/Lisbon",
        volume_m3=40.0,
    )
    alike = room_of(
        typed_room(has_night=False, night=TypedAir(temperature="", humidity="")), Room()
    )
    assert isinstance(alike, Room)
    assert alike.is_steady


def test_a_form_tells_in_which_row_something_is_wrong():
    rows = {
        "day": typed_room(day=TypedAir(temperature="x", humidity="50")),
        "night": typed_room(night=TypedAir(temperature="10", humidity="500")),
        "volume": typed_room(volume="-3"),
    }
    for row, typed in rows.items():
        found = room_of(typed, Room())
        assert isinstance(found, RoomFault)
        assert found.row == row
    same = room_of(typed_room(day_from_h=18), Room())
    assert isinstance(same, RoomFault)
    assert "both begin at 18:00" in same.fault.text
