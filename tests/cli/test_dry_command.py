"""``armorplan dry``: windows in words and as JSON, the air as typed, mistakes, and the picture."""

import json
from datetime import datetime, timedelta

import pytest
from schemas_cli import schema

from armorplan.cli.air_spec import room_as_typed
from armorplan.cli.program import run
from armorplan.cli.shop_now import shop_now
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.store.places import default_workshop_path
from armorplan.workshop.air import Climate, Room

FROM = ["--from", "2026-11-30T17:00Z"]


@pytest.fixture(autouse=True)
def usual_place(tmp_path, monkeypatch):
    data = tmp_path / "data"
    monkeypatch.setattr("armorplan.store.places.user_data_path", lambda *_, **__: data)
    monkeypatch.setattr("armorplan.cli.reading.get_localzone_name", lambda: "Europe/Lisbon")


def dried(capsys, *options, code=0):
    assert run(["dry", *options, *FROM, "--json"]) == code
    answer = json.loads(capsys.readouterr().out)
    schema("dry").validate(answer)
    return answer


def window(answer, key):
    return next(w for w in answer["windows"] if w["key"] == key)


def test_at_the_reference_it_takes_what_the_catalogue_says(capsys):
    answer = dried(capsys, "casing_water")
    shape = window(answer, "shape")
    assert (shape["opens"]["likely_min"], shape["closes"]["likely_min"]) == (10, 60)
    handle = window(answer, "handle")["opens"]
    assert handle["soonest_min"] < handle["likely_min"] == 1440 < handle["latest_min"]
    assert (answer["pct_of_usual"], answer["why"], answer["verdict"]) == (100, "", "dries")
    assert datetime.fromisoformat(handle["likely"]) == datetime.fromisoformat(
        "2026-11-30T17:00+00:00"
    ) + timedelta(minutes=1440)


def test_a_cold_night_stretches_the_window_and_says_so(capsys):
    cold = dried(capsys, "water_dye", "--climate", "day=18,55 night=10,80")
    warm = dried(capsys, "water_dye", "--climate", "18,55")
    assert (
        window(cold, "handle")["opens"]["likely_min"]
        > 1.3 * (window(warm, "handle")["opens"]["likely_min"])
    )
    assert "the nights are 10 °C" in cold["why"]
    assert cold["air"]["temperature_c"] == [10, 18]


