"""``armorplan plan``: instants, hours, pictures, and mistakes in its options."""

import json
from datetime import datetime, time

import pytest
from schemas_cli import schema

from armorplan.cli.program import run

FROM = ["--from", "2026-11-30T09:00Z"]
SHOP = """
zone = "Europe/Lisbon"
[people.rope]
name = "Rope walker"
hours = [{ day = "mon", from = "08:00", to = "20:00" }, { day = "thu", from = "08:00", to = "20:00" }]
[climate]
temperature_c = 10
humidity_pct = 80
"""


def planned(capsys, *options: str) -> dict:
    assert run(["plan", "elbow_cop", *FROM, "--json", "--seconds", "0", *options]) == 0
    return json.loads(capsys.readouterr().out)


def test_the_plan_fits_the_shipped_schema(capsys):
    schema("plan").validate(planned(capsys))


def test_nothing_is_done_out_of_hours_and_drying_runs_through_the_night(tmp_path, capsys):
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP, encoding="utf-8")
    steps = planned(capsys, "--shop", str(shop))["steps"]
    hands_on = [step for step in steps if step["who"]]
    for step in hands_on:
        start, end = (datetime.fromisoformat(step[key]) for key in ("start", "end"))
        assert step["who"] == "rope"
        assert start.weekday() in {0, 3}
        assert time(8) <= start.time() <= end.time() <= time(20)
    assert any(
        datetime.fromisoformat(s["start"]).date() < datetime.fromisoformat(s["end"]).date()
        for s in steps
        if not s["who"]
    )


def test_a_cold_damp_shop_dries_longer(tmp_path, capsys):
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP, encoding="utf-8")

    def longest(*options: str) -> float:
        waits = [s for s in planned(capsys, *options)["steps"] if "Acrylic" in s["title"]]
        spans = [
            datetime.fromisoformat(s["end"]) - datetime.fromisoformat(s["start"]) for s in waits
        ]
        return max(spans).total_seconds()

    assert longest("--shop", str(shop)) > 3 * longest()


def test_the_solver_s_plan_is_no_later(capsys):
    first = planned(capsys)["stages"][0]
    assert run(["plan", "elbow_cop", *FROM, "--json", "--seconds", "6"]) == 0
    best = json.loads(capsys.readouterr().out)["stages"][0]
    assert first["bound"] <= best["bound"] <= best["value"] <= first["value"]


def test_a_picture_is_drawn(tmp_path, capsys):
    picture = tmp_path / "days.png"
    planned(capsys, "--png", str(picture))
    assert picture.read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("options", "named"),
    [
        (["--from", "next week"], "next week"),
        (["--from", "0001-01-01T00:00"], "0001-01-01"),
        (["--from", "9999-12-31T23:00"], "9999-12-31"),
        (["--png", "nowhere/days.png"], "nowhere/days.png"),
        (["--png", "days.cake"], "days.cake"),
        (["--shop", "none.toml"], "none.toml"),
    ],
)
def test_a_mistake_in_an_option_is_one_clear_message(options, named, capsys):
    assert run(["plan", "elbow_cop", *options, "--seconds", "0"]) == 2
    said = capsys.readouterr().err
    assert named in said
    assert "Traceback" not in said


@pytest.mark.parametrize("given", ["nan", "inf", "-1", "soon"])
def test_seconds_have_to_be_a_sensible_number(given, capsys):
    with pytest.raises(SystemExit) as left:
        run(["plan", "elbow_cop", f"--seconds={given}"])
    assert left.value.code == 2
    assert given in capsys.readouterr().err


NIGHT = """
[climate.night]
from = "20:00"
to = "08:00"
temperature_c = 4
humidity_pct = 85
"""


def test_cold_nights_are_told_and_their_plan_fits_the_schema(tmp_path, capsys):
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP, encoding="utf-8")
    steady = planned(capsys, "--shop", str(shop))
    shop.write_text(SHOP + NIGHT, encoding="utf-8")
    found = planned(capsys, "--shop", str(shop))
    schema("plan").validate(found)
    assert found["nights"].startswith("Nights at 4 °C slow ")
    assert steady["nights"] == ""
    assert max(s["end"] for s in found["steps"]) >= max(s["end"] for s in steady["steps"])
    assert any("at night the air is 4 °C and 85 %" in s["note"] for s in found["steps"])


def test_cold_nights_are_told_below_the_table(tmp_path, capsys):
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP + NIGHT, encoding="utf-8")
    picture = tmp_path / "days.png"
    options = ["--shop", str(shop), "--seconds", "0", "--png", str(picture)]
    assert run(["plan", "elbow_cop", *FROM, *options]) == 0
    assert "Nights at 4 °C slow " in capsys.readouterr().out.splitlines()[-1]
    assert picture.read_bytes().startswith(b"\x89PNG")
