"""The air of a shop file: nights, hours, a logger's file, the room; each fault told with its line."""

from datetime import UTC, datetime

import pytest

from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Severity
from armorplan.workshop.air import Climate

HEAD = """\
zone = "Europe/Lisbon"

[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "09:00", to = "12:30" }]

"""
DAY = "[climate]\ntemperature_c = 18\nhumidity_pct = 55\nair_m_s = 0.2\n"
NIGHT = "[climate.night]\ntemperature_c = 10\nhumidity_pct = 80\n"
HOURS = f"by_hour = [{', '.join(f'[{10 + hour / 2}, 60]' for hour in range(24))}]\n"
LOG = "time,temp,rh\n2026-01-05 10:00,16.5,62\n2026-01-05 10:30,16.0,63\n"


@pytest.fixture
def read(tmp_path):
    (tmp_path / "air.csv").write_text(LOG, encoding="utf-8")

    def read(text):
        path = tmp_path / "shop.toml"
        path.write_text(HEAD + text, encoding="utf-8")
        return read_shop_file(path)

    return read


def test_nights_have_their_own_air_from_eight_to_eight(read):
    room = read(DAY + NIGHT).shop.room
    day = Climate(temperature_c=18, humidity_pct=55, air_m_s=0.2)
    night = Climate(temperature_c=10, humidity_pct=80, air_m_s=0.2)
    assert room.usual == day
    assert room.by_hour == (night,) * 8 + (day,) * 12 + (night,) * 4
    assert not room.is_steady


def test_nights_of_other_hours_and_one_that_lies_within_a_day(read):
    room = read(DAY + NIGHT + 'from = "22:00"\nto = 07:00:00\nair_m_s = 0\n').shop.room
    assert [air.temperature_c for air in room.by_hour] == [10] * 7 + [18] * 15 + [10] * 2
    assert room.by_hour[0].air_m_s == 0
    siesta = read(DAY + NIGHT + 'from = "13:00"\nto = "15:00"\n').shop.room
    assert [h for h, air in enumerate(siesta.by_hour) if air.temperature_c == 10] == [13, 14]


def test_each_hour_its_own_air(read):
    room = read(DAY + HOURS.replace("[12.0, 60]", "[12.0, 60, 0.8]")).shop.room
    assert [air.temperature_c for air in room.by_hour] == [10 + hour / 2 for hour in range(24)]
    assert [room.by_hour[hour].air_m_s for hour in (3, 4)] == [0.2, 0.8]


def test_a_loggers_file_is_read_in_the_shops_zone_and_its_air_speed(read):
    found = read(DAY.replace("[climate]", '[climate]\nreadings = "air.csv"'))
    assert [r.at for r in found.shop.room.readings] == [
        datetime(2026, 1, 5, 10, minute, tzinfo=UTC) for minute in (0, 30)
    ]
    assert found.shop.room.readings[0].climate.air_m_s == 0.2
    assert found.findings == ()


def test_what_is_amiss_with_a_loggers_file_is_told_and_the_shop_is_read_all_the_same(
    read, tmp_path
):
    (tmp_path / "air.csv").write_text("time,temp\n2026-01-05 10:00,16\n", encoding="utf-8")
    found = read('[climate]\nreadings = "air.csv"\n')
    (finding,) = found.findings
    assert finding.severity is Severity.WARNING
    assert "no column of humidity" in finding.text
    assert "Until then the usual air of the shop counts." in finding.remedy
    assert found.shop.room.is_steady


def test_a_loggers_file_without_a_unit_has_to_say_it_first(read, tmp_path):
    rows = "2026-01-05 10:00,61,62\n2026-01-05 22:00,50,63\n"
    (tmp_path / "air.csv").write_text(f"time,temp,rh\n{rows}", encoding="utf-8")
    with pytest.raises(UnreadableError) as caught:
        read('[climate]\nreadings = "air.csv"\n')
    (finding,) = caught.value.findings
    assert "Is that Fahrenheit? Then it is 10 to 16.1 °C." in str(finding)
    (tmp_path / "air.csv").write_text(f"time,temp_f,rh\n{rows}", encoding="utf-8")
    assert len(read('[climate]\nreadings = "air.csv"\n').shop.room.readings) == 2


