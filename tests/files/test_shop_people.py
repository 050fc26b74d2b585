"""Skills, pace, absences, wearers, places and closing days of a shop file."""

from datetime import UTC, datetime, time

import pytest

from armorplan.files.shop_file import read_shop_file, shop_path
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.calendar import Holidays, Stretch
from armorplan.workshop.hours import Opening
from armorplan.workshop.places import DipBath, Rack, Station

SHOP = """\
zone = "Europe/Lisbon"
closed = [
    { day = 2026-12-08, why = "Founding day" },
    { from = 2026-12-24, to = 2026-12-26 },
]

[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "09:00", to = "12:30" }]
away = [{ day = 2026-12-10, from = "13:00", to = "17:00", why = "Harbour office" }]

[people.apprentice]
name = "Apprentice"
hours = [{ day = "tue", from = "09:00", to = "12:30" }]
cannot = ["rivet", "form"]
pace = 1.3
paces = { "cut" = 1.5 }
extra = [{ day = 2027-07-16, from = "17:00", to = "20:00" }]

[wearers.captain]
name = "Captain"
hours = [{ day = "wed", from = "16:00", to = "17:30" }]
appointments = [{ from = "2026-12-18 13:30", to = "2026-12-18 16:30" }]

[trays.zinc]
name = "Zinc tray"
length_mm = 900
width_mm = 500
depth_mm = 120

[baths.vat]
name = "Vat"
tray = "zinc"
takes = ["alcohol_dye"]
change_min = 25
holds = { treatment = "alcohol_dye", colour = "harbour blue" }

[baths.bench]
name = "Bench"
applying = "wipe"
area_dm2 = 60.5

[racks.line]
name = "Line"
line_mm = 6000

[stations.press]
name = "Press"
kinds = ["rivet"]
count = 2
hours = [{ day = "mon", from = "09:00", to = "10:00" }]
"""


@pytest.fixture
def read(tmp_path):
    def reading(text):
        path = tmp_path / "shop.toml"
        path.write_text(text, encoding="utf-8")
        return read_shop_file(path)

    return reading


def _utc(*when):
    return datetime(*when, tzinfo=UTC)


def test_people_have_skills_pace_and_days_of_their_own(read):
    maker, apprentice = read(SHOP).shop.people
    assert maker.away == (
        Stretch(
            start_at=_utc(2026, 12, 10, 13), end_at=_utc(2026, 12, 10, 17), why="Harbour office"
        ),
    )
    # Lisbon is an hour ahead of UTC in summer.
    assert apprentice.extra == (
        Stretch(start_at=_utc(2027, 7, 16, 16), end_at=_utc(2027, 7, 16, 19)),
    )
    assert not apprentice.does("rivet")
    assert apprentice.does("cut")
    assert (apprentice.pace_at("cut"), apprentice.pace_at("punch")) == (1.5, 1.3)


def test_who_can_does_nothing_else(read):
    found = read(SHOP.replace('cannot = ["rivet", "form"]', 'can = ["cut"]')).shop.people[1]
    assert found.does("cut")
    assert not found.does("punch")


def test_who_does_a_kind_with_somebody_beside(read):
    text = SHOP.replace('cannot = ["rivet", "form"]', 'beside = ["rivet"]\ncannot = ["form"]')
    found = read(text).shop.people[1]
    kinds = ("rivet", "form", "cut")
    assert [found.does(kind) for kind in kinds] == [False, False, True]
    assert [found.does_beside(kind) for kind in kinds] == [True, False, False]
    text = SHOP.replace('cannot = ["rivet", "form"]', 'beside = ["rivet"]\ncan = ["cut"]')
    found = read(text).shop.people[1]
    assert found.does_beside("rivet")
    assert not found.does("rivet")
    assert not found.does_beside("form")


def test_places_closing_days_and_wearers(read):
    shop = read(SHOP).shop
    assert [(s.start_at.day, s.end_at.day) for s in shop.closed] == [(8, 9), (24, 27)]
    assert shop.wearers[0].hours == (Opening(weekday=2, start=time(16), end=time(17, 30)),)
    assert shop.wearers[0].appointments == (
        Stretch(start_at=_utc(2026, 12, 18, 13, 30), end_at=_utc(2026, 12, 18, 16, 30)),
    )
    assert shop.baths == (
        DipBath(
            id="vat",
            name="Vat",
            area_dm2=45.0,
            change_min=25,
            holds="alcohol_dye|harbour blue",
            takes=("alcohol_dye",),
            sides_mm=(900.0, 500.0),
        ),
        DipBath(id="bench", name="Bench", area_dm2=60.5, applying="wipe"),
    )
    assert shop.racks == (Rack(id="line", name="Line", line_mm=6000.0),)
    assert shop.stations == (
        Station(
            id="press",
            name="Press",
            kinds=("rivet",),
            count=2,
            hours=(Opening(weekday=0, start=time(9), end=time(10)),),
        ),
    )


def test_public_holidays_close_the_shop(read):
    shop = read('holidays = { country = "pt" }\n' + SHOP).shop
    assert shop.holidays == Holidays(country="PT")
    # 8 December, the Immaculate Conception, is a national holiday in Portugal (Código do
    # Trabalho, art. 234); 9 December is not.
    assert shop.holidays.on(_utc(2026, 12, 8).date())
    assert not shop.holidays.on(_utc(2026, 12, 9).date())


