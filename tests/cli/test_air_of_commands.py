"""Every command reckons with the air that the usual workshop keeps, and makes no workshop itself."""

import json

import pytest

from armorplan.cli.program import run
from armorplan.cli.shop_now import shop_now
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.clock import SystemClock
from armorplan.store.places import default_workshop_path
from armorplan.workshop.air import Climate, Room

SAID = "The air of the shop is kept in the workshop. 14 °C, 65 %"
SHOP = """
zone = "Europe/Lisbon"
[people.rope]
name = "Rope walker"
hours = [{ day = "mon", from = "08:00", to = "20:00" }]
[climate]
temperature_c = 23
humidity_pct = 50
"""
PLAN = ["plan", "elbow_cop", "--seconds", "0", "--from", "2026-11-30T09:00Z", "--json"]


@pytest.fixture(autouse=True)
def usual_place(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return default_workshop_path()


@pytest.fixture
def kept(usual_place):
    usual_place.parent.mkdir(parents=True)
    air = Room(usual=Climate(temperature_c=14, humidity_pct=65))
    shop_now(None, usual_place, read_shelf, SystemClock()).keep(air)


def test_the_suite_reads_nobodys_workshop(usual_place, tmp_path):
    assert usual_place.is_relative_to(tmp_path)


def ends(capsys, *options):
    assert run([*PLAN, *options]) == 0
    said = capsys.readouterr()
    return max(step["end"] for step in json.loads(said.out)["steps"]), said.err


def test_a_plan_dries_in_the_air_that_the_usual_workshop_keeps(capsys, kept, tmp_path):
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP, encoding="utf-8")
    assert run([*PLAN[:-1]]) == 0
    assert SAID in capsys.readouterr().out
    cold, said = ends(capsys)
    assert SAID in said
    over, said = ends(capsys, "--shop", str(shop))
    assert SAID not in said
    default_workshop_path().unlink()
    usual, said = ends(capsys)
    assert (said, usual < cold) == ("", True)
    assert ends(capsys, "--shop", str(shop))[0] == over


@pytest.mark.parametrize("command", ["check", "order", "needs", "dry"])
def test_other_commands_say_in_a_line_that_they_take_it(capsys, kept, command):
    assert run([command, "water_dye" if command == "dry" else "elbow_cop", "--json"]) == 0
    said = capsys.readouterr()
    json.loads(said.out)
    assert said.err.startswith(SAID)
    assert said.err.count("\n") == 1


def test_no_command_makes_a_workshop(capsys, usual_place):
    assert run(PLAN) == 0
    assert run(["check", "elbow_cop"]) == 0
    assert capsys.readouterr().err == ""
    assert not usual_place.parent.exists()


def test_a_usual_workshop_that_cannot_be_read_is_told_and_stops_nothing(capsys, usual_place):
    usual_place.parent.mkdir(parents=True)
    usual_place.write_bytes(b"no workshop at all")
    assert run(["check", "elbow_cop"]) == 0
    said = capsys.readouterr()
    assert "Its air and what was learned in it do not count here." in said.err
    assert usual_place.read_bytes() == b"no workshop at all"


def test_what_a_shop_file_leaves_to_be_asked_is_asked_once_beside_a_damaged_workshop(
    capsys, usual_place, tmp_path
):
    usual_place.parent.mkdir(parents=True)
    usual_place.write_bytes(b"no workshop")
    shop = tmp_path / "shop.toml"
    shop.write_text(SHOP.replace("temperature_c = 23", "temperature_c = 50"), encoding="utf-8")
    run([*PLAN, "--shop", str(shop)])
    said = capsys.readouterr().err
    assert said.count("Is that Fahrenheit?") == 1
    assert said.count("do not count here") == 1