def test_the_volume_of_the_room(read):
    assert read("[room]\nvolume_m3 = 42.5\n").shop.room.volume_m3 == 42.5
    assert read("").shop.room.volume_m3 is None


def test_fahrenheit_is_asked_about_where_it_could_be_celsius(read):
    found = read("[climate]\ntemperature_c = 59\n")
    assert found.shop.room.usual.temperature_c == 59
    (finding,) = found.findings
    assert (finding.severity, finding.place.line) == (Severity.WARNING, 8)
    assert str(finding).endswith(
        "climate.temperature_c is 59 °C. Is that Fahrenheit? If so, write 15: 59 °F is 15 °C. "
        "[fahrenheit-perhaps]"
    )


@pytest.mark.parametrize(
    ("text", "code", "line", "says"),
    [
        ("[climate]\ntemperature_c = 72\n", "wrong-value", 8, "72 °F is 22 °C"),
        (f"[climate]\ntemperature_c = 1{'0' * 400}\n", "wrong-value", 8, "at most 60"),
        ("[climate]\ntemperature_c = nan\n", "wrong-value", 8, "at most 60"),
        ("[climate]\ntemperature_c = -inf\n", "wrong-value", 8, "at most 60"),
        (DAY + "by_hour = [" + "[nan, 50], " * 24 + "]\n", "wrong-value", 11, "00:00"),
        (DAY + f"by_hour = [{f'[1{chr(48) * 400}, 50], ' * 24}]\n", "wrong-value", 11, "00:00"),
        (DAY.replace("55", "0.55"), "share-perhaps", 9, "Is that a share? Then it is 55 %."),
        (DAY + HOURS.replace("[12.0, 60]", "[12.0, 0.6]"), "share-perhaps", 11, "04:00: 0.6 %"),
        (DAY + "night = 5\n", "wrong-value", 11, "a table, [climate.night]"),
        ("[climate]\ntemperature_c = true\n", "wrong-value", 8, "at most 60"),
        ("[climate]\nair_m_s = -0.1\n", "wrong-value", 8, "of at least 0 and at most 30 m/s"),
        (DAY + NIGHT + 'from = "21:30"\n', "wrong-value", 14, "full hour"),
        (DAY + NIGHT + 'from = "08:00"\n', "no-night", 11, "from 08:00 to 08:00"),
        (DAY + NIGHT + 'from = "late"\n', "wrong-value", 14, "time of day"),
        (DAY + NIGHT.replace("humidity_pct = 80", ""), "missing-key", 11, '"humidity_pct"'),
        (DAY + NIGHT.replace("10", "64"), "wrong-value", 12, "64 °F is 18 °C"),
        (DAY + NIGHT + "humid = 3\n", "unknown-key", 14, '"humidity_pct"'),
        (DAY + HOURS + NIGHT, "two-climates", 11, "Keep one"),
        (DAY + "by_hour = [[10, 60]]\n", "not-24-hours", 11, "has 1 row;"),
        (DAY + "by_hour = 12\n", "not-24-hours", 11, "has 0 rows"),
        (DAY + HOURS.replace("[12.0, 60]", "[12.0, 160]"), "wrong-value", 11, "04:00"),
        (DAY + HOURS.replace("[12.0, 60]", "[12.0]"), "wrong-value", 11, "04:00"),
        (DAY + HOURS.replace("[12.0, 60]", "12.0"), "wrong-value", 11, "04:00"),
        (DAY + HOURS.replace("[12.0, 60]", "[12, 6, 0, 1]"), "wrong-value", 11, "04:00"),
        ('[climate]\nreadings = "aire.csv"\n', "no-such-file", 8, "air.csv"),
        ('[climate]\nreadings = "../air.csv"\n', "leaves-folder", 8, "out of the folder"),
        ("[climate]\nreadings = 7\n", "wrong-value", 8, "a text in quotes"),
        ("[room]\nvolume_m3 = 0\n", "wrong-value", 8, "above 0"),
        ("[room]\nvolume = 40\n", "unknown-key", 8, '"volume_m3"'),
    ],
)  # fmt: skip
def test_faults_have_their_line(read, text, code, line, says):
    with pytest.raises(UnreadableError) as caught:
        read(text)
    finding = next(f for f in caught.value.findings if f.code == code)
    assert finding.place.line == line
    assert says in str(finding)