def test_a_finish_put_on_before_a_cold_night_would_spoil_and_in_the_morning_it_does_not(capsys):
    air = ("--climate", "day=18,55 night=8,70")
    answer = dried(capsys, "acrylic_finish", *air, "--dipped", code=1)
    assert answer["verdict"] == "would spoil"
    assert (answer["windows"], answer["pct_of_usual"]) == ([], 0)
    assert "below 10 °C" in answer["trouble"]
    assert answer["remedy"]
    assert answer["bath"].startswith("Let it drip for 5 min, then turn it")
    assert run(["dry", "acrylic_finish", *air, "--from", "2026-11-30T09:00Z", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["verdict"] == "dries"


def test_what_would_spoil_is_told_without_a_window_and_ends_with_one(capsys, tmp_path):
    png = tmp_path / "spoilt.png"
    assert run(["dry", "acrylic_finish", "--climate", "8,60", *FROM, "--png", str(png)]) == 1
    said = capsys.readouterr().out
    assert "Acrylic finish would spoil" in said
    assert "No windows: it would be spoilt." in said
    assert "Dry to" not in said
    assert png.stat().st_size


@pytest.mark.parametrize(
    "treatment", ["casing_water", "water_dye", "white_glue", "acrylic_finish"]
)
def test_below_freezing_all_that_holds_water_would_spoil(capsys, treatment):
    answer = dried(capsys, treatment, "--climate=-2,70", code=1)
    assert answer["verdict"] == "would spoil"
    assert "below 0 °C" in answer["trouble"]
    assert answer["remedy"].startswith("Bring it inside")


def test_white_glue_does_not_bind_in_the_cold(capsys):
    cold = dried(capsys, "white_glue", "--climate", "6,50", code=1)
    assert "it does not bind below 8 °C" in cold["trouble"]
    assert "5 to 10 °C from memory: the label rules" in cold["sources"][0]


def test_in_saturated_air_it_will_not_dry(capsys):
    answer = dried(capsys, "water_dye", "--climate", "18,100", code=1)
    assert answer["verdict"] == "will not dry"
    assert answer["pct_of_usual"] == 0
    assert window(answer, "handle")["opens"]["likely_min"] is None
    assert "18 °C, relative humidity 100 %" in answer["trouble"]


def test_thicker_leather_one_face_and_a_leather_by_name(capsys):
    def handle(*options):
        return window(dried(capsys, "casing_soak", *options), "handle")["opens"]["likely_min"]

    usual = handle()
    assert handle("--thickness", "3.5") == usual
    assert handle("--thickness", "5") > handle("--thickness", "3,5")
    assert handle("--faces", "1") > 2 * usual
    assert handle("--material", "strap") == handle("--thickness", "3.35")


def test_air_too_hot_for_wet_leather_is_cautioned(capsys):
    hot = dried(capsys, "water_dye", "--climate", "45,60")["cautions"]
    assert hot[0].startswith("Air of 45 °C is too hot for wet leather: keep it below about 45 °C")
    assert not any(
        "too hot" in c for c in dried(capsys, "water_dye", "--climate", "44,60")["cautions"]
    )


def test_solvent_is_told_against_the_room(capsys):
    small = dried(capsys, "alcohol_dye", "--room", "3", "--area", "80")["vapour"]
    # 80 dm², both faces, 1.5 ml each, 0.75 g of ethanol in a ml; 63 g/m³ can burn.
    assert small["solvent_g"] == pytest.approx(80 * 2 * 1.5 * 0.75)
    assert small["in_air_g_per_m3"] == pytest.approx(180 / 3)
    assert small["lel_pct"] == pytest.approx(100 * 60 / 63, abs=0.01)
    assert small["over_limit"] is True
    assert small["words"].startswith("For 80 dm² of leather: 180 g of ethanol")
    assert "too much" in small["words"]
    assert "NIOSH" in small["lel_source"]
    unknown = dried(capsys, "alcohol_dye")["vapour"]
    assert unknown["lel_pct"] is None
    assert "it takes at least 3.6 m³" in unknown["words"]
    assert dried(capsys, "water_dye")["vapour"] is None


def test_it_says_it_in_plain_words(capsys):
    assert run(["dry", "Alcohol dye", *FROM, "--room", "30"]) == 0
    said = capsys.readouterr().out
    assert "Alcohol dye, wet from Monday 30 November 2026 17:00" in said
    assert "Tue 05:00 (in 12 h), from Tue 01:11 to Tue 10:38" in said
    assert "100 % of the catalogue's 12 h" in said
    assert "- Wear nitrile gloves" in said
    assert "lower explosive limit" in said
    assert "Sources" in said


def test_the_shop_file_tells_air_and_room_and_climate_goes_over_its_air(capsys, tmp_path):
    shop = tmp_path / "shop.toml"
    shop.write_text(
        'zone = "Europe/Lisbon"\n[people.m]\nname = "M"\n'
        'hours = [{day = "mon", from = "09:00", to = "10:00"}]\n'
        "[climate]\ntemperature_c = 12\nhumidity_pct = 70\n[room]\nvolume_m3 = 33\n",
        encoding="utf-8",
    )
    answer = dried(capsys, "alcohol_dye", "--shop", str(shop))
    assert answer["air"]["temperature_c"] == [12, 12]
    assert answer["vapour"]["volume_m3"] == 33
    over = dried(capsys, "alcohol_dye", "--shop", str(shop), "--climate", "25,40")
    assert over["air"]["temperature_c"] == [25, 25]
    assert over["vapour"]["volume_m3"] == 33


def test_the_air_kept_in_the_workshop_counts_and_air_as_typed_goes_over_it(capsys, tmp_path):
    kept = Room(usual=Climate(temperature_c=14, humidity_pct=65), zone="Europe/Lisbon")
    workshop = default_workshop_path()
    workshop.parent.mkdir(parents=True)
    shop_now(None, workshop, read_shelf, SystemClock()).keep(kept)
    assert dried(capsys, "water_dye")["air"]["temperature_c"] == [14, 14]
    assert dried(capsys, "water_dye", "--workshop", str(workshop))["air"]["humidity_pct"] == [
        65,
        65,
    ]
    assert dried(capsys, "water_dye", "--climate", "20,50")["air"]["temperature_c"] == [20, 20]
    assert run(["dry", "water_dye", "--workshop", str(tmp_path / "gone.workshop")]) == 2
    assert "There is no workshop file" in capsys.readouterr().err


def test_a_loggers_file_is_read_and_what_is_amiss_told_beside_the_answer(capsys, tmp_path):
    log = tmp_path / "log.csv"
    rows = "".join(f"2026-11-30 {hour:02}:00;{hour - 4},5;60\n" for hour in range(16, 24))
    log.write_text(f"time;temp;rh\n{rows}2026-11-30 24:10;1;1\n", encoding="utf-8")
    assert run(["dry", "water_dye", "--climate", str(log), *FROM, "--json"]) == 0
    said = capsys.readouterr()
    answer = json.loads(said.out)
    assert answer["air"]["words"].startswith("As read 8 times")
    assert "a time that cannot be read: line 10" in said.err
    assert "Traceback" not in said.err


def test_a_loggers_file_without_a_unit_is_not_reckoned_with(capsys, tmp_path):
    log = tmp_path / "log.csv"
    rows = "".join(f"2026-11-30 {hour:02}:00,{61 - hour % 12},60\n" for hour in range(24))
    log.write_text(f"time,temperature,humidity\n{rows}", encoding="utf-8")
    assert run(["dry", "water_dye", "--climate", str(log), *FROM]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert "Is that Fahrenheit? Then it is 10 to 16.1 °C." in said.err


AIR = Climate(temperature_c=18.0, humidity_pct=55.0)


@pytest.mark.parametrize(
    ("typed", "usual"),
    [
        ("18,55", AIR),
        (" 18 C, 55 % ", AIR),
        ("18°C,55%,0.1m/s", AIR),
        ("64.4F,55", AIR),
        ("18,0.5%", Climate(temperature_c=18.0, humidity_pct=0.5)),
        ("-5,80,0", Climate(temperature_c=-5.0, humidity_pct=80.0, air_m_s=0.0)),
        ("day=18,55", AIR),
    ],
)
def test_air_as_it_may_be_typed(typed, usual):
    shop = Room(usual=Climate(), by_hour=(Climate(),) * 24, zone="UTC", volume_m3=9.0)
    assert room_as_typed(typed, shop) == Room(usual=usual, zone="UTC", volume_m3=9.0)


@pytest.mark.parametrize(
    ("typed", "hours"),
    [
        ("day=18,55 night=10,80", [*range(8), *range(20, 24)]),
        ("night=50F,80;day=18,55", [*range(8), *range(20, 24)]),
        ("day=18,55 night=22:00-07:00@10,80", [*range(7), 22, 23]),
        ("day=18,55 night=1-3@10,80", [1, 2]),
    ],
)
def test_day_and_night_as_they_may_be_typed(typed, hours):
    room = room_as_typed(typed, Room())
    assert room.usual == AIR
    assert [h for h in range(24) if room.by_hour[h].temperature_c == 10] == hours
    assert room.by_hour[hours[0]].humidity_pct == 80


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("", "is no air. Write it like 18,55"),
        ("18", "is no air"),
        ("18,55,0.1,3", "is no air"),
        ("warm,55", "is no air"),
        ("nan,55", "is no air"),
        ("1e3,55", "is no air"),
        ("18,120", "humidity 120 % is not from 0 to 100 %"),
        ("18,-1", "humidity -1 %"),
        ("18.5,0.55", "Is that a share? Then it is 55 %. If so, write 55;"),
        ("day=18,55 night=10,0.8", "If so, write 80;"),
        ("18,55,-0.1", "air at -0.1 m/s is not from 0 to 30"),
        ("72,50", "If that is Fahrenheit, write 72F: it is 22 °C."),
        ("300,50", "300 °C is not from -20 to 60 °C."),
        ("200F,50", "93.3 °C is not from"),
        ("day=18,55 day=18,55", "is no air"),
        ("dusk=18,55", "is no air"),
        ("night=9-9@10,80", "no night's hours"),
        ("night=9-24@10,80", "no night's hours"),
        ("night=late@10,80", "no night's hours"),
        ("1" * 900, "is no air"),
        ("1" * 9000, "is no air"),
        ("18\0,55", "is no air"),
        ("nowhere.csv", "holds no nowhere.csv"),
    ],
)
def test_air_that_cannot_be_is_told_in_one_message(typed, says):
    with pytest.raises(ArmorplanError) as caught:
        room_as_typed(typed, Room())
    assert says in str(caught.value)


def test_fahrenheit_that_could_be_celsius_is_asked_about(capsys):
    assert room_as_typed("59,50", Room()).usual.temperature_c == 59
    assert "write 59F: it is 15 °C" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (["alcoholdye"], "Perhaps 'alcohol_dye' is meant. There are: acrylic_finish"),
        (["casing_water", "--material", "strop"], "There is no leather 'strop'. There are: strap"),
        (["white_glue", "--dipped"], "is not dipped"),
        (["water_dye", "--from", "soon"], "is no instant"),
        (["water_dye", "--png", "nowhere/there.png"], "cannot be written"),
        (["water_dye", "--png", "dye.docx"], "Let its name end in .png, .svg or .pdf."),
        (["water_dye", "--png", "dye.txt"], "dye.txt: the picture cannot be written so."),
        (["water_dye", "--png", "nowhere/there.png"], "there is no folder nowhere."),
    ],
)
def test_mistakes_get_one_message(capsys, options, says):
    assert run(["dry", *options]) == 2
    said = capsys.readouterr()
    assert says in said.err
    assert said.out == ""
    assert "Errno" not in said.err
    assert said.err.count("\n") == 1


