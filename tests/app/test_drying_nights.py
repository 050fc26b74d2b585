"""What is shaded behind a drying: nights of the air, else closed hours of the shop."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.app.drying_nights import night_hours, shades_of
from armorplan.app.shop_air import DayNight
from armorplan.workshop.air import AirReading, Climate, Room
from armorplan.workshop.shop import one_maker

LISBON = "Europe/Lisbon"
MILD, COLD = Climate(temperature_c=18), Climate(temperature_c=9)
NOON = datetime(2026, 11, 30, 12, tzinfo=UTC)


def nights(day_from_h, night_from_h, zone=LISBON):
    air = DayNight(day=MILD, night=COLD, day_from_h=day_from_h, night_from_h=night_from_h)
    return Room(by_hour=air.hours(), usual=MILD, zone=zone)


def local(shades, zone=LISBON):
    ends = [[at.astimezone(ZoneInfo(zone)) for at in span] for span in shades.spans]
    return [(f"{a:%d %H:%M}", f"{b:%d %H:%M}") for a, b in ends]


def test_the_night_is_when_the_shops_air_has_it():
    shades = shades_of(nights(6, 19), one_maker(LISBON).people, NOON, NOON + timedelta(days=2))
    assert shades.word == "night"
    assert local(shades) == [("30 19:00", "01 06:00"), ("01 19:00", "02 06:00")]
    late = shades_of(nights(10, 23), (), NOON, NOON + timedelta(hours=15))
    assert local(late) == [("30 23:00", "01 03:00")]


def test_it_is_told_by_the_shops_own_clock():
    shades = shades_of(nights(6, 19, "Asia/Tokyo"), (), NOON, NOON + timedelta(days=1))
    assert local(shades, "Asia/Tokyo")[0] == ("30 21:00", "01 06:00")


def test_a_night_in_which_clocks_change_is_an_hour_longer():
    begin = datetime(2026, 10, 24, 12, tzinfo=UTC)
    ((falls, ends),) = shades_of(nights(8, 20), (), begin, begin + timedelta(days=1)).spans[:1]
    assert ends - falls == timedelta(hours=13)


def test_air_that_was_read_has_the_night_that_was_read():
    day = datetime(2026, 11, 20, tzinfo=UTC)
    readings = tuple(
        AirReading(at=day + timedelta(hours=n), climate=Climate(temperature_c=8 if n < 10 else 17))
        for n in range(24)
    )
    assert night_hours(Room(readings=readings, zone=LISBON)) == frozenset(range(10))


def test_where_the_air_has_no_night_closed_hours_are_shaded():
    people = one_maker(LISBON).people
    monday = datetime(2026, 11, 30, 17, tzinfo=UTC)
    shades = shades_of(Room(zone=LISBON), people, monday, monday + timedelta(hours=20))
    assert shades.word == "closed"
    assert ("30 17:30", "01 09:00") in local(shades)
    assert shades_of(Room(zone=LISBON), (), monday, monday + timedelta(days=1)).spans == ()
