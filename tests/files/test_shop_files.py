from datetime import time

import pytest

from armorplan.files.shop_file import read_shop_file
from armorplan.kernel.errors import UnreadableError
from armorplan.workshop.air import Climate
from armorplan.workshop.shop import USUAL_TRAY, Opening, Tray

SHOP = """\
zone = "Europe/Lisbon"

[people.maker]
name = "Maker"
hours = [
    { day = "tue", from = "13:30", to = "17:30" },
    { day = "mon", from = "09:00", to = "12:30" },
    { day = "tue", from = "09:00", to = "13:30" },
]

[people.apprentice]
name = "Apprentice"
hours = [{ day = "Sat", from = 10:00:00, to = 14:00:00 }]

[climate]
temperature_c = 18
humidity_pct = 65.5

[trays.long]
name = "Zinc tray"
length_mm = 900
width_mm = 250.5
depth_mm = 80
"""


@pytest.fixture
def shop_of(tmp_path):
    def read(text):
        path = tmp_path / "shop.toml"
        path.write_bytes(text.encode())
        return read_shop_file(path).shop

    return read


def test_reads_people_hours_zone_and_climate(shop_of):
    shop = shop_of(SHOP)
    maker, apprentice = shop.people
    assert shop.zone == "Europe/Lisbon"
    assert shop.room.usual == Climate(temperature_c=18, humidity_pct=65.5)
    assert (maker.id, maker.name) == ("maker", "Maker")
    assert maker.hours == (
        Opening(weekday=0, start=time(9), end=time(12, 30)),
        Opening(weekday=1, start=time(9), end=time(13, 30)),
        Opening(weekday=1, start=time(13, 30), end=time(17, 30)),
    )
    assert apprentice.hours == (Opening(weekday=5, start=time(10), end=time(14)),)


def test_climate_and_trays_may_be_left_out(shop_of):
    shop = shop_of(SHOP.split("[climate]", maxsplit=1)[0])
    assert shop.room.usual == Climate()
    assert shop.trays == (USUAL_TRAY,)


def test_trays_take_the_place_of_the_usual_one(shop_of):
    assert shop_of(SHOP).trays == (
        Tray(id="long", name="Zinc tray", length_mm=900.0, width_mm=250.5, depth_mm=80.0),
    )


@pytest.mark.parametrize(
    ("old", "new", "code", "line", "says"),
    [
        ("Europe/Lisbon", "Europe/Lisbom", "unknown-zone", 1, '"Europe/Lisbon"'),
        ("Europe/Lisbon", "Europe", "unknown-zone", 1, "no time zone"),
        ("Europe/Lisbon", "../../etc/hosts", "unknown-zone", 1, "no time zone"),
        ("Europe/Lisbon", "a" * 5000, "unknown-zone", 1, "no time zone"),
        ('zone = "Europe/Lisbon"', "", "missing-key", None, 'lacks "zone"'),
        ('day = "mon"', 'day = "monday"', "wrong-value", 7, "mon, tue"),
        ('from = "09:00", to = "12:30"', 'from = "12:30", to = "09:00"', "ends-before-start", 7,
         "from 12:30 to 09:00"),
        ('from = "09:00", to = "12:30"', 'from = "09:00", to = "09:00"', "ends-before-start", 7,
         "from 09:00 to 09:00"),
        ('to = "12:30"', 'to = "24:00"', "wrong-value", 7, "23:59"),
        ('to = "12:30"', "to = 12", "wrong-value", 7, "the number 12"),
        ('to = "12:30"', 'till = "12:30"', "missing-key", 7, '"to"'),
        ('to = "13:30"', 'to = "14:00"', "hours-overlap", 6, "from 13:30 begin before"),
        ("humidity_pct = 65.5", "humidity_pct = 101", "wrong-value", 17, "at most 100"),
        ("humidity_pct = 65.5", "humidity_pct = -1", "wrong-value", 17, "of at least 0 and at most 100"),
        ("humidity_pct = 65.5", "humidity = 50", "unknown-key", 17, '"humidity_pct"'),
        ("temperature_c = 18", "temperature_c = 291", "wrong-value", 16, "at most 60"),
        ('name = "Maker"', "", "missing-key", 3, '"name"'),
        ("[climate]", "climate]", "toml-syntax", 15, "not valid TOML"),
        ("depth_mm = 80", "depth_mm = 0", "wrong-value", 23, "above 0"),
        ("depth_mm = 80", "", "missing-key", 19, '"depth_mm"'),
        ("depth_mm = 80", "deep_mm = 80", "unknown-key", 23, '"depth_mm"'),
        ('name = "Zinc tray"', "", "missing-key", 19, '"name"'),
    ],
)  # fmt: skip
def test_faults_have_their_line(shop_of, old, new, code, line, says):
    assert old in SHOP
    with pytest.raises(UnreadableError) as caught:
        shop_of(SHOP.replace(old, new, 1))
    finding = next(f for f in caught.value.findings if f.code == code)
    assert finding.place.line == line
    assert says in str(finding)


def test_all_faults_come_at_once(shop_of):
    text = SHOP.replace("Lisbon", "Atlantis").replace('"mon"', '"sun day"').replace("65.5", "650")
    with pytest.raises(UnreadableError) as caught:
        shop_of(text)
    assert [f.code for f in caught.value.findings] == [
        "unknown-zone",
        "wrong-value",
        "wrong-value",
    ]


def test_nobody_works_there(shop_of):
    with pytest.raises(UnreadableError, match="people"):
        shop_of('zone = "UTC"\n')


@pytest.mark.parametrize("data", [b"", b"\xff\xfez\0", b"zone = '\xe9'"])
def test_what_is_not_text(tmp_path, data):
    (tmp_path / "shop.toml").write_bytes(data)
    with pytest.raises(UnreadableError):
        read_shop_file(tmp_path / "shop.toml")


def test_a_shop_file_that_is_not_there(tmp_path):
    with pytest.raises(UnreadableError, match="holds no shop"):
        read_shop_file(tmp_path / "shop.toml")