@pytest.mark.parametrize("thickness", ["0", "-1", "nan", "thick", "31"])
def test_leather_has_a_thickness(capsys, thickness):
    with pytest.raises(SystemExit) as caught:
        run(["dry", "water_dye", f"--thickness={thickness}"])
    assert caught.value.code == 2
    said = capsys.readouterr().err
    assert "is no number above 0 and up to 30 mm, such as 3.5. See armorplan dry --help." in said
    assert said.count("\n") == 1


def test_a_picture_where_nothing_can_be_written_is_one_line(capsys, tmp_path):
    (tmp_path / "dye.png").mkdir()
    assert run(["dry", "water_dye", *FROM, "--png", str(tmp_path / "dye.png")]) == 2
    said = capsys.readouterr().err
    assert "the picture cannot be written (is a directory). Choose another file." in said
    assert said.count("\n") == 1


def test_a_treatment_without_times(capsys, tmp_path):
    own = tmp_path / "own"
    own.mkdir()
    (own / "treatments.toml").write_text("[wax_finish]\ntouch_min = 0\nhandle_min = 0\n")
    assert run(["dry", "wax_finish", "--catalogues", str(own)]) == 2
    assert "Wax finish, buffed has no times" in capsys.readouterr().err


@pytest.mark.parametrize("more", [[], ["--dark"]])
def test_the_picture_is_written(capsys, tmp_path, more):
    picture = tmp_path / "dye.png"
    assert (
        run(["dry", "water_dye", *FROM, "--climate", "18,60", "--png", str(picture), *more]) == 0
    )
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert picture.stat().st_size > 20_000


def test_help_shows_examples(capsys):
    with pytest.raises(SystemExit):
        run(["dry", "--help"])
    said = capsys.readouterr().out
    assert "armorplan dry acrylic_finish --dipped --climate 'day=64F,55 night=10,80'" in said