def test_without_the_library_days_are_named_one_by_one(read, monkeypatch):
    monkeypatch.setattr("armorplan.files.place_rows.find_spec", lambda _: None)
    with pytest.raises(UnreadableError, match=r"not installed.*name the days in closed"):
        read('holidays = { country = "PT" }\n' + SHOP)


@pytest.mark.parametrize(
    ("old", "new", "code", "line", "says"),
    [
        ('from = "13:00", to = "17:00", why', 'from = "18:00", to = "17:00", why',
         "ends-before-start", 10, "ends before it starts"),
        ("day = 2026-12-10", "day = 2026-13-10", "toml-syntax", 10, "not valid TOML"),
        ("day = 2026-12-10", 'day = "10 Dec"', "wrong-value", 10, "2026-12-05"),
        ('day = 2027-07-16, from = "17:00", to = "20:00"', "day = 2027-07-16", "missing-key", 18,
         '"from"'),
        ('["rivet", "form"]', '["rivets"]', "unknown-id", 15, '"rivet"'),
        ("pace = 1.3", 'beside = ["rivets"]', "unknown-id", 16, '"rivet"'),
        ("pace = 1.3", 'beside = ["form"]', "told-two-ways", 16, 'names "form", which "cannot" names'),
        ('cannot = ["rivet", "form"]', 'can = ["cut"]\nbeside = ["cut"]', "told-two-ways", 16,
         "do it alone, or only with somebody beside"),
        ('"cut" = 1.5', '"cut" = 0', "wrong-value", 17, "at least 0.01"),
        ('"cut" = 1.5', '"cuts" = 1.5', "unknown-id", 17, '"cut"'),
        ("pace = 1.3", 'pace = "slow"', "wrong-value", 16, "a number"),
        ("area_dm2 = 60.5", "area_dm2 = 0", "wrong-value", 41, "above 0"),
        ("area_dm2 = 60.5", "", "missing-key", 38, '"area_dm2"'),
        ('tray = "zinc"', 'tray = "tin"', "unknown-id", 33, "There are: zinc"),
        ('"wipe"', '"spray"', "wrong-value", 40, '"dip" or "wipe"'),
        ("line_mm = 6000", "", "missing-key", 43, '"line_mm"'),
        ("line_mm = 6000", "line_mm = 0", "wrong-value", 45, "above 0"),
        ("[racks.line]", "[racks.vat]", "named-twice", 43, "baths"),
        ("[wearers.captain]", "[wearers.maker]", "named-twice", 20, "a person and a wearer"),
        ('kinds = ["rivet"]', "kinds = []", "empty-list", 49, "at least one"),
        ("count = 2", "count = 0", "wrong-value", 50, "from 1"),
    ],
)  # fmt: skip
def test_each_fault_has_its_line(read, old, new, code, line, says):
    assert old in SHOP
    with pytest.raises(UnreadableError) as caught:
        read(SHOP.replace(old, new, 1))
    finding = next(f for f in caught.value.findings if f.code == code)
    assert finding.place.line == line
    assert says in str(finding)


def test_a_shop_where_nobody_has_hours(read):
    text = 'zone = "UTC"\n[people.maker]\nname = "Maker"\nhours = []\n'
    with pytest.raises(UnreadableError) as caught:
        read(text)
    (finding,) = caught.value.findings
    assert finding.code == "no-hours"
    assert finding.place.line == 2
    extra = 'extra = [{ day = 2026-12-05, from = "17:00", to = "20:00" }]\n'
    assert read(text + extra).shop.people[0].extra


@pytest.mark.parametrize(
    ("zone", "when", "shown"),
    [
        # Clocks go forward on the last Sunday of March at 01:00 UTC in the European Union
        # (Directive 2000/84/EC), on the second Sunday of March at 02:00 local time in the United
        # States (15 U.S.C. 260a).
        ("Europe/Lisbon", "2027-03-28 01:30", "02:30"),
        ("America/New_York", "2027-03-14 02:15", "03:15"),
    ],
)
def test_a_time_that_the_clock_leaves_out(read, zone, when, shown):
    text = SHOP.replace("Europe/Lisbon", zone).replace("2026-12-18 13:30", when)
    with pytest.raises(UnreadableError) as caught:
        read(text.replace("2026-12-18 16:30", "2027-03-29 16:30"))
    (finding,) = caught.value.findings
    assert (finding.code, finding.place.line) == ("no-such-time", 23)
    assert f"Write {shown}" in finding.remedy


def test_a_time_that_the_clock_brings_twice_is_the_first(read):
    # Clocks go back on 25 October 2026 at 02:00 summer time in Lisbon: 01:30 comes twice.
    text = SHOP.replace("2026-12-18 13:30", "2026-10-25 01:30")
    stretch = read(text).shop.wearers[0].appointments[0]
    assert stretch.start_at == _utc(2026, 10, 25, 0, 30)


def test_a_folder_stands_for_the_shop_file_in_it():
    week = samples_folder() / "lantern_week"
    assert shop_path(week) == week / "shop.toml"
    assert shop_path(week / "shop.toml") == week / "shop.toml"
